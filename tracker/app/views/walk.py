"""The walk before a hold point: every check it covers, bay by bay, settled or not."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.views.light import is_light, shown
from tracker.app.views.todo import blocker_row, open_row, todo_of, view_of
from tracker.build.answer import Standing
from tracker.build.item import Item


def walk_view(session: Session, hold: str | None = None, zone: str | None = None) -> dict[str, Any]:
    """The view model of ``todo`` with ``places``: the bays in walking order, then zones, then
    the whole vehicle, then what nobody has placed.

    Each place has its ``name``, ``where`` in words, how many of its points are ``open``, and
    ``points``, rows as in ``open`` that also say whether a number answers them (``measured``),
    whether a value may need a second name (``band``), whether it ``may_be_waived``, and
    whether a second person reads its label without knowing what it should say (``label_read``).
    """
    plan = todo_of(session, hold, zone)
    places: dict[tuple[int, int], dict[str, Any]] = {}
    for point in shown(plan.points, is_light(session)):
        rank, place = _place(session, point.subject)
        place = places.setdefault(rank, place)
        place["points"].append(_row(session, point))
        place["open"] += not point.settled
    return view_of(session, plan) | {"places": [places[rank] for rank in sorted(places)]}


def blockers_view(session: Session) -> list[dict[str, Any]]:
    """Every uncleared blocker, for a build that has no hold point yet."""
    blockers = session.cover.by_kind.get("blocker", [])
    return [blocker_row(session, item) for item in blockers if not item.get("cleared")]


def _place(session: Session, subject: Item) -> tuple[tuple[int, int], dict[str, Any]]:
    """Where a subject is met on the walk: its order, and an empty place to fill."""
    cover, name = session.cover, session.names.name
    if subject.kind == "zone":
        rank, title, where = (1, cover.zones.index(subject)), name(subject.id), "zone"
    elif subject.kind == "vehicle":
        rank, title, where = (2, 0), "whole vehicle", ""
    elif bays := cover.bays_of(subject):
        bay = session.build.items[bays[0]]
        rank, title, where = (0, cover.bay_order[bay.id]), name(bay.id), _where(bay)
    else:
        rank, title, where = (3, 0), "not placed yet", "give it a bay, or a face and a station"
    return rank, {"name": title, "where": where, "open": 0, "points": []}


def _where(bay: Item) -> str:
    start, end = bay.get("station_m"), bay.get("to_m")
    span = f"{start:g} to {end:g} m" if start is not None and end is not None else ""
    return " ".join(word for word in (bay.get("face"), span) if word)


def _row(session: Session, point: Standing) -> dict[str, Any]:
    row = open_row(session, point)
    return row | {
        "measured": point.check.get("limit") is not None,
        "unit": point.limit.unit if point.limit else None,
        "band": point.limit is not None and point.limit.sign_low is not None,
        "may_be_waived": point.check.get("waive") is not False,
        "label_read": _reads_label(point.check),
    }


def _reads_label(check: Item) -> bool:
    """Is it answered by a second person reading a label out, blind?"""
    one_each = check.get("each", "once") not in ("once", "zone", "bay", "vehicle")
    about = f"{check.slug} {check.title}".casefold()
    return check.get("how") == "second person" and one_each and "label" in about
