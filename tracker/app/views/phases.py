"""The phase line: the build from its first phase to its last, with the hold points on it."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.build.work import NOT_BEGUN
from tracker.plan.todo import booking, next_hold, todo


def phase_line(session: Session) -> list[dict[str, Any]]:
    """The phases of the build in the trade's order.

    Each has its slug, title, order, the share of its tasks done (0 to 1), and its hold points
    with slug, title, state, booked date and how many of their points are open; ``here`` marks
    the phase whose hold point comes next.
    """
    cover, names = session.cover, session.names
    here = next_hold(cover)
    phases = sorted(cover.by_kind.get("phase", []), key=lambda phase: phase.get("order", 99))
    tasks = cover.by_kind.get("task", [])
    reservations = [row.text for row in session.reservations]
    rows = []
    for phase in phases:
        own = [task for task in tasks if task.get("phase") == phase.id]
        done = sum(session.build.work.get(task.id, NOT_BEGUN).fraction for task in own)
        holds = []
        for hold in cover.holds:
            if hold.get("phase") != phase.id:
                continue
            plan = todo(cover, hold, "", session.now(), reservations)
            holds.append(
                {
                    "slug": names.name(hold.id),
                    "title": hold.title,
                    "state": plan.state,
                    "booked": booking(cover, hold, ""),
                    "open": len(plan.open_points),
                    "next": here is not None and hold.id == here.id,
                }
            )
        rows.append(
            {
                "slug": names.name(phase.id),
                "title": phase.title,
                "order": phase.get("order"),
                "tasks": len(own),
                "done": round(done / len(own), 3) if own else 0.0,
                "hold_points": holds,
                "here": here is not None and here.get("phase") == phase.id,
            }
        )
    return rows
