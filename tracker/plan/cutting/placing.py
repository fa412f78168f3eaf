"""Which pieces are cut at all where bars are short: as many as possible, the shortest ones.

Whatever number of pieces fits, as many of the shortest fit too, and leave no less over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fit import fit
from tracker.plan.cutting.greedy import Loads, first_fit


@dataclass(frozen=True, slots=True)
class Placed:
    """The pieces that are cut from bars on hand because nothing else takes them.

    Parameters
    ----------
    pieces: lengths, longest first.
    loads: the pieces of each bar on hand.
    certain: whether more than these surely can't be placed.
    """

    pieces: tuple[int, ...]
    loads: Loads
    certain: bool


def most_placed(
    pieces: Sequence[int], bars: Sequence[int], given: Sequence[int], effort: Effort
) -> Placed:
    """As many of the pieces as the effort finds room for.

    Parameters
    ----------
    pieces: lengths, longest first.
    bars: what is on hand, shortest first.
    given: places in ``bars`` in the order in which they were given.
    effort: steps.
    """
    wanted = [piece for piece in pieces if piece <= max(bars, default=0)]
    loads = max((_at_once(wanted, bars, way) for way in (given, given[::-1])), key=_number)
    fitting, failing, certain = _number(loads), len(wanted) + 1, True
    while fitting + 1 < failing:
        # All of them first: most often there is enough.
        number = len(wanted) if failing > len(wanted) else (fitting + failing) // 2
        purse = effort.share(1, 4)
        found, surely = fit(wanted[len(wanted) - number :], bars, purse)
        effort.give_back(purse)
        if found is None:
            failing, certain = number, surely
        else:
            fitting, loads = number, found
    return Placed(tuple(wanted[len(wanted) - fitting :]), loads, certain)


def _number(loads: Loads) -> int:
    return sum(map(len, loads))


def _at_once(pieces: Sequence[int], bars: Sequence[int], way: Sequence[int]) -> Loads:
    """First fit, with each piece placed then changed for one of the shortest, in rising order."""
    filled, _ = first_fit(pieces, [bars[at] for at in way], 0)
    slots = sorted((piece, at) for at, load in zip(way, filled, strict=True) for piece in load)
    loads: Loads = [[] for _ in bars]
    for (_, at), piece in zip(slots, reversed(pieces), strict=False):
        loads[at].append(piece)
    return loads
