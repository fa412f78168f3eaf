"""The critical path: how early each task can be, how late it may be, and what lies between.

Activities are nodes, each begins when the last of those before it has finished. Two passes, one
forward for the early times and one backward for the late ones.

Source: J. Kelley, M. Walker, "Critical-Path Planning and Scheduling", Proceedings of the Eastern
Joint Computer Conference (1959), 160-173. From memory, unverified; the tests name the textbook
examples.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from itertools import pairwise
from typing import Any, NamedTuple

from tracker.errors import BadInput, UnknownName

Move = Callable[[Any, Any], Any]


class Times(NamedTuple):
    """When one activity can be and must be.

    All but ``total_float`` are moments of the kind that ``start`` is.

    Parameters
    ----------
    early_start, early_finish: no sooner, because of what comes before it.
    late_start, late_finish: no later, or the end moves.
    total_float: how much it may slip without moving the end; 0 on the critical path.
    """

    early_start: Any
    early_finish: Any
    late_start: Any
    late_finish: Any
    total_float: Any


def critical_path(
    durations: Mapping[str, Any],
    predecessors: Mapping[str, Iterable[str]],
    forward: Move | None = None,
    backward: Move | None = None,
    *,
    between: Move | None = None,
    start: Any = 0,
    to: str | None = None,
) -> dict[str, Times]:
    """The times of every activity, in the order of ``durations``.

    The time it takes grows with activities plus waits, not faster.

    Parameters
    ----------
    durations: how long each takes, 0 or more; the names are the activities there are.
    predecessors: what comes before each; a name without an entry waits for nothing.
    forward: (moment, duration) -> the moment at which what begins then is finished; plain plus.
    backward: (moment, duration) -> the last moment to begin so as to be finished then; plain minus.
    between: (earlier, later) -> what slips between the two; later minus earlier.
    start: the moment before which nothing begins.
    to: the activity (a hold point, say) to whose early finish the late times lead; all that do not
        come before it are left out. Without it, the last early finish of all.

    Raises
    ------
    BadInput: activities that wait for each other in a circle, with their names; a duration that is
        below 0.
    UnknownName: a wait of or for something that is no activity.
    """
    for name in predecessors.keys() - durations.keys():
        raise UnknownName("task", name, durations)
    if to is not None:
        durations = _leading_to(to, durations, predecessors)
    names = list(durations)
    takes = list(durations.values())
    if forward is None and any(duration < 0 for duration in takes):
        name = next(name for name, duration in durations.items() if duration < 0)
        raise BadInput(f"'{name}' takes {durations[name]}; a duration is 0 or more")
    after, waits = _links(durations, predecessors)

    starts: list[Any] = [start] * len(names)
    finishes: list[Any] = [start] * len(names)
    order = [at for at, count in enumerate(waits) if not count]
    for at in order:
        begun = starts[at]
        finishes[at] = done = begun + takes[at] if forward is None else forward(begun, takes[at])
        for later in after[at]:
            if done > starts[later]:
                starts[later] = done
            waits[later] -= 1
            if not waits[later]:
                order.append(later)
    if len(order) < len(names):
        raise BadInput(_circle(names, waits, predecessors))

    end = max(finishes, default=start)
    last_starts: list[Any] = [end] * len(names)
    last_finishes: list[Any] = [end] * len(names)
    for at in reversed(order):
        due = end
        for later in after[at]:
            if last_starts[later] < due:
                due = last_starts[later]
        last_finishes[at] = due
        last_starts[at] = due - takes[at] if backward is None else backward(due, takes[at])
    slips = (
        [late - early for early, late in zip(starts, last_starts, strict=True)]
        if between is None
        else list(map(between, starts, last_starts))
    )
    rows = zip(starts, finishes, last_starts, last_finishes, slips, strict=True)
    return dict(zip(names, map(Times._make, rows), strict=True))


def _links(
    durations: Mapping[str, Any], predecessors: Mapping[str, Iterable[str]]
) -> tuple[list[list[int]], list[int]]:
    """(what comes after each, what each waits for as a count), by place in ``durations``."""
    places = {name: at for at, name in enumerate(durations)}
    after: list[list[int]] = [[] for _ in places]
    waits = [0] * len(places)
    for name, needs in predecessors.items():
        at = places.get(name)
        if at is None:
            continue
        for need in needs:
            before = places.get(need)
            if before is None:
                raise UnknownName(f"task before '{name}'", need, durations)
            after[before].append(at)
            waits[at] += 1
    return after, waits


def _leading_to(
    to: str, durations: Mapping[str, Any], predecessors: Mapping[str, Iterable[str]]
) -> dict[str, Any]:
    """The durations of ``to`` and of all that comes before it."""
    if to not in durations:
        raise UnknownName("task", to, durations)
    reached, waiting = {to}, [to]
    while waiting:
        for need in predecessors.get(waiting.pop(), ()):
            if need not in reached and need in durations:
                reached.add(need)
                waiting.append(need)
    return {name: duration for name, duration in durations.items() if name in reached}


def _circle(names: list[str], waits: list[int], predecessors: Mapping[str, Iterable[str]]) -> str:
    """One circle among the activities that could never begin, as a sentence."""
    stuck = {name for name, count in zip(names, waits, strict=True) if count}
    name = next(name for name in names if name in stuck)
    trail: list[str] = []
    while name not in trail:
        trail.append(name)
        name = next(need for need in predecessors[name] if need in stuck)
    circle = [*trail[trail.index(name) :], name]
    waiting = ", ".join(f"'{one}' waits for '{other}'" for one, other in pairwise(circle))
    return f"{waiting}: a circle in which nothing can begin; take one of these waits out"
