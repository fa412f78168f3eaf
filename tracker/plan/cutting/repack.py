"""Take a few bars apart and fill them anew, again and again, until no piece is over.

What can be told from the pieces over and from how unevenly the bars are filled decides whether
a change stays. The choices follow a fixed sequence of numbers, never chance.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fill import fullest
from tracker.plan.cutting.greedy import Loads

# Found by trial on the instances of the measurements; none of them matters much.
WORSE_TAKEN = 0.05
"""Share of the changes that stay although they spread what is empty over more bars."""
NOT_FULL_PICKED = 0.9
LEFT_OUT_OFTEN, LEFT_OUT_SELDOM = 0.5, 0.1


def fixed_sequence(start: int) -> Callable[[], float]:
    """Numbers from 0 to below 1, scattered, and the same in every run.

    The multiplier is that of D. Knuth's MMIX. From memory, unverified; any would do.
    """
    state = start

    def following() -> float:
        nonlocal state
        state = (state * 6364136223846793005 + 1442695040888963407) & 0xFFFFFFFFFFFFFFFF
        return (state >> 33) / (1 << 31)

    return following


def repack(
    loads: Loads, over: Sequence[int], bars: Sequence[int], effort: Effort, start: int = 1
) -> Loads | None:
    """Loads of all the pieces, or None when the effort ended first.

    Parameters
    ----------
    loads: a first load of each bar.
    over: pieces in none of them.
    bars: what each bar takes.
    effort: a step for each bar filled, more for long bars.
    start: which sequence of choices is taken.
    """
    loads, over = [list(load) for load in loads], sorted(over, reverse=True)
    empty = [bar - sum(load) for bar, load in zip(bars, loads, strict=True)]
    following = fixed_sequence(start)
    weight = 1 + max(bars, default=0) // 20_000
    total_over = sum(over)
    while over:
        picked = _picked(empty, following)
        pool = sorted([*over, *(piece for at in picked for piece in loads[at])], reverse=True)
        if not effort.spend(len(picked) * (weight + len(pool) // 20)):
            return None
        fresh, pool = _filled(pool, [bars[at] for at in picked], following)
        now_over = sum(pool)
        if now_over > total_over:
            continue
        fresh_empty = [bars[at] - sum(load) for at, load in zip(picked, fresh, strict=True)]
        if now_over == total_over and following() >= WORSE_TAKEN:
            before = sum(empty[at] ** 2 for at in picked)
            if sum(rest * rest for rest in fresh_empty) < before:
                continue
        for at, load, rest in zip(picked, fresh, fresh_empty, strict=True):
            loads[at], empty[at] = load, rest
        over, total_over = pool, now_over
    return loads


def _picked(empty: Sequence[int], following: Callable[[], float]) -> list[int]:
    """Three to five bars, among them mostly one or two that are not full."""
    wanted = min(3 + int(following() * 3), len(empty))
    picked: list[int] = []
    if following() < NOT_FULL_PICKED:
        gaps = [at for at, rest in enumerate(empty) if rest]
        for _ in range(1 + int(following() * 2)):
            if gaps:
                picked.append(gaps.pop(int(following() * len(gaps))))
    while len(picked) < wanted:
        at = int(following() * len(empty))
        if at not in picked:
            picked.append(at)
    return picked


def _filled(
    pool: list[int], rooms: Sequence[int], following: Callable[[], float]
) -> tuple[Loads, list[int]]:
    """Each bar filled as full as it goes in one of many ways, and the pieces over."""
    often = LEFT_OUT_OFTEN if following() < 0.7 else LEFT_OUT_SELDOM

    def skips() -> bool:
        return following() < often

    loads: Loads = []
    for room in rooms:
        first = pool[0] if pool else 0
        if 0 < first <= room and following() < 0.5:
            taken, pool = fullest(pool[1:], room - first, skips)
            taken.insert(0, first)
        else:
            taken, pool = fullest(pool, room, skips)
        loads.append(taken)
    return loads, pool
