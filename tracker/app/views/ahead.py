"""The working days ahead, as ``today --next`` shows them."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Any

from tracker.app.session import Session
from tracker.app.views.dates import BEGINS_H, WEEKDAYS
from tracker.app.views.day import Asked, last_day
from tracker.app.views.today import plan_view
from tracker.plan.ahead import arrived, done, served
from tracker.plan.worked import days_worked, habit, next_days


def ahead_view(session: Session, asked: Asked | None = None) -> dict[str, Any]:
    """The view model: each day as ``today`` shows it, and what to take along for all of them.

    Each day begins where the plan of the one before ends, and with what was due by then. Of the
    weather counts what is said now alone, for every day.
    """
    asked = replace(asked or Asked(), ahead=True)
    now = session.now()
    use = habit(days_worked(session.build), now.date())
    last = last_day(session)
    begins_h = last.from_h if last is not None and last.from_h is not None else BEGINS_H
    views, counts_on = [], []
    build, over = session.build, set[tuple[str, str]]()
    for day in next_days(use.chances, now.date()):
        moment = datetime.combine(day, time(), now.tzinfo) + timedelta(hours=begins_h)
        build, orders = arrived(build, moment, now.date())
        counts_on += [
            {
                "part": session.names.name(part.id),
                "unit": part.get("unit"),
                "quantity": order.quantity,
                "due": order.due,
            }
            for part, order in orders
        ]
        view, ready, plan = plan_view(session.supposing(build, moment), asked, over)
        views.append({**view, "weekday": WEEKDAYS[day.weekday()]})
        build = done(build, plan, ready.lines)
        over |= served(plan)
    return {
        "build": session.marked.name,
        "date": now.date().isoformat(),
        "days_logged": use.days,
        "days": views,
        "load": _together(views, "load", ("part", "unit", "place")),
        "tools": _together(views, "tools", ("tool",)),
        "not_counted": _together(views, "not_counted", ("part", "level")),
        "robs": _together(views, "robs", ("task",), "robs"),
        "counts_on": counts_on,
    }


def _together(
    views: list[dict[str, Any]], what: str, alike: tuple[str, ...], joined: str = "tasks"
) -> list[dict[str, Any]]:
    """The rows of all days as one list: what is alike is one row, its names ``joined``."""
    found: dict[tuple[Any, ...], dict[str, Any]] = {}
    for row in (row for view in views for row in view[what]):
        key = tuple(row[name] for name in alike)
        known = found.get(key, {"quantity": 0.0, joined: []})
        found[key] = {**row, joined: list(dict.fromkeys([*known[joined], *row[joined]]))}
        if "quantity" in row:
            found[key]["quantity"] = round(known["quantity"] + row["quantity"], 3)
    return list(found.values())
