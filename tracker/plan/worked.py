"""On which days of the week this builder works, by the record."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date, timedelta
from typing import NamedTuple

from tracker.build.state import Build

WEEKEND = frozenset((5, 6))
WEEK = 7
FEWEST_DAYS = 4
"""Below so many logged days the record says nothing of weekdays. Common practice, no source."""
LAST_DAYS = 84
"""So many days back count. Common practice, no source: a season."""
BEFOREHAND = 4
"""Weeks that a promise to work on a day counts for, against the weeks of the record."""


class Habit(NamedTuple):
    """When there is work.

    Parameters
    ----------
    chances: for weekdays (Monday is 0), the chance that there is work.
    days: logged days it rests on.
    said: were the weekdays named, or are they those of the record (or, without one, the weekend)?
    """

    chances: dict[int, float]
    days: int
    said: bool


def days_worked(build: Build) -> set[date]:
    """The dates on which work was logged or a day was begun."""
    found = set()
    for act in build.acts:
        if act.id in build.dead:
            continue
        if any(fact.get("f") in ("task.worked", "day.started") for fact in act.facts):
            found.add(date.fromisoformat(act.happened[:10]))
    return found


def next_days(chances: Mapping[int, float], today: date) -> list[date]:
    """The next days after today that are likely worked, as far as they follow on each other.

    Parameters
    ----------
    chances: as in ``Habit``; where none is as likely as not, the likeliest weekdays count.
    """
    least = min(0.5, max(chances.values(), default=1.0))
    usual = {weekday for weekday, chance in chances.items() if chance >= least}
    found: list[date] = []
    for ahead in range(1, 15):
        day = today + timedelta(days=ahead)
        if day.weekday() in usual and len(found) < WEEK:
            found.append(day)
        elif found:
            break
    return found


def habit(worked: Collection[date], today: date, said: Collection[int] = ()) -> Habit:
    """How often each weekday is worked.

    Days named are worked as often as they were so far, a promise counting for four weeks. Where
    none are named they are those of the record, or with little logged the weekend.

    Parameters
    ----------
    worked: dates with work.
    said: the weekdays named (Monday is 0).
    """
    recent = [day for day in worked if today - timedelta(days=LAST_DAYS) <= day < today]
    if len(recent) < FEWEST_DAYS:
        return Habit(dict.fromkeys(sorted(said or WEEKEND), 1.0), len(recent), bool(said))
    weeks = max(1.0, (today - min(recent)).days / 7.0)
    counts = dict.fromkeys(range(7), 0)
    for day in recent:
        counts[day.weekday()] += 1
    if said:
        chances = {
            day: min(1.0, (counts[day] + BEFOREHAND) / (weeks + BEFOREHAND)) for day in sorted(said)
        }
    else:
        chances = {day: min(1.0, count / weeks) for day, count in counts.items() if count}
    return Habit(chances, len(recent), bool(said))
