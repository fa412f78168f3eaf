"""The page that ``closein dates`` prints: the dates first, then what drives them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tracker.cli.desk import Desk

Row = Mapping[str, Any]

MOST_NAMES, MOST_DRIVERS = 6, 3


class Page:
    """One page.

    Parameters
    ----------
    view: from ``dates_view``.
    """

    def __init__(self, desk: Desk, view: Row) -> None:
        self.desk, self.view = desk, view

    def print(self) -> None:
        """Print it all."""
        view = self.view
        people = "1 person" if view["crew"] == 1 else f"{view['crew']} people"
        head = f"{view['build']}: {view['date']}, {people}, {view['hours']:g} h on {self._days()}"
        self.desk.wrapped(head, head=True)
        self.desk.say()
        rows = [_date_row(row) for row in view["dates"]]
        self.desk.table(rows, ("chances in 100:", "50", "80", "95", "booked"))
        self.desk.say()
        self.desk.wrapped(
            "A hold point's date is the first day that begins with all before it done and cured. "
            "It says nothing of its checks; 'closein todo' does.",
            "  ",
        )
        self._drivers(view["dates"])
        self._rests_on(view["rests_on"])
        self._so_far(view["so_far"])

    def _days(self) -> str:
        said = []
        for day, share in self.view["days"].items():
            said.append(day if share >= 1.0 else f"{day} ({share:.0%})")
        return ", ".join(said)

    def _drivers(self, rows: Sequence[Row]) -> None:
        driven = [row for row in rows if row["drivers"]]
        if not driven:
            return
        self.desk.say()
        self.desk.wrapped("What drives each date, by how much of its spread", head=True)
        for row in driven:
            words = ", ".join(map(driver_words, row["drivers"][:MOST_DRIVERS]))
            self.desk.wrapped(f"{row['hold_point'] or row['title']}: {words}", "    ", "  - ")

    def _rests_on(self, rests: Row) -> None:
        self.desk.say()
        self.desk.wrapped("What it rests on", head=True)
        for text in (*self._of_days(), *rests_words(rests, self.view["trials"])):
            self.desk.wrapped(text, "    ", "  - ")

    def _so_far(self, so_far: Row) -> None:
        self.desk.say()
        self.desk.wrapped("So far", head=True)
        for text in so_far_words(so_far):
            self.desk.wrapped(text, "    ", "  - ")

    def _of_days(self) -> Sequence[str]:
        view = self.view
        if view["days_said"]:
            return ()
        if all(day in ("sat", "sun") for day in view["days"]) and view["days_logged"] < 4:
            return ("too few days were logged to know when you work: weekends; say else by --days",)
        return (f"the days worked so far ({view['days_logged']} logged); say else by --days",)


def _date_row(row: Row) -> list[str]:
    booked = ""
    if row["booked"]:
        over = ", it has passed" if row["booked_past"] else f", {row['booked_chance']} in 100"
        booked = f"{row['booked']}{over}"
    name = row["hold_point"] or row["title"]
    return [name, *(row[f"chances_{chances}"] for chances in (50, 80, 95)), booked]


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


def rests_words(rests: Row, trials: int) -> list[str]:
    """What the dates rest on, in sentences."""
    logged = rests["logged_tasks"]
    said = [f"{trials} trials of {rests['open_tasks']} open tasks"]
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
        f"{points} of {so_far['points']} points are settled",
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
