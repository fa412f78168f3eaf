"""Decisions that press: the last day has passed or comes soon, or a hold point waits for it."""

from __future__ import annotations

from datetime import date
from typing import Any

from tracker.app.session import Session
from tracker.build.item import Item, as_list

SOON_DAYS = 7
"""So many days before its last day a decision is shown."""


def decisions_view(session: Session, hold: Item | None = None) -> list[dict[str, Any]]:
    """The open decisions that press, the most overdue first.

    Parameters
    ----------
    hold: a hold point; a decision that it waits for presses whatever its last day.

    Each has its ``name``, ``text``, ``last_day``, ``days`` to it (below 0 when it has passed, None
    where no day is known), ``options``, ``owes`` and what it ``stops``.
    """
    names, today = session.names, session.now().date()
    rows = []
    for item in session.cover.by_kind.get("decision", []):
        if item.get("decided") or item.get("chosen"):
            continue
        last = item.get("last_day")
        days = (date.fromisoformat(last) - today).days if last else None
        stops = as_list(item.get("stops"))
        if not (days is not None and days <= SOON_DAYS) and (hold is None or hold.id not in stops):
            continue
        rows.append(
            {
                "name": names.name(item.id),
                "text": item.title,
                "last_day": last,
                "days": days,
                "options": [str(each) for each in as_list(item.get("options"))],
                "owes": item.get("owes"),
                "stops": [names.name(str(each)) for each in stops],
            }
        )
    return sorted(rows, key=_pressing)


def _pressing(row: dict[str, Any]) -> tuple[int, str]:
    days = row["days"]
    return (10**6 if days is None else days, row["name"])
