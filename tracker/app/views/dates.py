"""The dates of the build and their odds, as the screen and ``dates --json`` show them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from random import Random
from typing import Any

from tracker.app.session import Session
from tracker.app.views.day import Asked, day_of, last_day
from tracker.app.views.so_far import so_far
from tracker.errors import BadInput, did_you_mean
from tracker.plan.demand import demand
from tracker.plan.forecast import TRIALS, Forecast, Outlook, forecast
from tracker.plan.odds import Driver
from tracker.plan.record import FEW
from tracker.plan.scheduling import DAY_H, Week
from tracker.plan.worked import days_worked, habit

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
BEGINS_H = 8.0
"""Hour at which a day begins where nobody ever said. Common practice, no source."""
MOST_TRIALS = 100_000
MOST_DRIVERS = 5


@dataclass(frozen=True, slots=True)
class AskedDates:
    """What was said of the days to come; None takes what the record says.

    Parameters
    ----------
    crew: people there on a working day, 1 to 99.
    days: weekdays as typed, such as ``sat,sun`` or ``mon-fri``.
    hours: length of a day as typed, such as ``6`` or ``4h30``.
    trials: how often the work is scheduled, 2,000 to 100,000.
    """

    crew: int | None = None
    days: str | None = None
    hours: str | None = None
    trials: int = TRIALS


def dates_view(
    session: Session,
    asked: AskedDates | None = None,
    each: Callable[[], object] | None = None,
) -> dict[str, Any]:
    """The view model of ``dates``. The same build gives the same dates all day.

    Parameters
    ----------
    each: called before each trial; what it raises ends the work, which takes seconds.

    Raises
    ------
    BadInput: a number out of range, or no such weekday.
    """
    asked = asked or AskedDates()
    if not TRIALS <= asked.trials <= MOST_TRIALS:
        raise BadInput(f"{asked.trials} trials is outside {TRIALS} to {MOST_TRIALS}")
    day = day_of(session, Asked(asked.crew, asked.hours))
    if asked.crew is not None and asked.crew < 1:
        raise BadInput("nobody works with a crew of 0; give 1 to 99 people")
    last = last_day(session)
    crew = day.people or 1
    hours = day.longest_h or DAY_H / 3
    begins = last.from_h if last is not None and last.from_h is not None else BEGINS_H
    said = read_days(asked.days) if asked.days is not None else ()
    use = habit(days_worked(session.build), day.now.date(), said)
    week = Week(use.chances, min(begins, DAY_H - hours), hours)
    acts = session.build.acts
    seed = f"{acts[-1].id if acts else ''} {day.now.date()}"
    lines = demand(session.cover)
    found = forecast(session.cover, day.now, crew, week, Random(seed), asked.trials, lines, each)
    return {
        "build": session.marked.name,
        "date": day.now.date().isoformat(),
        "crew": crew,
        "hours": hours,
        "days": {WEEKDAYS[weekday]: round(share, 2) for weekday, share in use.chances.items()},
        "days_said": use.said,
        "days_logged": use.days,
        "trials": asked.trials,
        "dates": [_row(session, outlook) for outlook in found.outlooks],
        "rests_on": _rests_on(session, found),
        "so_far": so_far(session, lines),
    }


def read_days(text: str) -> list[int]:
    """Weekdays as typed, Monday is 0: ``sat,sun``, ``mon-fri``, or ``all``."""
    found: list[int] = []
    for word in text.casefold().replace(",", " ").split():
        first, dash, last = word.partition("-")
        if word == "all":
            found += range(7)
        elif dash:
            begin, end = _weekday(first), _weekday(last)
            found += [(begin + day) % 7 for day in range((end - begin) % 7 + 1)]
        else:
            found.append(_weekday(word))
    if not found:
        raise BadInput("which days? such as sat,sun or mon-fri")
    return sorted(set(found))


def _weekday(word: str) -> int:
    full = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
    for number, name in enumerate(full):
        if len(word) >= 3 and name.startswith(word):
            return number
    near = did_you_mean(word, WEEKDAYS) or f"; the days are {', '.join(WEEKDAYS)}"
    raise BadInput(f"'{word}' is no day of the week{near}")


def _row(session: Session, outlook: Outlook) -> dict[str, Any]:
    hold = outlook.hold
    return {
        "hold_point": session.names.name(hold.id) if hold is not None else None,
        "title": hold.title if hold is not None else "all work",
        "tasks": outlook.tasks,
        **{f"chances_{chances}": day.isoformat() for chances, day in outlook.dates},
        "spread": [[chances, day.isoformat()] for chances, day in outlook.spread],
        "booked": outlook.booked,
        "booked_past": _is_past(session, outlook.booked),
        "booked_chance": None if outlook.chance is None else round(outlook.chance),
        "drivers": [_driver(session, each) for each in outlook.odds.drivers[:MOST_DRIVERS]],
    }


def _driver(session: Session, driver: Driver) -> dict[str, Any]:
    item = session.build.items.get(driver.name)
    return {
        "name": _name(session, driver.name),
        "kind": item.kind if item is not None else driver.name,
        "share": round(driver.share, 2),
        "waited_for": round(driver.holds, 2),
    }


def _is_past(session: Session, booked: str | None) -> bool:
    return booked is not None and date.fromisoformat(booked) < session.now().date()


def _rests_on(session: Session, found: Forecast) -> dict[str, Any]:
    """How much is known, and what is not."""
    general = found.record.general
    phases = sorted(found.record.groups.items(), key=lambda row: -row[1].count)
    return {
        "open_tasks": found.open_tasks,
        "logged_tasks": general.count,
        "few": general.count < FEW,
        "factor": round(general.factor, 2),
        "phases": [
            {"phase": _name(session, phase), "tasks": mean.count, "factor": round(mean.factor, 2)}
            for phase, mean in phases
        ],
        "orders_that_came": found.slips.orders,
        "slip_a_day": round(found.slips.share, 2),
        "hours_not_stated": _names(session, found.unstated),
        "nobody_knows_when": [
            {"task": _name(session, task), "waits_for": _name(session, what)}
            for task, what in found.unknown
        ],
        "not_counted": list(found.uncounted),
        "in_a_circle": _names(session, found.circle),
        "more_people_than_there_are": _names(session, found.few_hands),
    }


def _names(session: Session, identifiers: Sequence[str]) -> list[str]:
    return [session.names.name(identifier) for identifier in identifiers]


def _name(session: Session, identifier: str) -> str:
    """The name of an item; a part that the build has not is told as it is called."""
    return session.names.name(identifier) if identifier in session.build.items else identifier
