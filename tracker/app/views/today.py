"""The plan of the day, as the screen and ``today --json`` show it."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Any

from tracker.app.session import Session
from tracker.app.views.day import Asked, day_of, last_day
from tracker.app.views.words.counting import natural
from tracker.app.wants.parts import elsewhere
from tracker.build.work import NOT_BEGUN
from tracker.plan.causes import Cause
from tracker.plan.day import Day
from tracker.plan.demand import demand
from tracker.plan.readiness import Readiness
from tracker.plan.saying import Saying
from tracker.plan.today import Plan, Slot, today
from tracker.plan.todo import booking, next_hold, tasks_before
from tracker.plan.usual import AROUND_H, SHOP_RUN_H


def today_view(session: Session, asked: Asked | None = None) -> dict[str, Any]:
    """The view model of ``today``."""
    return plan_view(session, asked or Asked())[0]


def plan_view(
    session: Session, asked: Asked, served: Collection[tuple[str, str]] = ()
) -> tuple[dict[str, Any], Readiness, Plan]:
    """The view model of ``today``, and what it shows.

    Parameters
    ----------
    served: (task, subject) that take no parts any more, done on a day before.
    """
    day = day_of(session, asked)
    lines = [row for row in demand(session.cover) if (row.task, row.subject) not in served]
    ready = Readiness(session.cover, day, lines)
    hold = next_hold(session.cover)
    plan = today(ready, hold, ready.points(hold) if hold else ())
    booked = booking(session.cover, hold, "") if hold else None
    view = {
        "build": session.marked.name,
        "date": day.now.date().isoformat(),
        "hold_point": session.names.name(hold.id) if hold else None,
        "booked": booked,
        "days": (date.fromisoformat(booked) - day.now.date()).days if booked else None,
        "day": _day_row(session, asked, day),
        "used": round(plan.used, 1),
        "around_h": AROUND_H,
        **_rows(session, ready, plan),
    }
    return view, ready, plan


def task_words(session: Session, task: str) -> str:
    """How one task stands on a day like the last, in a sentence."""
    item = session.names.find(task, ("task",), "task")
    if session.build.work.get(item.id, NOT_BEGUN).done:
        return f"{session.names.name(item.id)} is done."
    ready = Readiness(session.cover, day_of(session, Asked()))
    stand = ready.tasks.get(item.id)
    if stand is None:
        return f"{session.names.name(item.id)} is not for this vehicle."
    return saying_of(session).stand(stand)


def saying_of(session: Session) -> Saying:
    """Says reasons as of the session's day."""
    return Saying(session.build, session.names, session.now().date().isoformat())


def _day_row(session: Session, asked: Asked, day: Day) -> dict[str, Any]:
    last = last_day(session)
    given = (asked.crew, asked.hours, asked.dry, asked.temp)
    return {
        "people": day.people,
        "hours": day.longest_h,
        "crew_hours": round(day.crew_hours, 1),
        "dry": day.dry,
        "air_c": day.air_c,
        "power": day.power,
        "absent": [session.names.name(each) for each in sorted(day.absent)],
        "without": sorted([session.names.name(each) for each in day.without] + [*day.no_tools]),
        "as_on": last.when[:10] if last and None in given else None,
    }


def _rows(session: Session, ready: Readiness, plan: Plan) -> dict[str, Any]:
    saying = saying_of(session)
    name = session.names.name
    before = {task.id for task in tasks_before(session.cover, plan.hold)} if plan.hold else set()
    return {
        "plan": [_slot_row(session, saying, slot) for slot in plan.slots],
        "runners_up": [_slot_row(session, saying, slot) for slot in plan.runners_up],
        "not_possible": [_cause_row(session, saying, ready, cause) for cause in plan.not_possible],
        "waiting": [
            {
                "task": name(stand.task.id),
                "for": [name(r.what) for r in stand.reasons],
                "next_hold": stand.task.id in before,
            }
            for stand in plan.waiting
        ],
        "load": [
            {
                "part": name(row.part),
                "unit": session.build.items[row.part].get("unit"),
                "quantity": round(row.quantity, 3),
                "place": row.place,
                "tasks": [name(task) for task in row.tasks],
            }
            for row in plan.loads
            if elsewhere(session.names, row.place)
        ],
        "not_counted": [
            {"part": part, "level": level, "tasks": [name(task) for task in tasks]}
            for part, level, tasks in plan.doubts
        ],
        "tools": [
            {"tool": tool, "tasks": [name(task) for task in tasks]} for tool, tasks in plan.tools
        ],
        "robs": [
            {"task": name(taker), "robs": [name(each) for each in robbed]}
            for taker, robbed in plan.robs.items()
        ],
    }


def _slot_row(session: Session, saying: Saying, slot: Slot) -> dict[str, Any]:
    progress = session.build.work.get(slot.task.id, NOT_BEGUN)
    phase = session.build.items.get(str(slot.task.get("phase")))
    bays = {bay for each in slot.subjects for bay in _bays(session, each)}
    return {
        "task": session.names.name(slot.task.id),
        "title": slot.task.title,
        "phase": phase.title if phase is not None else None,
        "bays": sorted((session.names.name(bay) for bay in bays), key=natural),
        "start_h": round(slot.start_h, 4),
        "end_h": round(slot.end_h, 4),
        "hours": round(slot.end_h - slot.start_h, 2),
        "people": slot.crew,
        "crew_hours": round(slot.crew_hours, 2),
        "moves": round(slot.moves, 1),
        "subjects": [session.names.name(each) for each in slot.subjects],
        "part": round(slot.part, 2),
        "begun": slot.begun,
        "follows": slot.follows,
        "only_if": list(slot.stand.only_if),
        "next_step": progress.next,
        "hours_stated": slot.task.get("hours") is not None,
        "why_not_all": [saying.reason(reason) for reason in slot.stand.reasons]
        if slot.stand.partly
        else [],
    }


def _bays(session: Session, identifier: str) -> list[str]:
    item = session.build.items.get(identifier)
    return session.cover.bays_of(item) if item is not None else []


def _cause_row(session: Session, saying: Saying, ready: Readiness, cause: Cause) -> dict[str, Any]:
    return {
        "kind": cause.reason.kind,
        "cause": session.names.name(cause.reason.what),
        "words": saying.reason(cause.reason),
        "free_by": _free_by(session, saying, cause),
        "tasks": [session.names.name(task) for task in cause.tasks],
        "in_part": [session.names.name(t) for t in cause.tasks if ready.tasks[t].partly],
        "after_them": cause.after,
        "crew_hours": round(cause.crew_hours, 1),
        "points": cause.points,
        "next_hold": cause.next_hold,
        "shop_run": _shop_run(session, ready, cause),
    }


def _free_by(session: Session, saying: Saying, cause: Cause) -> str:
    """What would take a cause away."""
    reason = cause.reason
    what = session.names.name(reason.what)
    if reason.kind == "part" and reason.lack:
        away = [place for place, _ in reason.lack.elsewhere]
        if away:
            return f"fetch it from {' or '.join(away)}"
        if reason.lack.robbed_by:
            return f"get more, or do {saying.name(reason.lack.robbed_by[0])} later"
        part = session.build.items[reason.what]
        seller = f" from {part.get('supplier')}" if part.get("supplier") else ""
        return "wait for the order, or ring" if reason.lack.on_order else f"get it{seller}"
    return {
        "part": f"get {what}",
        "blocked": f"'closein unstuck {what}' once it is out of the way",
        "hold": f"'closein todo {what}', then release it",
        "cure": "let it cure",
        "people": "more hands",
        "skill": "somebody who may do it",
        "tool": f"bring {what}",
        "power": "power",
        "dry": "a dry day",
        "cold": "a warmer day",
        "dark": "daylight",
        "closed": f"'closein reopen' {what}, or drop the task",
    }.get(reason.kind, "")


def _shop_run(session: Session, ready: Readiness, cause: Cause) -> dict[str, float] | None:
    """What a run to a shop would cost and free [crew-hours], where it frees more than it costs."""
    lack = cause.reason.lack
    part = session.build.items.get(lack.part) if lack else None
    if part is None or part.get("lead_days") != 0:
        return None
    freed = sum(
        ready.chains.crew_hours[task]
        for task in cause.tasks
        if all(reason.cause == cause.reason.cause for reason in ready.tasks[task].reasons)
    )
    if freed <= SHOP_RUN_H:
        return None
    return {"costs": SHOP_RUN_H, "frees": round(freed, 1)}
