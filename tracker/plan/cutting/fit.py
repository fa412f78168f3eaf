"""Can these pieces be cut from these bars, and how: quick ways first, then the exact search."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from tracker.plan.cutting.bounds import least_bought
from tracker.plan.cutting.columns import by_columns
from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.greedy import Loads, fullest_first
from tracker.plan.cutting.repack import repack
from tracker.plan.cutting.search import search

MOST_BITS = 400_000_000
"""Sums of pieces are held as bits; more than this many would fill the memory."""


def counted(pieces: Sequence[int]) -> tuple[list[int], list[int]]:
    """The lengths, longest first, and how many there are of each."""
    count = Counter(pieces)
    sizes = sorted(count, reverse=True)
    return sizes, [count[size] for size in sizes]


def bits_allowed(pieces: int, bars: Sequence[int]) -> bool:
    """Whether sums of so many pieces can be looked at for bars of these lengths."""
    return pieces * max(bars, default=0) <= MOST_BITS


def fit(pieces: Sequence[int], bars: Sequence[int], effort: Effort) -> tuple[Loads | None, bool]:
    """(a load for each bar, all pieces in one, or None; whether that is certain).

    Parameters
    ----------
    pieces: lengths, longest first.
    bars: what each takes, shortest first.
    effort: steps.
    """
    if not pieces:
        return [[] for _ in bars], True
    if not bars or pieces[0] > bars[-1] or sum(pieces) > sum(bars):
        return None, True
    sizes, counts = counted(pieces)
    effort.spend(_cost(len(sizes), len(pieces), len(bars)))
    if least_bought(sizes, counts, bars, bars[-1]):
        return None, True
    if not bits_allowed(len(pieces), bars):
        return None, False
    loads, over = fullest_first(pieces, bars)
    if not over:
        return loads, True
    purse = effort.share(1, 4)
    packed = repack(loads, over, bars, purse)
    effort.give_back(purse)
    if packed is not None:
        return packed, True
    return surely(pieces, bars, effort)


def _cost(sizes: int, pieces: int, bars: int) -> int:
    """Steps that the bound and a first plan are worth."""
    return (sizes + min(400, 5 * sizes)) * sizes // 30 + pieces * bars // 30


def surely(pieces: Sequence[int], bars: Sequence[int], effort: Effort) -> tuple[Loads | None, bool]:
    """As ``fit``, by search and by linear programming in turn."""
    sizes, counts = counted(pieces)
    purse = effort.share(1, 4)
    found, certain = search(sizes, counts, bars, purse)
    effort.give_back(purse)
    if certain:
        return found, True
    purse = effort.share(1, 2)
    needed = by_columns(sizes, counts, bars, bars[-1], 0, 1, purse).least
    effort.give_back(purse)
    return (None, True) if needed else search(sizes, counts, bars, effort)
