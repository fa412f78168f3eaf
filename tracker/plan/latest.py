"""Late starts: the last day on which each task can begin so that booked hold points hold.

Counted back from the booked day of each hold point over what comes before its closing task: work
in working hours, cures by the clock. Hands are no matter here, so the day is the last one that
could do, not one to wait for.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

from tracker.build.coverage import Coverage
from tracker.plan.calendar import Cure, WorkingCalendar
from tracker.plan.chain import Chains
from tracker.plan.todo import booking, tasks_before


def late_starts(
    cover: Coverage,
    chains: Chains,
    calendar: WorkingCalendar,
    when: Callable[[date, float], datetime],
) -> dict[str, datetime]:
    """The last moment at which each open task can begin; none for what no booked day needs.

    Parameters
    ----------
    when: makes a moment of a day and hours from its midnight, with the calendar's zone.
    """
    found: dict[str, datetime] = {}
    for hold in cover.holds:
        booked = booking(cover, hold, "")
        if booked is None:
            continue
        closing = hold.get("closed_by")
        end = when(date.fromisoformat(booked), calendar.begins_h)
        before = {task.id for task in tasks_before(cover, hold)} & chains.tasks.keys()
        for name, moment in _back_from(chains, calendar, before - {closing}, end).items():
            found[name] = min(moment, found.get(name, moment))
        if closing in chains.tasks:
            found[closing] = min(end, found.get(closing, end))
    return found


def _back_from(
    chains: Chains, calendar: WorkingCalendar, among: set[str], end: datetime
) -> dict[str, datetime]:
    """Each task's last start, for all of them to be done and cured by ``end``."""
    found: dict[str, datetime] = {}
    for name in reversed(chains.order):
        if name not in among:
            continue
        due = min((found[each] for each in chains.after[name] if each in found), default=end)
        cured = calendar.backward(due, Cure(float(chains.tasks[name].get("cure_h", 0.0))))
        found[name] = calendar.backward(cured, chains.hours[name])
    return found
