"""The page that ``closein today`` prints: the plan first, then what is in the way."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.cli.desk import Desk

Row = Mapping[str, Any]

SHOWN = 6
"""Tasks named in one line; --json names them all."""

IF_WORDS = {
    "dry": "if it stays dry",
    "cold": "if it is warm enough",
    "skill": "if somebody who may do it is there",
}


class Page:
    """One page.

    Parameters
    ----------
    view: from ``today_view``.
    """

    def __init__(self, desk: Desk, view: Row) -> None:
        self.desk, self.view = desk, view

    def print(self) -> None:
        """Print it all."""
        self._head()
        self._plan()
        self._runners_up()
        self._load()
        self._not_counted()
        self._not_possible()
        self._waiting()

    def _head(self) -> None:
        view, day = self.view, self.view["day"]
        self.desk.wrapped(f"{view['build']}: {view['date']}, {day_words(day)}", head=True)
        if day["as_on"]:
            said = f"what you did not say is as on {day['as_on']}"
            self.desk.wrapped(f"{said}; 'closein say \"3 people 8-16 dry 6C\"' begins a day", "  ")
        if view["hold_point"]:
            days = view["days"]
            far = "" if days is None else f", booked {view['booked']} ({days_words(days)})"
            self.desk.wrapped(f"next hold point: {view['hold_point']}{far}", "  ")

    def _section(self, title: str) -> None:
        self.desk.say()
        self.desk.wrapped(title, head=True)

    def _plan(self) -> None:
        rows, day = self.view["plan"], self.view["day"]
        if not rows:
            self._section("Nothing can be done with these people today")
            return
        self._section(f"Do ({self.view['used']:g} of {day['crew_hours']:g} crew-hours)")
        for number, row in enumerate(rows, 1):
            self._slot(f"  {number}. ", row)
        self.desk.wrapped(
            "times run from the start of the day, with 15 min to set up and pack away", "  "
        )

    def _slot(self, start: str, row: Row) -> None:
        hands = "1 person" if row["people"] == 1 else f"{row['people']} people"
        when = f"{clock(row['start_h'])}-{clock(row['end_h'])}"
        self.desk.wrapped(f"{when} {row['task']}, {hands}: {row['title']}", " " * len(start), start)
        indent = " " * (len(start) + 2)
        for text in slot_notes(row):
            self.desk.wrapped(text, indent)

    def _runners_up(self) -> None:
        rows = self.view["runners_up"]
        if rows:
            self._section("Ready too, but no room for it today")
            for row in rows[:8]:
                hands = f"{row['people']} x {row['hours']:.1f} h"
                self.desk.wrapped(f"{row['task']}, {hands}: {row['title']}", "    ", "  - ")

    def _load(self) -> None:
        rows = self.view["load"]
        if rows:
            self._section("Bring")
            for row in rows:
                unit = "" if row["unit"] in (None, "each") else f" {row['unit']}"
                text = f"{row['quantity']:g}{unit} {row['part']} from {row['place']}"
                self.desk.wrapped(f"{text}, for {', '.join(row['tasks'])}", "    ", "  - ")
        if self.view["tools"]:
            self._section("Tools")
            self.desk.wrapped("; ".join(row["tool"] for row in self.view["tools"]), "  ")

    def _not_counted(self) -> None:
        rows = self.view["not_counted"]
        if rows or self.view["robs"]:
            self._section("Look before you rely on it")
        for row in rows:
            words = {"low": "is low", "unknown": "was never counted"}
            said = words.get(row["level"], "has been counted, but not measured length by length")
            self.desk.wrapped(f"{row['part']} {said}: {', '.join(row['tasks'])}", "    ", "  - ")
        for row in self.view["robs"]:
            self.desk.wrapped(
                f"{row['task']} takes what {', '.join(row['robs'])} lacks then", "    ", "  - "
            )

    def _not_possible(self) -> None:
        rows = self.view["not_possible"]
        if not rows:
            return
        self._section("Not possible, what holds up most first")
        for row in rows[: 2 * SHOWN]:
            self.desk.wrapped(row["words"], "    ", "  - ")
            self.desk.wrapped(holds_words(row), "      ")
            if row["shop_run"]:
                run = row["shop_run"]
                self.desk.wrapped(
                    f"a shop run costs about {run['costs']:g} crew-hours and frees "
                    f"{run['frees']:g}",
                    "      ",
                )
        if len(rows) > 2 * SHOWN:
            self.desk.say(f"  and {len(rows) - 2 * SHOWN} more; --json lists them all")

    def _waiting(self) -> None:
        rows = self.view["waiting"]
        near = [row for row in rows if row["next_hold"]] or rows[:SHOWN]
        if rows:
            self._section("Waiting for other work alone")
            texts = [f"{row['task']} (after {', '.join(row['for'])})" for row in near]
            texts += [f"and {len(rows) - len(near)} later ones"] if len(rows) > len(near) else []
            self.desk.wrapped("; ".join(texts), "  ")


def slot_notes(row: Row) -> list[str]:
    """What is to be said of a task of the plan beyond its hours."""
    notes = []
    if row["subjects"]:
        where = f" in {', '.join(row['bays'])}" if row["bays"] else ""
        notes.append(f"in part: {', '.join(row['subjects'])}{where}")
    elif row["why_not_all"]:
        notes.append(f"in part, about {row['part'] * 100:.0f} in 100 of what is still to do")
    if row["why_not_all"]:
        notes.append(f"not all: {'; '.join(row['why_not_all'])}")
    if row["begun"]:
        notes.append(f"only begun: about {row['part'] * 100:.0f} in 100, the day is too short")
    if row["follows"]:
        notes.append("once the work above is done")
    notes += [IF_WORDS[each] for each in row["only_if"]]
    if row["next_step"]:
        notes.append(f"next step: {row['next_step']}")
    if not row["hours_stated"]:
        notes.append("nobody stated its hours; an hour is assumed")
    if row["moves"]:
        notes.append(f"moves {row['moves']:g} crew-hours of work toward the hold point")
    return notes


def holds_words(row: Row) -> str:
    """What a cause holds up, and what would free it."""
    told = []
    if row["tasks"]:
        held = [f"{task} (in part)" if task in row["in_part"] else task for task in row["tasks"]]
        after = f" and {row['after_them']} after" if row["after_them"] else ""
        more = f", {len(held) - SHOWN} more" if len(held) > SHOWN else ""
        names = ", ".join(held[:SHOWN]) + more
        told.append(f"holds {names}{after}, {row['crew_hours']:g} crew-hours")
    if row["points"]:
        told.append(f"{row['points']} {'answer' if row['points'] == 1 else 'answers'} open")
    if row["free_by"]:
        told.append(f"to free it: {row['free_by']}")
    return "; ".join(told)


def day_words(day: Row) -> str:
    """The facts of the day in words."""
    people = "1 person" if day["people"] == 1 else f"{day['people']} people"
    told = [people, f"{day['hours']:g} h"]
    told += [{True: "dry", False: "rain", None: "nobody said whether dry"}[day["dry"]]]
    told += [f"{day['air_c']:g} C"] if day["air_c"] is not None else ["temperature unknown"]
    told += ["no power"] if day["power"] is False else []
    told += [f"without {', '.join(day['without'])}"] if day["without"] else []
    told += [f"{', '.join(day['absent'])} not there"] if day["absent"] else []
    return ", ".join(told)


def days_words(days: int) -> str:
    """How far off a day is."""
    if days == 0:
        return "today"
    many = "day" if abs(days) == 1 else "days"
    return f"in {days} {many}" if days > 0 else f"{-days} {many} ago"


def clock(hours: float) -> str:
    """Hours as ``1:45``."""
    minutes = round(hours * 60)
    return f"{minutes // 60}:{minutes % 60:02d}"
