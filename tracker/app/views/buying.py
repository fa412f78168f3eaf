"""The buy list: by supplier, what must be ordered today on top."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import Any

from tracker.app.session import Session
from tracker.app.views.day import Asked, day_of, last_day
from tracker.plan.buying import Purchase, to_buy, without_part
from tracker.plan.calendar import WorkingCalendar
from tracker.plan.chain import Chains
from tracker.plan.demand import all_lines
from tracker.plan.latest import late_starts
from tracker.plan.usual import USUAL_H
from tracker.plan.worked import days_worked, habit

USUAL_BEGIN_H = 8.0
"""Hour at which a day begins where nobody ever said. Common practice, no source."""


def buy_view(session: Session) -> dict[str, Any]:
    """The view model of ``part buy``.

    Days are those this builder works by the record, as long as the last one; so the day by which
    to order is the last that could do.
    """
    cover, now = session.cover, session.now()

    def when(day: date, hours: float) -> datetime:
        return datetime.combine(day, time(), now.tzinfo) + timedelta(hours=hours)

    late = late_starts(cover, Chains(cover), _calendar(session), when)
    lines = all_lines(cover)
    today = now.date()
    days = {name: moment.date() for name, moment in late.items()}
    rows = [_row(session, each, today) for each in to_buy(cover, lines, days, today)]
    buying = [row for row in rows if row["quantity"]]
    suppliers: dict[str | None, list[dict[str, Any]]] = {}
    for row in buying:
        suppliers.setdefault(row["supplier"], []).append(row)
    return {
        "date": today.isoformat(),
        "order_today": [row for row in buying if row["order_now"]],
        "suppliers": [
            {"supplier": name, "parts": parts, **_total(parts)}
            for name, parts in sorted(
                suppliers.items(),
                key=lambda each: (each[1][0]["order_by"] or "9999", each[0] or "~"),
            )
        ],
        **_total(buying),
        "late": [row for row in rows if row["comes_late"]],
        "count_first": [row for row in rows if row["level"]],
        "no_part": without_part(lines),
    }


def _calendar(session: Session) -> WorkingCalendar:
    """As many weekdays as are worked in a usual week, the most frequent; a day as the last one."""
    chances = habit(days_worked(session.build), session.now().date()).chances
    many = max(1, round(sum(chances.values())))
    often = sorted(chances, key=lambda day: (-chances[day], day))[:many]
    last = last_day(session)
    begins = last.from_h if last is not None and last.from_h is not None else USUAL_BEGIN_H
    hours = day_of(session, Asked()).longest_h or USUAL_H
    return WorkingCalendar.of(often, max(0.0, min(begins, 24.0 - hours)), hours)


def _total(rows: list[dict[str, Any]]) -> dict[str, Any]:
    """The cost of some rows, and how many of them have no price."""
    return {
        "cost": round(sum(row["cost"] or 0.0 for row in rows), 2),
        "unpriced": sum(row["cost"] is None for row in rows),
    }


def _row(session: Session, row: Purchase, today: date) -> dict[str, Any]:
    name = session.names.name
    return {
        "part": name(row.part.id),
        "title": row.part.title,
        "unit": row.part.get("unit"),
        "supplier": row.part.get("supplier"),
        "quantity": round(row.quantity, 3),
        "packs": row.packs,
        "pack": row.part.get("pack"),
        "reaches_m": round(row.reaches, 3) or None,
        "need": round(row.need, 3),
        "allowance": round(row.allowance, 3),
        "on_hand": None if row.on_hand is None else round(row.on_hand, 3),
        "level": row.level or None,
        "on_order": round(row.on_order, 3),
        "tasks": [name(task) for task in row.tasks],
        "needed_on": row.needed_on.isoformat() if row.needed_on else None,
        "order_by": row.order_by.isoformat() if row.order_by else None,
        "order_now": row.order_by is not None and row.order_by <= today and row.quantity > 0,
        "lead_days": row.lead_days,
        "cost": None if row.cost is None else round(row.cost, 2),
        "comes_late": row.comes_late or None,
    }
