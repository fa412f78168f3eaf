"""Spools and remnants in whole millimetres, and pieces cut from them; no piece is ever joined.

A piece is rounded up, a spool down, so that what is planned can be cut.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace
from math import ceil, floor

from tracker.plan.cutting import CutPlan, cut_plan
from tracker.plan.shelf import ON_ORDER, Shelf
from tracker.plan.stocked import put_ups

TO_BUY = "to buy"
"""The place of a spool that must be bought."""
MM = 1000
CLOSE = 1e-6


@dataclass(frozen=True, slots=True)
class Piece:
    """One length that can't be joined from two.

    Parameters
    ----------
    task: the id of the task that takes it, or ''.
    subject: the id of what it is for.
    length_m: with its leads.
    """

    task: str
    subject: str
    length_m: float


@dataclass(slots=True)
class Spool:
    """A spool while it is planned: whole millimetres, and what is cut from it."""

    place: str
    length: int
    measured: bool = True
    pieces: list[Piece] = field(default_factory=list)

    @property
    def over(self) -> int:
        """What is not cut from it yet [mm]."""
        return self.length - sum(map(rounded_up, self.pieces))


def rounded_up(piece: Piece) -> int:
    """The length of a piece [mm]."""
    return max(1, ceil(piece.length_m * MM - CLOSE))


def lengths_on_hand(shelf: Shelf, owners: Collection[str]) -> list[Spool]:
    """The lengths on hand, less what is kept for something else; a sum counts as one length."""
    spools = [
        Spool(place, floor(length * MM + CLOSE))
        for place, lengths in shelf.lengths.items()
        for length in lengths
    ]
    spools += [
        Spool(place, floor(quantity * MM + CLOSE), measured=False)
        for place, quantity in shelf.free.items()
    ]
    for place, whose, quantity in shelf.kept:
        rest = 0 if whose in owners else ceil(quantity * MM - CLOSE)
        there = sorted((each for each in spools if each.place == place), key=lambda s: s.length)
        for spool in sorted(there, key=lambda each: each.length < rest):
            off = min(rest, spool.length)
            spool.length -= off
            rest -= off
    return [each for each in spools if each.length > 0]


def lengths_coming(shelf: Shelf, put_up_m: float) -> list[Spool]:
    """What is on order: in the lengths it is sold in, where that is known.

    Parameters
    ----------
    put_up_m: the length it is sold in, or 0.
    """
    lengths = [length for _, some in shelf.coming for length in put_ups(some, put_up_m)]
    found = [Spool(ON_ORDER, floor(length * MM + CLOSE)) for length in lengths]
    return [each for each in found if each.length > 0]


def cut_from(
    pieces: Sequence[Piece], spools: Sequence[Spool], put_up: int | None = None
) -> tuple[list[Spool], list[Piece], CutPlan]:
    """Cut pieces from what is over of spools and from new ones.

    Gives copies of the spools and the bought ones after them, the pieces without one, and the plan.
    """
    found = [replace(spool, pieces=list(spool.pieces)) for spool in spools]
    able = [spool for spool in found if spool.over > 0]
    plan = cut_plan([rounded_up(piece) for piece in pieces], [spool.over for spool in able], put_up)
    alike: dict[int, list[Piece]] = {}
    for piece in reversed(pieces):
        alike.setdefault(rounded_up(piece), []).append(piece)
    for cut in plan.cuts:
        own = [alike[length].pop() for length in cut.pieces]
        if cut.stock is None:
            found.append(Spool(TO_BUY, cut.length, pieces=own))
        else:
            able[cut.stock].pieces += own
    over = [piece for rows in alike.values() for piece in rows]
    return found, sorted(over, key=lambda piece: (-piece.length_m, piece.subject)), plan
