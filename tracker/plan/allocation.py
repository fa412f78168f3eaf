"""Allocation: stock is given out task by task, all a task takes or nothing, and never twice."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from tracker.build.coverage import Coverage
from tracker.plan.chain import Chains
from tracker.plan.line import PIECE, Line
from tracker.plan.shelf import ON_ORDER, Shelf, Taken
from tracker.plan.stocked import lots_by_part, shelf_of


@dataclass(frozen=True, slots=True)
class Lack:
    """What a task is short of.

    Parameters
    ----------
    part: id of the part, or '' where the build has none for it.
    name: what it is called.
    unit: what it is counted in.
    need: how much the task still takes.
    have: how much it could have had.
    longest: the longest single piece of it [m], 0 for a plain count.
    elsewhere: (place, quantity) out of reach today.
    due: when what is on order makes up for it (ISO date), or None.
    on_order: how much is on its way.
    robbed_by: tasks that come first and took what would have been enough.
    remnants: of what comes in pieces, the lengths there are, a sum nobody measured as one [m].
    """

    part: str
    name: str
    unit: str
    need: float
    have: float
    longest: float
    elsewhere: tuple[tuple[str, float], ...]
    due: str | None
    on_order: float
    robbed_by: tuple[str, ...]
    remnants: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Share:
    """What one task gets.

    Parameters
    ----------
    task: its id.
    taken: what it takes: everything, or what its ``subjects`` do.
    lacks: what it is short of; empty where it gets everything.
    doubts: (part's name, level) of what nobody counted: it may not be enough.
    subjects: where it gets not everything, the subjects that could be served today.
    share: the part of what is still to do that could be done, 0 to 1.
    ready_on: by date: the day when all of it is there (ISO), '' where it is there today, None
        where nobody knows.
    """

    task: str
    taken: tuple[Taken, ...] = ()
    lacks: tuple[Lack, ...] = ()
    doubts: tuple[tuple[str, str], ...] = ()
    subjects: tuple[str, ...] = ()
    share: float = 1.0
    ready_on: str | None = ""


def by_task(lines: Iterable[Line]) -> dict[str, list[Line]]:
    """Lines by the id of their task; those of no task are left out."""
    found: dict[str, list[Line]] = {}
    for line in lines:
        if line.task:
            found.setdefault(line.task, []).append(line)
    return found


def rank(
    chains: Chains, first: Collection[str] = (), late: Mapping[str, float] | None = None
) -> list[str]:
    """The order in which tasks take: late start, then hold point, then id.

    Parameters
    ----------
    first: tasks that come before all others, such as those that could begin today.
    late: when each must begin at the latest, in hours from now; worked out where not given.
    """
    late = chains.late_start() if late is None else late
    cover = chains.cover
    phases = {phase.id: phase.get("order", 99) for phase in cover.by_kind.get("phase", [])}
    gates = sorted(phases.get(hold.get("gates"), 99) for hold in cover.holds)

    def key(name: str) -> tuple[bool, float, int, str]:
        phase = phases.get(chains.tasks[name].get("phase"), 99)
        hold = sum(gate <= phase for gate in gates)
        return name not in first, round(late.get(name, 0.0), 6), hold, name

    return sorted(chains.tasks, key=key)


class Allocation:
    """Who gets what.

    Parameters
    ----------
    cover: the build.
    order: the tasks, those that take first first.
    lines: open demand by task.
    unreached: places from which nothing can be had.
    without: ids of parts of which there is none, whatever was counted.
    arrivals: does what is on order count, from its date? Else only what is there.
    partly: tasks that take what there is for some of their subjects, once all others have theirs.
    """

    def __init__(
        self,
        cover: Coverage,
        order: Sequence[str],
        lines: Mapping[str, Sequence[Line]],
        *,
        unreached: Collection[str] = (),
        without: Collection[str] = (),
        arrivals: bool = False,
        partly: Collection[str] = (),
    ) -> None:
        self.cover, self.arrivals, self.unreached = cover, arrivals, unreached
        self.lots = lots_by_part(cover.build)
        self.shelves = {
            part.id: shelf_of(
                cover.build, part, self.lots.get(part.id, {}), unreached, part.id in without
            )
            for part in cover.by_kind.get("part", [])
        }
        self.shares: dict[str, Share] = {}
        for task in order:
            self.shares[task] = self._share(task, lines.get(task, ()))
        for task in order:
            if task in partly and self.shares[task].lacks:
                self._partly(task, lines.get(task, ()))

    @property
    def robs(self) -> dict[str, tuple[str, ...]]:
        """Each task that took what another lacks now, and whom it robs."""
        found: dict[str, dict[str, None]] = {}
        for share in self.shares.values():
            for lack in share.lacks:
                for taker in lack.robbed_by:
                    found.setdefault(taker, {})[share.task] = None
        return {taker: tuple(victims) for taker, victims in found.items()}

    def _share(self, task: str, lines: Sequence[Line]) -> Share:
        parts: dict[str, list[Line]] = {}
        doubts: dict[tuple[str, str], None] = {}
        for line in lines:
            shelf = self.shelves.get(line.part)
            if shelf is None:
                doubts[line.name, "unknown"] = None
                continue
            if shelf.level in ("low", "unknown"):
                doubts[line.name, shelf.level] = None
            elif shelf.unmeasured and line.piece:
                doubts[line.name, "not measured"] = None
            parts.setdefault(line.part, []).append(line)
        owners = self._owners(task, lines)
        trial = {part: self.shelves[part].copy() for part in parts}
        taken: list[Taken] = []
        lacking: list[str] = []
        for part, rows in parts.items():
            found = trial[part].take(rows, owners)
            if found is None:
                lacking.append(part)
            else:
                taken += found
        if lacking and self.arrivals:
            return self._by_date(task, parts, lacking, trial, taken, tuple(doubts))
        if lacking:
            lacks = tuple(self._lack(part, parts[part], owners) for part in lacking)
            names = {lack.name for lack in lacks}
            rest = tuple(doubt for doubt in doubts if doubt[0] not in names)
            return Share(task, (), lacks, rest, share=0.0, ready_on=None)
        self._commit(task, trial)
        ready_on = _since(taken, trial)
        return Share(task, tuple(taken), doubts=tuple(doubts), ready_on=ready_on)

    def _owners(self, task: str, lines: Sequence[Line]) -> set[str]:
        items = self.cover.build.items
        owners = {task, *(line.subject for line in lines if line.subject)}
        return owners | {items[name].slug for name in owners if name in items}

    def _commit(self, task: str, trial: Mapping[str, Shelf]) -> None:
        for part, shelf in trial.items():
            if shelf.level is None:
                shelf.takers.append(task)
            self.shelves[part] = shelf

    def _lack(self, part: str, rows: Sequence[Line], owners: Collection[str]) -> Lack:
        shelf = self.shelves[part]
        need = sum(row.open for row in rows)
        have = sum(shelf.within(owners).values())
        longest = max((row.open / row.pieces for row in rows if row.piece), default=0.0)
        missing = max(need - have, longest)
        elsewhere = tuple(
            (place, lot.quantity)
            for place, lot in self.lots.get(part, {}).items()
            if place in self.unreached and lot.quantity
        )
        enough = shelf.whole >= need - PIECE
        return Lack(
            part,
            rows[0].name,
            rows[0].unit,
            need,
            have,
            longest,
            elsewhere,
            shelf.due(missing, longest),
            sum(quantity for _, quantity in shelf.coming),
            tuple(shelf.takers) if enough else (),
            shelf.remnants if longest else (),
        )

    def _partly(self, task: str, lines: Sequence[Line]) -> None:
        """Give a task what there is for the subjects that it can serve whole."""
        owners = self._owners(task, lines)
        by_subject: dict[str, list[Line]] = {}
        for row in lines:
            if row.part in self.shelves:
                by_subject.setdefault(row.subject, []).append(row)
        whole = by_subject.pop("", [])
        served: list[str] = []
        taken: list[Taken] = []
        for subject, rows in by_subject.items():
            found = _serve(self.shelves, rows, owners)
            if found is not None:
                served.append(subject)
                taken += found
        share = len(served) / len(by_subject) if by_subject else 1.0
        for row in whole:
            shelf = self.shelves[row.part]
            if shelf.level is None:
                share = min(share, sum(shelf.within(owners).values()) / row.open)
        subjects = tuple(served) if share > 0 else ()
        self.shares[task] = replace(
            self.shares[task], taken=tuple(taken), subjects=subjects, share=max(0.0, share)
        )

    def _by_date(
        self,
        task: str,
        parts: Mapping[str, Sequence[Line]],
        lacking: Sequence[str],
        trial: dict[str, Shelf],
        taken: list[Taken],
        doubts: tuple[tuple[str, str], ...],
    ) -> Share:
        """Give a task what is there and what is coming, and say from when."""
        owners = self._owners(task, [row for rows in parts.values() for row in rows])
        for part in lacking:
            shelf = trial[part]
            while (found := shelf.take(parts[part], owners)) is None and shelf.coming:
                shelf.arrive(any(row.piece for row in parts[part]))
            if found is None:
                lacks = tuple(self._lack(part, parts[part], owners) for part in lacking)
                return Share(task, (), lacks, doubts, (), 0.0, None)
            taken += found
        self._commit(task, trial)
        return Share(task, tuple(taken), doubts=doubts, ready_on=_since(taken, trial))


def _since(taken: Iterable[Taken], shelves: Mapping[str, Shelf]) -> str | None:
    """The day when all that was taken is there: '' for today, None where nobody knows."""
    days = {shelves[row.part].since for row in taken if row.place == ON_ORDER}
    return None if None in days else max((day for day in days if day), default="")


def _serve(
    shelves: dict[str, Shelf], rows: Sequence[Line], owners: Collection[str]
) -> list[Taken] | None:
    """Take one subject's lines from the shelves, all of them, or nothing and give None."""
    parts: dict[str, list[Line]] = {}
    for row in rows:
        parts.setdefault(row.part, []).append(row)
    tried = {part: shelves[part].copy() for part in parts}
    taken: list[Taken] = []
    for part, lines in parts.items():
        found = tried[part].take(lines, owners)
        if found is None:
            return None
        taken += found
    shelves.update(tried)
    return taken
