"""Causes: what is in the way, ranked by the work and the answers that it holds up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.build.item import Item
from tracker.plan.chain import Reach
from tracker.plan.readiness import PointStand, Readiness, Reason
from tracker.plan.todo import tasks_before


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing in the way.

    Parameters
    ----------
    reason: as the first task or point gives it.
    tasks: ids of the tasks it stops itself.
    after: how many more wait for them, however far.
    crew_hours: what is still to do of all it holds up.
    points: how many open answers it stops.
    next_hold: does it hold up the next hold point?
    """

    reason: Reason
    tasks: tuple[str, ...]
    after: int
    crew_hours: float
    points: int
    next_hold: bool


def causes(ready: Readiness, hold: Item | None, points: Iterable[PointStand] = ()) -> list[Cause]:
    """Everything that stops a task or a point, worst first; that other work comes first is none.

    Those that hold up the next hold point come before others, then by crew-hours, then points.
    """
    chains = ready.chains
    before = {task.id for task in tasks_before(ready.cover, hold)} if hold else set()
    tasks: dict[tuple[str, str], list[str]] = {}
    seen: dict[tuple[str, str], int] = {}
    first: dict[tuple[str, str], Reason] = {}
    for name, stand in ready.tasks.items():
        for reason in stand.reasons:
            if reason.kind != "task":
                first.setdefault(reason.cause, reason)
                tasks.setdefault(reason.cause, []).append(name)
    for point in points:
        for reason in point.reasons:
            first.setdefault(reason.cause, reason)
            seen[reason.cause] = seen.get(reason.cause, 0) + 1
    stopping = {hold.id, hold.get("closed_by")} if hold else set()
    found = []
    reach = Reach(chains)
    nearer = reach.of(before)
    for key, reason in first.items():
        own = tasks.get(key, [])
        held = reach.behind(own)
        hours = reach.crew_hours(held)
        points_held = seen.get(key, 0)
        near = bool(held & nearer or points_held or stopping & set(own))
        after = held.bit_count() - len(set(own))
        found.append(Cause(reason, tuple(own), after, hours, points_held, near))
    return sorted(
        found,
        key=lambda cause: (
            not cause.next_hold,
            -round(cause.crew_hours, 6),
            -cause.points,
            cause.reason.cause,
        ),
    )
