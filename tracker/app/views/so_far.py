"""What was done so far, as the screen and ``dates --json`` show it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tracker.app.session import Session
from tracker.plan.burnup import burn_up, lost_hours, money
from tracker.plan.line import Line


def so_far(session: Session, lines: Sequence[Line]) -> dict[str, Any]:
    """Burn-up by week, money by phase, hours lost by kind of blocker.

    Parameters
    ----------
    lines: the open demand.
    """
    cover, names = session.cover, session.names
    length = cover.vehicle.get("length_m") if cover.vehicle else None
    burnt = burn_up(cover, float(length or 0.0))
    return {
        "crew_hours_likely": round(burnt.hours, 1),
        "points": burnt.points,
        "weeks": [
            {
                "begins": week.begins.isoformat(),
                "crew_hours_logged": round(week.logged, 1),
                "crew_hours_done": round(week.earned, 1),
                "points_settled": week.points,
            }
            for week in burnt.weeks
        ],
        "money": [
            {
                "phase": names.name(row.phase) if row.phase else None,
                "paid": {currency: round(paid, 2) for currency, paid in row.paid.items()},
                "parts_still_to_fit": round(row.to_come, 2),
            }
            for row in money(cover, lines)
        ],
        "lost_hours": [
            {"kind": kind or None, "hours": round(hours, 1), "blockers": count}
            for kind, (hours, count) in lost_hours(cover).items()
        ],
    }
