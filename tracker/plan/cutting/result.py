"""What a cutting plan says."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cut:
    """One bar that is cut into.

    Parameters
    ----------
    length: of the bar, whole units.
    pieces: lengths cut from it, longest first; at least one.
    remnant: what is over of it: length less the pieces less a kerf between each two of them.
        Where it is cut off the last piece, one more kerf goes.
    stock: its place in the stock given, from 0; None for a bar that must be bought.
    """

    length: int
    pieces: tuple[int, ...]
    remnant: int
    stock: int | None


@dataclass(frozen=True, slots=True)
class CutPlan:
    """Which piece is cut from which bar.

    Parameters
    ----------
    cuts: bars on hand in the order given, then bought ones; bars not cut into are left out.
    bought: bars to buy.
    lower_bound: fewer bought bars can't do for the pieces placed.
    proved: nothing better was overlooked: no more pieces can be placed, and ``bought`` equals
        ``lower_bound``. The longest remnant is not covered by it.
    unplaced: pieces that can't be cut from what is on hand or can be bought, longest first.
    """

    cuts: tuple[Cut, ...]
    bought: int
    lower_bound: int
    proved: bool
    unplaced: tuple[int, ...]
