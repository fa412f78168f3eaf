"""What is still to do before a hold point, as the screen and ``todo --json`` show it."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.views.decisions import decisions_view
from tracker.app.views.light import is_light, light_view, shown
from tracker.build.answer import Standing
from tracker.build.coverage import WHOLE
from tracker.build.item import Item, as_list
from tracker.build.point import Answer
from tracker.errors import BadInput
from tracker.plan.shortage import Shortage
from tracker.plan.todo import Todo, next_hold, todo


def find_hold(session: Session, name: str | None) -> Item:
    """The hold point a name means, or the one that comes next.

    Raises
    ------
    UnknownName: no hold point is called that. BadInput: the build has none yet.
    """
    if name:
        return session.names.find(name, ("holdpoint",), "hold point")
    hold = next_hold(session.cover)
    if hold is None:
        raise BadInput(
            "this build has no hold points yet; 'closein phases' lists the phases, "
            "'closein phases adopt NAME' takes one up"
        )
    return hold


def find_zone(session: Session, name: str | None) -> str:
    """The id of the zone a name means; '' where none is named."""
    return session.names.find(name, ("zone",), "zone").id if name else WHOLE


def todo_of(session: Session, hold: str | None = None, zone: str | None = None) -> Todo:
    """What is still to do before a hold point, from names as people type them."""
    return todo(
        session.cover,
        find_hold(session, hold),
        find_zone(session, zone),
        session.now(),
        [row.text for row in session.reservations],
    )


def todo_view(
    session: Session,
    hold: str | None = None,
    zone: str | None = None,
    bay: str | None = None,
    light: bool | None = None,
) -> dict[str, Any]:
    """The view model of ``todo``; with a bay, points and open rows of that bay alone.

    Parameters
    ----------
    light: the checks alone that stop a release, or all; by default as the build keeps it.
    """
    return view_of(session, todo_of(session, hold, zone), bay, light)


def view_of(
    session: Session, plan: Todo, bay: str | None = None, light: bool | None = None
) -> dict[str, Any]:
    """The view model of a plan already worked out."""
    names, cover = session.names, session.cover
    every = list(plan.points)
    open_points = plan.open_points
    lightened = is_light(session, light)
    if bay:
        wanted = names.find(bay, ("bay",), "bay").id
        every = [p for p in every if wanted in cover.bays_of(p.subject)]
        open_points = [p for p in open_points if wanted in cover.bays_of(p.subject)]
    points, open_points = shown(every, lightened), shown(open_points, lightened)
    counts = count(points) if bay or lightened else plan.counts
    return {
        "build": session.marked.name,
        "hold_point": {
            "slug": names.name(plan.hold.id),
            "title": plan.hold.title,
            "state": plan.state,
            "zone": names.name(plan.zone) if plan.zone else None,
            "booked": plan.booked,
            "days": plan.days,
        },
        "zones": [
            {
                "zone": names.name(stand.zone) if stand.zone else None,
                "state": stand.state,
                "open": sum(not p.settled for p in stand.points),
            }
            for stand in plan.zones
        ],
        "points": {"total": len(points), **counts},
        "light": light_view(every, lightened),
        "open": [open_row(session, point) for point in open_points],
        "waivers": [
            open_row(session, point) | {"why": point.answer.why, "second": point.answer.second}
            for point in points
            if point.state == "waived" and point.answer
        ],
        "blockers": [blocker_row(session, item, plan) for item in plan.blockers],
        "decisions": decisions_view(session, plan.hold),
        "shortages": [shortage_row(session, row) for row in plan.shortages],
        "unknowns": [
            {"item": names.name(item.id), "kind": item.kind, "fields": list(fields)}
            for item, fields in plan.unknowns
        ],
        "conflicts": [
            {
                "item": names.name(item.id),
                "field": field,
                "values": list(item.rivals[field].values()),
            }
            for item, field in plan.conflicts
        ],
        "lapsed_because": list(plan.reasons),
        "reservations": [{"key": row.key, "text": row.text} for row in session.reservations],
        "notices": list(session.notices),
        "not_known_at_close_in": [names.name(item.id) for item in plan.late],
        "hours_left": plan.hours_left,
    }


def count(points: list[Standing]) -> dict[str, int]:
    """Points good, bad, waived, not applicable and open; they add up to their number."""
    counts = dict.fromkeys(("good", "bad", "waived", "na", "open"), 0)
    for point in points:
        counts[point.state if point.state in counts else "open"] += 1
    return counts


def open_row(session: Session, point: Standing) -> dict[str, Any]:
    """One point that is open, out of date, in conflict or bad."""
    check, subject = point.check, point.subject
    bays = session.cover.bays_of(subject)
    return {
        "check": session.names.name(check.id),
        "subject": session.names.name(subject.id),
        "bay": session.names.name(bays[0]) if bays else None,
        "class": check.get("class"),
        "how": check.get("how"),
        "text": check.title,
        "limit": str(point.limit) if point.limit else None,
        "missed": check.get("missed"),
        "basis": basis_words(check),
        "state": point.state,
        "because": point.why or None,
        "was": was_words(point.answer) if point.answer else None,
        "note": point.answer.why if point.answer else None,
    }


def basis_words(check: Item) -> str:
    """Where a check comes from: a standard by name, or common practice."""
    words = check.get("standard") if check.get("basis") == "standard" else "common practice"
    return f"{words}{' (from memory, unverified)' if check.get('memory') else ''}"


def was_words(answer: Answer) -> str:
    """An answer in words, such as 'good by Ida on 2027-03-02'."""
    known = answer.value is not None
    value = f" {answer.value:g} {answer.fact.get('unit', '')}".rstrip() if known else ""
    return f"{answer.result}{value} by {answer.by} on {answer.when[:10]}"


def blocker_row(session: Session, item: Item, plan: Todo | None = None) -> dict[str, Any]:
    """One uncleared blocker, and whether it stops the hold point of a plan."""
    names = session.names
    stands = plan.zones if plan else ()
    stopping = {row.id for stand in stands for row in stand.blockers}
    return {
        "slug": names.name(item.id),
        "text": item.title,
        "kind": item.get("kind"),
        "stops": [names.name(identifier) for identifier in as_list(item.get("stops"))],
        "owes": item.get("owes"),
        "expected": item.get("expected"),
        "stops_this": item.id in stopping,
    }


def shortage_row(session: Session, row: Shortage) -> dict[str, Any]:
    """One part that is short."""
    names = session.names
    return {
        "part": names.name(row.part.id),
        "title": row.part.title,
        "unit": row.part.get("unit"),
        "on_hand": row.on_hand,
        "needed": row.needed,
        "missing": row.missing,
        "on_order": row.on_order,
        "due": row.due,
        "late": row.due is not None and row.due < session.now().date().isoformat(),
        "where": list(row.places),
        "stops": [names.name(item.id) for item in row.stops],
    }
