"""Exact search: can these pieces be cut from these bars?

Bars are filled one after the other, the short ones first. Once all bars left are equally long,
the bar filled next is the one that takes the longest piece. Only fills that no exchange betters
are tried: whatever plan there is, one of them leads to a plan too, because a longer piece moved
forward makes room further back.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fill import Chosen, fills, sums_from
from tracker.plan.cutting.greedy import Loads

WEIGHT_BITS = 100_000
"""A fill tried costs a step more for so many bits looked at, since long bars take longer."""


def search(
    sizes: Sequence[int], counts: Sequence[int], bars: Sequence[int], effort: Effort
) -> tuple[Loads | None, bool]:
    """(loads of all the pieces, or None; whether that is certain).

    Parameters
    ----------
    sizes: lengths, longest first.
    counts: how many there are of each.
    bars: what each bar takes, shortest first.
    effort: steps; a fill tried costs two or more.
    """
    return _Search(sizes, counts, bars, effort).run()


class _Search:
    def __init__(
        self, sizes: Sequence[int], counts: Sequence[int], bars: Sequence[int], effort: Effort
    ) -> None:
        self.sizes, self.counts, self.bars, self.effort = sizes, list(counts), bars, effort
        self.alike_from = bars.index(bars[-1]) if bars else 0
        self.weight = 3 + len(sizes) // 40 + max(bars, default=0) * len(sizes) // WEIGHT_BITS
        self.failed: set[tuple[int, ...]] = set()

    def run(self) -> tuple[Loads | None, bool]:
        slack = sum(self.bars) - sum(map(int.__mul__, self.sizes, self.counts))
        if slack < 0:
            return None, True
        if not any(self.counts):
            return [[] for _ in self.bars], True
        done: list[Chosen] = []
        open_bars = [(slack, self._choices(0, slack, self.bars[-1] + 1))]
        while open_bars:
            slack, choices = open_bars[-1]
            number = len(open_bars) - 1
            for empty, chosen in choices:
                self._take(chosen, -1)
                if not any(self.counts):
                    return self._loads([*done, chosen]), True
                key = self._key(number + 1, self.bars[number] - empty)
                if number + 1 == len(self.bars) or key in self.failed:
                    self._take(chosen, 1)
                    continue
                done.append(chosen)
                limit = self.bars[number] - empty
                open_bars.append((slack - empty, self._choices(number + 1, slack - empty, limit)))
                break
            else:
                if self.effort.left <= 0:
                    return None, False
                open_bars.pop()
                if done:
                    chosen = done.pop()
                    self.failed.add(self._key(number, self._sum(chosen)))
                    self._take(chosen, 1)
        return None, True

    def _choices(self, number: int, slack: int, before: int) -> Iterator[tuple[int, Chosen]]:
        """The fills worth trying for bar ``number``, the fullest first.

        Equal bars are filled in falling order of their sum, so that ``before``, the sum of the
        bar just filled, limits an equal one.
        """
        room, counts = self.bars[number], list(self.counts)
        least = max(0, room - slack)
        spend, weight = self.effort.spend, self.weight
        if number >= self.alike_from:
            first = self._scarcest(room, slack)
            if first is None:
                return
            counts[first] -= 1
            size = self.sizes[first]
            if size > room:
                return
            for empty, chosen in fills(self.sizes, counts, room - size, max(0, least - size)):
                if not spend(weight):
                    return
                if not self._bettered(counts, chosen, empty):
                    yield empty, ((first, 1), *chosen)
            return
        limited = number > 0 and self.bars[number - 1] == room
        for empty, chosen in fills(
            self.sizes, counts, min(room, before) if limited else room, least
        ):
            if not spend(weight):
                return
            empty = room - self._sum(chosen)
            if not self._bettered(counts, chosen, empty):
                yield empty, chosen

    def _scarcest(self, room: int, slack: int) -> int | None:
        """The index of the piece with the fewest partners in a bar filled well enough.

        None where a piece has none at all. Bit ``v`` of ``partners`` is set where a piece of
        length ``v`` can lie beside the piece looked at.
        """
        sizes, counts = self.sizes, self.counts
        there = [at for at, count in enumerate(counts) if count]
        if slack >= sizes[there[-1]]:
            return there[0]
        sums = sums_from(sizes, counts, room)[0]
        mirrored = int(f"{sums:0{room + 1}b}"[::-1], 2)
        width = 1
        while width <= slack:
            step = min(width, slack + 1 - width)
            mirrored |= mirrored >> step
            width += step
        lengths = sum(1 << sizes[at] for at in there)
        best, fewest = None, 0
        for at in there:
            if room - sizes[at] <= slack:
                continue
            partners = (mirrored >> sizes[at] & lengths).bit_count()
            if not partners:
                return None
            if best is None or partners < fewest:
                best, fewest = at, partners
        return there[0] if best is None else best

    def _bettered(self, counts: list[int], chosen: Chosen, empty: int) -> bool:
        """Whether a longer piece that is over would fit instead of one chosen."""
        taken = dict(chosen)
        for index, _ in chosen:
            most = self.sizes[index] + empty
            longer = index - 1
            while longer >= 0 and self.sizes[longer] <= most:
                if counts[longer] > taken.get(longer, 0):
                    return True
                longer -= 1
        if empty:
            for index in range(len(self.sizes) - 1, -1, -1):
                if self.sizes[index] > empty:
                    break
                if counts[index] > taken.get(index, 0):
                    return True
        return False

    def _key(self, number: int, before: int) -> tuple[int, ...]:
        """What decides whether the rest can be cut from the bars from ``number`` on."""
        limited = 0 < number < self.alike_from and self.bars[number - 1] == self.bars[number]
        return (number, before if limited else -1, *self.counts)

    def _sum(self, chosen: Chosen) -> int:
        return sum(self.sizes[index] * number for index, number in chosen)

    def _take(self, chosen: Chosen, sign: int) -> None:
        for index, number in chosen:
            self.counts[index] += sign * number

    def _loads(self, done: list[Chosen]) -> Loads:
        loads = [
            [self.sizes[index] for index, number in chosen for _ in range(number)]
            for chosen in done
        ]
        return loads + [[] for _ in range(len(self.bars) - len(loads))]
