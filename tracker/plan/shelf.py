"""What there is of one part, place by place, and how a task's lines are met from it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from tracker.plan.all_cut import all_cut
from tracker.plan.line import PIECE, Line

ON_ORDER = "on order"
"""The place of what has not come yet, where arrivals count."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What a task takes of a part from a place.

    Parameters
    ----------
    part: its id.
    place: where it lies.
    quantity: in the part's unit.
    cut_from: for a piece of wire, the length [m] that it is cut from, or None.
    subject: what a piece is for, or ''.
    """

    part: str
    place: str
    quantity: float
    cut_from: float | None = None
    subject: str = ""


@dataclass(slots=True)
class Shelf:
    """What is free of one part.

    Parameters
    ----------
    part: its id.
    level: plenty, low or unknown where nobody can say how much; else None.
    free: counted quantities by place.
    lengths: measured lengths by place; no piece is ever joined from two.
    kept: (place, what for, quantity) that somebody set aside.
    coming: (due date or None, quantity), the first to come first.
    whole: what there was before anything was taken.
    takers: the tasks that took some.
    unmeasured: is some of it wire of which only the sum is known?
    since: the day by which what lies at ``ON_ORDER`` has come, '' for today, None for unknown.
    """

    part: str
    level: str | None = None
    free: dict[str, float] = field(default_factory=dict)
    lengths: dict[str, list[float]] = field(default_factory=dict)
    kept: list[tuple[str, str, float]] = field(default_factory=list)
    coming: list[tuple[str | None, float]] = field(default_factory=list)
    whole: float = 0.0
    takers: list[str] = field(default_factory=list)
    unmeasured: bool = False
    since: str | None = ""

    def copy(self) -> Shelf:
        """One that may be taken from without taking from this."""
        lengths = {place: list(rows) for place, rows in self.lengths.items()}
        return Shelf(
            self.part,
            self.level,
            dict(self.free),
            lengths,
            list(self.kept),
            list(self.coming),
            self.whole,
            list(self.takers),
            self.unmeasured,
            self.since,
        )

    def within(self, owners: Collection[str]) -> dict[str, float]:
        """What an owner may take, by place: what is free and not kept for anybody else."""
        able = dict(self.free)
        for place, rows in self.lengths.items():
            able[place] = able.get(place, 0.0) + sum(rows)
        for place, whose, quantity in self.kept:
            if whose not in owners and place in able:
                able[place] = max(0.0, able[place] - quantity)
        return able

    @property
    def remnants(self) -> tuple[float, ...]:
        """The lengths there are; a sum that nobody measured counts as one."""
        rows = [bar for bars in self.lengths.values() for bar in bars]
        return tuple(each for each in (*rows, *self.free.values()) if each > PIECE)

    def take(self, lines: Sequence[Line], owners: Collection[str]) -> list[Taken] | None:
        """Take what lines ask for, all of it, or nothing and give None."""
        if self.level is not None:
            return []
        pieces = [line for line in lines if line.piece]
        count = sum(line.open for line in lines if not line.piece)
        able = self.within(owners)
        need = count + sum(line.open for line in pieces)
        if need > sum(able.values()) + PIECE:
            return None
        cuts = self._cut(pieces, able)
        if cuts is None:
            return None
        found, lengths, pooled = cuts
        rest = count
        taken: dict[str, float] = dict(pooled)
        for place in sorted(self.free, key=lambda name: -able.get(name, 0.0)):
            some = min(rest, able.get(place, 0.0) - taken.get(place, 0.0), self.free[place])
            if some > PIECE:
                taken[place] = taken.get(place, 0.0) + some
                found.append(Taken(self.part, place, some))
                rest -= some
        for place, bars in lengths.items():
            room = able.get(place, 0.0) - sum(row.quantity for row in found if row.place == place)
            for number in sorted(range(len(bars)), key=bars.__getitem__):
                some = min(rest, bars[number], room)
                if some > PIECE:
                    found.append(Taken(self.part, place, some))
                    bars[number] -= some
                    rest, room = rest - some, room - some
        if rest > PIECE:
            return None
        for place, some in taken.items():
            self.free[place] -= some
        self.lengths = lengths
        self._unkeep(found, owners)
        return found

    def _cut(
        self, pieces: Sequence[Line], able: dict[str, float]
    ) -> tuple[list[Taken], dict[str, list[float]], dict[str, float]] | None:
        """Cut the longest piece first, each from the shortest length that reaches.

        Where that does not serve all, it is searched whether they can be cut in another way.
        """
        lengths = {place: list(rows) for place, rows in self.lengths.items()}
        pooled: dict[str, float] = {}
        budget = dict(able)
        found: list[Taken] = []
        wanted = [
            (line.open / line.pieces, line.subject) for line in pieces for _ in range(line.pieces)
        ]
        for length, subject in sorted(wanted, key=lambda row: (-row[0], row[1])):
            reaching = [
                (bar, place, number)
                for place, rows in lengths.items()
                for number, bar in enumerate(rows)
                if bar >= length - PIECE and budget.get(place, 0.0) >= length - PIECE
            ]
            if reaching:
                bar, place, number = min(reaching)
                lengths[place][number] = max(0.0, bar - length)
            else:
                loose = [
                    place
                    for place, some in self.free.items()
                    if min(some - pooled.get(place, 0.0), budget.get(place, 0.0)) >= length - PIECE
                ]
                if not loose:
                    return self._cut_exactly(sorted(wanted, reverse=True), able)
                bar, place = None, min(loose)
                pooled[place] = pooled.get(place, 0.0) + length
            budget[place] -= length
            found.append(Taken(self.part, place, length, bar, subject))
        return found, lengths, pooled

    def _cut_exactly(
        self, wanted: Sequence[tuple[float, str]], able: Mapping[str, float]
    ) -> tuple[list[Taken], dict[str, list[float]], dict[str, float]] | None:
        """All pieces by an exact search; none where a place keeps something for somebody else."""
        lengths = {place: list(rows) for place, rows in self.lengths.items()}
        bars = [(place, number) for place, rows in lengths.items() for number in range(len(rows))]
        free = [place for place, some in self.free.items() if some > PIECE]
        whole = {place: sum(rows) for place, rows in lengths.items()}
        for place in free:
            whole[place] = whole.get(place, 0.0) + self.free[place]
        if any(able.get(place, 0.0) < some - PIECE for place, some in whole.items()):
            return None
        loose = [self.free[place] for place in free]
        found = all_cut(
            [length for length, _ in wanted], [*(lengths[p][n] for p, n in bars), *loose]
        )
        if found is None:
            return None
        taken: list[Taken] = []
        pooled: dict[str, float] = {}
        for (length, subject), at in zip(wanted, found, strict=True):
            if at < len(bars):
                place, number = bars[at]
                taken.append(Taken(self.part, place, length, lengths[place][number], subject))
                lengths[place][number] = max(0.0, lengths[place][number] - length)
            else:
                place = free[at - len(bars)]
                taken.append(Taken(self.part, place, length, None, subject))
                pooled[place] = pooled.get(place, 0.0) + length
        return taken, lengths, pooled

    def _unkeep(self, found: Iterable[Taken], owners: Collection[str]) -> None:
        """What was set aside for an owner is no longer kept once it is taken."""
        taken: dict[str, float] = {}
        for row in found:
            taken[row.place] = taken.get(row.place, 0.0) + row.quantity
        still = []
        for place, whose, quantity in self.kept:
            if whose in owners:
                off = min(quantity, taken.get(place, 0.0))
                taken[place] = taken.get(place, 0.0) - off
                quantity -= off
            if quantity > PIECE:
                still.append((place, whose, quantity))
        self.kept = still

    def arrive(self, as_length: bool) -> None:
        """Count the next order as there, from its date."""
        due, quantity = self.coming.pop(0)
        if as_length:
            self.lengths.setdefault(ON_ORDER, []).append(quantity)
        else:
            self.free[ON_ORDER] = self.free.get(ON_ORDER, 0.0) + quantity
        self.since = None if due is None or self.since is None else max(self.since, due)

    def due(self, missing: float, longest: float) -> str | None:
        """When what is on order makes up for what is missing (ISO date), or None.

        Parameters
        ----------
        missing: how much.
        longest: the longest single piece among it, 0 where it is a plain count.
        """
        for due, quantity in self.coming:
            if quantity >= longest - PIECE:
                missing -= quantity
                if missing <= PIECE:
                    return due
        return None
