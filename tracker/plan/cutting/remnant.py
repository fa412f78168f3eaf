"""Of plans that buy equally few bars, the one that leaves the longest piece whole."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fit import fit
from tracker.plan.cutting.greedy import Loads


def longest_remnant(
    pieces: Sequence[int], bars: Sequence[int], loads: Loads, effort: Effort
) -> Loads:
    """Loads of the same bars with the longest single rest that the effort finds.

    A bar that is not cut into is a rest as long as itself. The rest is treated as one more piece
    to be cut; whatever length of it fits, a shorter one does too.

    Parameters
    ----------
    pieces: lengths.
    bars: what each takes.
    loads: a plan with all the pieces.
    effort: steps.
    """
    order = sorted(range(len(bars)), key=bars.__getitem__)
    rising = [bars[at] for at in order]
    shortest = _longest(bars, loads)
    longest = min(sum(bars) - sum(pieces), max(bars, default=0))
    while shortest < longest and effort.left > 0:
        rest = (shortest + longest + 1) // 2
        purse = effort.share(1, 4)
        found, _ = fit(sorted([*pieces, rest], reverse=True), rising, purse)
        effort.give_back(purse)
        if found is None:
            longest = rest - 1
            continue
        next(load for load in found if rest in load).remove(rest)
        loads = [load for _, load in sorted(zip(order, found, strict=True))]
        shortest = max(rest, _longest(bars, loads))
    return loads


def _longest(bars: Sequence[int], loads: Loads) -> int:
    return max((bar - sum(load) for bar, load in zip(bars, loads, strict=True)), default=0)
