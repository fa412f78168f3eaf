"""The load of one bar that is worth most (a bounded knapsack), exactly."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cmp_to_key

from tracker.plan.cutting.effort import Effort

MOST_CELLS = 60_000
CELLS_AT_ONCE = 150
STEPS_AT_ONCE = 10


def best_load(
    sizes: Sequence[int],
    counts: Sequence[int],
    values: Sequence[int],
    room: int,
    effort: Effort,
) -> tuple[int, tuple[int, ...]] | None:
    """(its worth, how many of each size), or None when the effort ended first.

    Parameters
    ----------
    sizes: lengths.
    counts: how many there are of each.
    values: worth of one piece of each size, whole numbers, 0 or more.
    room: what the bar takes.
    effort: steps.
    """
    limits = [
        min(count, room // size) if value else 0
        for size, count, value in zip(sizes, counts, values, strict=True)
    ]
    table = sum(limits) * (room + 1)
    if table <= MOST_CELLS:
        return (
            _by_room(sizes, limits, values, room) if effort.spend(table // CELLS_AT_ONCE) else None
        )
    return _by_branches(sizes, limits, values, room, effort)


def _by_room(
    sizes: Sequence[int], limits: Sequence[int], values: Sequence[int], room: int
) -> tuple[int, tuple[int, ...]]:
    """The best for every room up to this one, piece after piece."""
    best = [0] * (room + 1)
    steps = []
    for at, size in enumerate(sizes):
        for _ in range(limits[at]):
            value = values[at]
            steps.append((at, best))
            best = best[:size] + [
                old if old > new + value else new + value
                for old, new in zip(best[size:], best, strict=False)
            ]
    numbers, rest = [0] * len(sizes), room
    now = best
    for at, before in reversed(steps):
        if now[rest] != before[rest]:
            numbers[at] += 1
            rest -= sizes[at]
        now = before
    return best[room], tuple(numbers)


def _by_branches(
    sizes: Sequence[int],
    most: Sequence[int],
    values: Sequence[int],
    room: int,
    effort: Effort,
) -> tuple[int, tuple[int, ...]] | None:
    """The same by taking pieces in falling worth a length, as long as it can still be bettered."""

    def dearer(one: int, other: int) -> int:
        return values[other] * sizes[one] - values[one] * sizes[other] or one - other

    order = sorted(
        (at for at in range(len(most)) if most[at]),
        key=cmp_to_key(dearer),
    )
    lengths = [sizes[at] for at in order]
    worths = [values[at] for at in order]
    limits = [most[at] for at in order]
    end = len(order)
    best = 0
    best_taken: tuple[tuple[int, int], ...] = ()
    tried = 0
    # (next in the order, room, worth, what was taken as pairs)
    waiting: list[tuple[int, int, int, tuple[tuple[int, int], ...]]] = [(0, room, 0, ())]
    while waiting:
        begin, rest, worth, taken = waiting.pop()
        if worth > best:
            best, best_taken = worth, taken
        deeper = []
        for at in range(begin, end):
            tried += 1
            length = lengths[at]
            if worth + rest * worths[at] // length <= best:
                break
            # At most this can follow: whole pieces in falling worth a length, then a part of one.
            hope, space, ahead = worth, rest, at
            while ahead < end:
                number = min(limits[ahead], space // lengths[ahead])
                hope += number * worths[ahead]
                space -= number * lengths[ahead]
                if number < limits[ahead]:
                    hope += space * worths[ahead] // lengths[ahead]
                    break
                ahead += 1
            if hope <= best:
                break
            if length <= rest:
                for number in range(1, min(limits[at], rest // length) + 1):
                    more = (*taken, (at, number))
                    space = rest - number * length
                    deeper.append((at + 1, space, worth + number * worths[at], more))
        deeper.reverse()
        waiting.extend(deeper)
        if tried >= STEPS_AT_ONCE:
            if not effort.spend(tried // STEPS_AT_ONCE):
                return None
            tried %= STEPS_AT_ONCE
    numbers = [0] * len(sizes)
    for at, number in best_taken:
        numbers[order[at]] = number
    return best, tuple(numbers)
