"""Cuts: which spool each open piece is cut from, what is over of it, and what must be bought.

Spools on hand serve the next hold point first. No piece is ever joined, so that enough metres in
all can still be too few. What is only said to be plenty or low is never cut from: nobody knows
what would reach.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from math import floor

from tracker.build.coverage import Coverage
from tracker.plan.line import Line
from tracker.plan.shelf import ON_ORDER
from tracker.plan.spools import (
    CLOSE,
    MM,
    TO_BUY,
    Piece,
    Spool,
    cut_from,
    lengths_coming,
    lengths_on_hand,
    rounded_up,
)
from tracker.plan.stocked import lots_by_part, shelf_of
from tracker.plan.todo import next_hold, tasks_before


@dataclass(frozen=True, slots=True)
class Bar:
    """One spool or remnant that is cut into, and its pieces.

    Parameters
    ----------
    place: where it lies, or ``ON_ORDER``, or ``TO_BUY``.
    length_m: what there is of it now.
    pieces: what is cut from it, longest first.
    remnant_m: what is over of it.
    measured: did somebody measure it, or is it a sum that may lie in several lengths?
    """

    place: str
    length_m: float
    pieces: tuple[Piece, ...]
    remnant_m: float
    measured: bool = True


@dataclass(frozen=True, slots=True)
class Cuts:
    """The cutting plan of one part.

    Parameters
    ----------
    part: its id, or '' where the build has none for these pieces.
    name: what it is called, or should be.
    bars: what is cut into: on hand, then on order, then to buy.
    said: (place, level) where somebody only said plenty, low or unknown.
    unplaced: pieces that no length on hand reaches and that can't be bought as they are.
    on_hand_m: lengths on hand [m], longest first.
    summed: (place, quantity [m]) known as a sum alone.
    put_up_m: the length it is sold in, or None.
    bought: how many of those must be bought.
    proved: certainly no fewer would do.
    """

    part: str
    name: str
    bars: tuple[Bar, ...]
    said: tuple[tuple[str, str], ...]
    unplaced: tuple[Piece, ...]
    on_hand_m: tuple[float, ...]
    summed: tuple[tuple[str, float], ...]
    put_up_m: float | None
    bought: int
    proved: bool

    @property
    def from_hand(self) -> bool:
        """Is every piece cut from a length on hand that somebody measured?"""
        return not self.beyond and all(bar.measured for bar in self.bars)

    @property
    def beyond(self) -> tuple[Piece, ...]:
        """The pieces that nothing on hand serves, longest first."""
        later = [
            each for bar in self.bars if bar.place in (ON_ORDER, TO_BUY) for each in bar.pieces
        ]
        return tuple(sorted([*later, *self.unplaced], key=lambda piece: -piece.length_m))

    @property
    def short_of_m(self) -> float | None:
        """The longest piece [m] that no length on hand reaches though there are metres enough."""
        if self.said:
            return None
        sums = [quantity for _, quantity in self.summed]
        longest = max((*self.on_hand_m, *sums), default=0.0)
        there = sum(self.on_hand_m) + sum(sums)
        for piece in self.beyond:
            if longest + CLOSE < piece.length_m <= there + CLOSE:
                return piece.length_m
        return None


def cuts(cover: Coverage, lines: Iterable[Line]) -> list[Cuts]:
    """The cutting plan of every part of which pieces are open, by name.

    Where what is on hand serves all pieces, nothing is bought. Else it serves as many as it can
    of those before the next hold point, then of the others, and the fewest spools are bought.

    Parameters
    ----------
    lines: open demand.
    """
    by_part: dict[tuple[str, str], list[Line]] = {}
    for line in lines:
        if line.piece and line.open > CLOSE:
            key = (line.part, "" if line.part else line.name)
            by_part.setdefault(key, []).append(line)
    hold = next_hold(cover)
    near = {task.id for task in tasks_before(cover, hold)} if hold else set()
    if hold and hold.get("closed_by"):
        near.add(str(hold.get("closed_by")))
    found = [_cuts_of(cover, part, rows, near) for (part, _), rows in by_part.items()]
    return sorted(found, key=lambda row: row.name)


def _cuts_of(cover: Coverage, part: str, lines: Sequence[Line], near: Collection[str]) -> Cuts:
    name, item = lines[0].name, cover.build.items.get(part)
    pieces = [
        Piece(line.task, line.subject, line.open / line.pieces)
        for line in lines
        for _ in range(line.pieces)
    ]
    pieces.sort(key=lambda piece: (-rounded_up(piece), piece.subject, piece.task))
    if item is None:
        return Cuts("", name, (), (), tuple(pieces), (), (), None, 0, proved=True)
    lots = lots_by_part(cover.build).get(part, {})
    said = tuple(
        (place, lot.level or "unknown") for place, lot in lots.items() if lot.quantity is None
    )
    if not lots and not cover.build.orders.get(part):
        said = (("", "unknown"),)
    known = {place: lot for place, lot in lots.items() if lot.quantity is not None}
    shelf = shelf_of(cover.build, item, known, (), False)
    hand = lengths_on_hand(shelf, {line.task for line in lines} | {line.subject for line in lines})
    put_up = floor(float(item.get("pack") or 0.0) * MM + CLOSE) or None
    coming = lengths_coming(shelf, (put_up or 0) / MM)
    # Where nobody can say how much there is, what to buy would be a guess.
    spools, unplaced, proved = _planned(pieces, hand, coming, None if said else put_up, near)
    return Cuts(
        part,
        name,
        tuple(_bar(spool) for spool in spools if spool.pieces),
        said,
        tuple(unplaced),
        tuple(sorted((each.length / MM for each in hand if each.measured), reverse=True)),
        tuple((each.place, each.length / MM) for each in hand if not each.measured),
        put_up / MM if put_up else None,
        sum(spool.place == TO_BUY for spool in spools),
        proved,
    )


def _bar(spool: Spool) -> Bar:
    pieces = sorted(spool.pieces, key=lambda piece: (-piece.length_m, piece.subject))
    return Bar(spool.place, spool.length / MM, tuple(pieces), spool.over / MM, spool.measured)


def _planned(
    pieces: Sequence[Piece],
    hand: Sequence[Spool],
    coming: Sequence[Spool],
    put_up: int | None,
    near: Collection[str],
) -> tuple[list[Spool], list[Piece], bool]:
    """(spools with what is cut from them, pieces without one, is no better plan possible?)"""
    for able in ([spool for spool in hand if spool.measured], hand):
        spools, over, _ = cut_from(pieces, able)
        if not over:
            return spools, [], True
    spools, over, best = cut_from(pieces, [*hand, *coming], put_up)
    first = [piece for piece in pieces if piece.task in near]
    staged, missing, _ = cut_from(first, hand)
    if _served(spools[: len(hand)], near) < len(first) - len(missing):
        later = [piece for piece in pieces if piece.task not in near]
        spools, over, _ = cut_from([*missing, *later], [*staged, *coming], put_up)
    fewest = sum(spool.place == TO_BUY for spool in spools) <= best.lower_bound
    return spools, over, best.proved and fewest and len(over) == len(best.unplaced)


def _served(spools: Sequence[Spool], near: Collection[str]) -> int:
    """How many pieces of some tasks are cut from spools."""
    return sum(piece.task in near for spool in spools for piece in spool.pieces)
