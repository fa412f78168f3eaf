"""The dates and what they rest on in words, the same on paper and on the screen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

Row = Mapping[str, Any]

MOST_NAMES = 6
NEAR_DAYS = 300
"""A day no farther off than this is told without its year."""


def days_worked_words(view: Row) -> str:
    """The days of work, such as ``sat, sun (43%)``."""
    shares = view["days"].items()
    return ", ".join(day if share >= 1.0 else f"{day} ({share:.0%})" for day, share in shares)


def _of_days(view: Row) -> Sequence[str]:
    if view["days_said"]:
        return ()
    other = "'closein dates --days' takes others"
    if all(day in ("sat", "sun") for day in view["days"]) and view["days_logged"] < 4:
        return (f"too few days were logged to know when you work: weekends; {other}",)
    return (f"the days worked so far ({view['days_logged']} logged); {other}",)


def booked_words(row: Row, day: str | None) -> str:
    """The booked day and its chance, or '' where none is booked.

    Parameters
    ----------
    day: the booked day as it is to be told.
    """
    if not row["booked"]:
        return ""
    return (
        f"{day}, it has passed" if row["booked_past"] else f"{day}, {row['booked_chance']} in 100"
    )


def near_day(day: str, today: str) -> str:
    """A day in short: '16 Dec', with its year where that is far off."""
    then = date.fromisoformat(day)
    far = abs((then - date.fromisoformat(today)).days) > NEAR_DAYS
    return then.strftime("%d %b %y" if far else "%d %b")


def driver_words(driver: Row) -> str:
    """What drives a date, in words."""
    name, kind = driver["name"], driver["kind"]
    if kind == "phase":
        name = f"the pace of {name}"
    elif kind == "days":
        name = "which days are worked"
    elif kind == "holdpoint":
        name = f"the day booked for {name}"
    said = [name] + ([f"{driver['share']:.0%}"] if driver["share"] else [])
    if driver["waited_for"]:
        said.append(f"(work waits for it in {driver['waited_for'] * 100:.0f} of 100 trials)")
    return " ".join(said)


def rests_words(view: Row) -> list[str]:
    """What the dates rest on, in sentences.

    Parameters
    ----------
    view: from ``dates_view``.
    """
    rests = view["rests_on"]
    logged = rests["logged_tasks"]
    said = [*_of_days(view), f"{view['trials']} trials of {rests['open_tasks']} open tasks"]
    if logged:
        few = "few, so the dates are wide; " if rests["few"] else ""
        tasks = "1 task" if logged == 1 else f"{logged} tasks"
        said.append(
            f"hours logged on {tasks} that are done: {few}"
            f"they count as {rests['factor']:g} times the likely hours"
        )
    else:
        said.append("no task with hours is logged as done, so the dates are wide; log the hours")
    said.append(
        f"{rests['orders_that_came']} orders that came: what is due may come late by up to "
        f"{rests['slip_a_day']:.0%} of the days it has to run"
    )
    for key, words in (
        ("hours_not_stated", "nobody stated hours, about 1 h is taken"),
        ("not_counted", "nobody counted, taken as there"),
        ("in_a_circle", "left out, since they wait for each other"),
        ("more_people_than_there_are", "more people than there are, so it takes longer"),
    ):
        if rests[key]:
            said.append(f"{words}: {_some(rests[key])}")
    unknown = [f"{row['waits_for']} for {row['task']}" for row in rests["nobody_knows_when"]]
    if unknown:
        said.append(f"nobody knows when it comes, taken as there: {_some(unknown)}")
    return said


def so_far_words(so_far: Row) -> list[str]:
    """What was done so far, in sentences."""
    weeks = so_far["weeks"]
    last = weeks[-1] if weeks else {"crew_hours_done": 0, "crew_hours_logged": 0}
    points = weeks[-1]["points_settled"] if weeks else 0
    said = [
        f"work of {last['crew_hours_done']:g} of {so_far['crew_hours_likely']:g} likely crew-hours "
        f"is done, {last['crew_hours_logged']:g} were logged",
        f"{points} of {so_far['points']} answers are settled",
    ]
    paid = [
        f"{row['phase'] or 'no phase'} {amount:g} {currency}".rstrip()
        for row in so_far["money"]
        for currency, amount in row["paid"].items()
    ]
    if paid:
        said.append(f"paid: {', '.join(paid)}")
    lost = [
        f"{row['kind'] or 'other'} {row['hours']:g} h"
        for row in so_far["lost_hours"]
        if row["hours"]
    ]
    if lost:
        said.append(f"lost to what stood in the way: {', '.join(lost)}")
    return said


def _some(names: Sequence[str]) -> str:
    rest = len(names) - MOST_NAMES
    return ", ".join(names[:MOST_NAMES]) + (f" and {rest} more" if rest > 0 else "")
