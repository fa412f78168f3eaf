"""The strip below the screen: the day, the crew, what is in the way, and what was saved last."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from tracker.app.session import Session
from tracker.plan.shortage import shortages
from tracker.plan.todo import booking, next_hold


def strip_view(session: Session) -> dict[str, Any]:
    """``date`` (today), ``people`` (where the day was started), ``blockers`` and ``shortages``
    (how many), ``hold_point``, ``days`` to its booked date, ``reservations``, ``inbox`` (lines to
    sort) and ``saved`` (the moment of the last act, or None); moments are ISO 8601.
    """
    build, cover, now = session.build, session.cover, session.now()
    today = now.date()
    hold = next_hold(cover)
    booked = booking(cover, hold, "") if hold else None
    days = [day for day in build.days if _local(day.when, now).date() == today]
    open_blockers = [item for item in cover.by_kind.get("blocker", []) if not item.get("cleared")]
    saved = build.acts[-1].at if build.acts else None
    return {
        "date": today.isoformat(),
        "people": days[-1].people if days else None,
        "blockers": len(open_blockers),
        "shortages": len(shortages(cover)),
        "hold_point": session.names.name(hold.id) if hold else None,
        "days": (datetime.fromisoformat(booked).date() - today).days if booked else None,
        "reservations": len(session.reservations),
        "inbox": sum(line.sorted is None for line in build.inbox.values()),
        "saved": _local(saved, now).isoformat(timespec="seconds") if saved else None,
    }


def _local(moment: str, now: datetime) -> datetime:
    return datetime.fromisoformat(moment).astimezone(now.tzinfo)
