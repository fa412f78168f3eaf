"""Buy as few bars as possible."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from tracker.plan.cutting.bounds import least_bought
from tracker.plan.cutting.columns import Columns, by_columns
from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fit import bits_allowed, counted
from tracker.plan.cutting.greedy import Loads, first_fit, fullest_first
from tracker.plan.cutting.repack import repack
from tracker.plan.cutting.search import search


@dataclass(frozen=True, slots=True)
class Bought:
    """A plan and how good it is known to be.

    Parameters
    ----------
    loads: the pieces of each bar of ``stock``, then of each bar bought.
    number: bars bought.
    least: fewer than this is impossible.
    """

    loads: Loads
    number: int
    least: int


def fewest_bought(
    pieces: Sequence[int],
    stock: Sequence[int],
    bar: int,
    first: Loads,
    given: Sequence[int],
    effort: Effort,
) -> Bought:
    """All pieces from the stock and as few bars bought as the effort finds.

    Parameters
    ----------
    pieces: lengths, longest first; each at most ``bar`` or in ``first``.
    stock: the bars on hand, shortest first.
    bar: the bar that can be bought without limit.
    first: a load of each bar on hand with all pieces longer than ``bar``, such that they fit.
    given: places in ``stock`` in the order in which they were given.
    effort: steps.
    """
    hunt = _Hunt(pieces, stock, bar, effort)
    hunt.begin(first, given)
    return hunt.run()


class _Hunt:
    def __init__(
        self, pieces: Sequence[int], stock: Sequence[int], bar: int, effort: Effort
    ) -> None:
        self.pieces, self.stock, self.bar, self.effort = pieces, list(stock), bar, effort
        self.sizes, self.counts = counted(pieces)
        self.least = least_bought(self.sizes, self.counts, stock, bar)
        self.loads: Loads = []

    def begin(self, first: Loads, given: Sequence[int]) -> None:
        """Take the best of the plans that are made at once."""
        self.loads = min(self._quick(first, given), key=len)

    @property
    def number(self) -> int:
        return len(self.loads) - len(self.stock)

    def run(self) -> Bought:
        if bits_allowed(len(self.pieces), [*self.stock, self.bar]):
            # Where next to nothing may be wasted the search finds its way; else repacking does.
            empty = sum(self._bars(self.least)) - sum(self.pieces)
            if empty < min(self.pieces, default=0):
                self._searched(1, 5 if empty else 2)
                self._repacked()
            else:
                self._repacked()
                self._searched(1, 5)
            if self.least < self.number:
                self._bettered()
            self._searched(1, 1)
        return Bought(self.loads, self.number, self.least)

    def _bars(self, bought: int) -> list[int]:
        return self.stock + [self.bar] * bought

    def _quick(self, first: Loads, given: Sequence[int]) -> Iterator[Loads]:
        """Plans made at once; the long pieces lie as ``first`` has them."""
        rest = sorted(
            (Counter(self.pieces) - Counter(chain.from_iterable(first))).elements(), reverse=True
        )
        rooms = [have - sum(load) for have, load in zip(self.stock, first, strict=True)]
        rising = range(len(rooms))
        for way in (given, rising, rising[::-1]):
            loads, _ = first_fit(rest, [rooms[at] for at in way], self.bar)
            yield self._joined(first, way, loads)
        if bits_allowed(len(self.pieces), [*self.stock, self.bar]):
            loads, _ = fullest_first(rest, rooms, self.bar)
            yield self._joined(first, rising, loads)

    def _joined(self, first: Loads, way: Sequence[int], loads: Loads) -> Loads:
        """What was there and what was added in the order ``way``, then the bars bought."""
        joined = [list(load) for load in first]
        for at, load in zip(way, loads, strict=False):
            joined[at] += load
        return joined + loads[len(way) :]

    def _repacked(self) -> None:
        """Repack for the least number, then for one more, and so on."""
        for bought in range(self.least, self.number):
            loads, over = fullest_first(self.pieces, self._bars(bought))
            if self._taken(loads, over, bought, 1, 4, 1):
                return

    def _taken(
        self, loads: Loads, over: list[int], bought: int, part: int, whole: int, start: int
    ) -> bool:
        purse = self.effort.share(part, whole)
        packed = repack(loads, over, self._bars(bought), purse, start)
        self.effort.give_back(purse)
        if packed is not None:
            self.loads = packed
        return packed is not None

    def _searched(self, part: int, whole: int) -> None:
        while self.least < self.number:
            purse = self.effort.share(part, whole)
            bars = self._bars(self.least)
            order = sorted(range(len(bars)), key=bars.__getitem__)
            loads, certain = search(self.sizes, self.counts, [bars[at] for at in order], purse)
            self.effort.give_back(purse)
            if loads is not None:
                self.loads = [load for _, load in sorted(zip(order, loads, strict=True))]
            elif certain:
                self.least += 1
            else:
                return

    def _bettered(self) -> None:
        """A better bound by linear programming, and plans from the fills it found."""
        purse = self.effort.share(4, 5)
        columns = by_columns(
            self.sizes, self.counts, self.stock, self.bar, self.least, self.number, purse
        )
        self.effort.give_back(purse)
        self.least = max(self.least, columns.least)
        for bought in range(self.least, self.number):
            loads, over = self._rounded(columns, bought)
            if self._taken(loads, over, bought, 1, 2, 2):
                return

    def _rounded(self, columns: Columns, bought: int) -> tuple[Loads, list[int]]:
        """Whole fills out of fractions: as often as it goes, then those nearest to one more."""
        bars = self._bars(bought)
        loads: Loads = [[] for _ in bars]
        free: dict[int, list[int]] = {}
        for at in range(len(bars) - 1, -1, -1):
            free.setdefault(bars[at], []).append(at)
        to_cut = Counter(self.pieces)
        whole = [
            (length, load, 1.0) for length, load, often in columns.fills for _ in range(int(often))
        ]
        parts = sorted(columns.fills, key=lambda fill: int(fill[2]) - fill[2])
        for length, numbers, _ in whole + parts:
            wanted = Counter(
                {size: often for size, often in zip(self.sizes, numbers, strict=True) if often}
            )
            if free.get(length) and wanted <= to_cut:
                loads[free[length].pop()] = list(wanted.elements())
                to_cut -= wanted
        rest = sorted(to_cut.elements(), reverse=True)
        empty = [at for at in range(len(bars)) if not loads[at]]
        filled, over = fullest_first(rest, [bars[at] for at in empty])
        for at, load in zip(empty, filled, strict=True):
            loads[at] = load
        return loads, over
