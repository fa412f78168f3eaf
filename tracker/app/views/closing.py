"""What a release or a close-in would take in: how it stands in a zone, and what gets buried."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.views.buried import named_by_kind
from tracker.app.wants.holds import standing_at
from tracker.build.coverage import WHOLE
from tracker.plan.todo import booking


def zones_of(session: Session, hold: str) -> list[str]:
    """The zones (their names) by which a hold point is released; none where it is as a whole."""
    found = session.names.find(hold, ("holdpoint",), "hold point")
    keys = session.cover.zone_keys(found)
    if len(keys) < 2 or (found.id, WHOLE) in session.build.holds:
        return []
    return [session.names.name(key) for key in keys]


def closing_view(session: Session, hold: str, zone: str | None = None) -> dict[str, Any]:
    """How a hold point stands in one zone (None: the only one there is), and what it covers.

    ``open`` names the checks that bind and are not settled, ``waived`` what was waived and why,
    ``covers`` the items by kind with ranges of names, ``because`` why a release lapsed,
    ``reservations`` and ``blockers`` what stands in the way.

    Raises
    ------
    UnknownName, BadInput: as in :func:`tracker.app.wants.holds.standing_at`.
    """
    cover, name = session.cover, session.names.name
    stand = standing_at(session, cover, session.names, hold, zone)
    unsettled = [point for point in stand.points if point.binds and not point.settled]
    covered = [item.id for item in cover.covered_items(stand.hold, stand.zone)]
    return {
        "hold_point": name(stand.hold.id),
        "zone": name(stand.zone) if stand.zone else None,
        "state": stand.state,
        "booked": booking(cover, stand.hold, stand.zone),
        "total": len(stand.points),
        "open": [f"{name(p.check.id)} on {name(p.subject.id)}" for p in unsettled],
        "waived": [
            f"{name(p.check.id)} on {name(p.subject.id)}: {p.answer.why}"
            for p in stand.points
            if p.state == "waived" and p.answer
        ],
        "covers": named_by_kind(session, covered),
        "because": list(stand.reasons),
        "blockers": [name(item.id) for item in stand.blockers],
        "reservations": list(stand.reservations),
    }
