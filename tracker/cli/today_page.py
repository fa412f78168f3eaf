"""The page that ``closein today`` prints: the plan first, then what is in the way."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.app.views.words.today import (
    SHOWN,
    clock,
    day_words,
    days_words,
    hands_words,
    holds_words,
    level_words,
    load_words,
    slot_notes,
)
from tracker.cli.desk import Desk

Row = Mapping[str, Any]


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
        self.plan()
        self._runners_up()
        self.load()
        self.not_counted()
        self.not_possible()
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

    def section(self, title: str) -> None:
        self.desk.say()
        self.desk.wrapped(title, head=True)

    def plan(self) -> None:
        rows, day = self.view["plan"], self.view["day"]
        if not rows:
            self.section("Nothing can be done with these people")
            return
        self.section(f"Do ({self.view['used']:g} of {day['crew_hours']:g} crew-hours)")
        for number, row in enumerate(rows, 1):
            self._slot(f"  {number}. ", row)
        around = f"{self.view['around_h'] * 60:.0f} min to set up and pack away"
        self.desk.wrapped(f"times run from the start of the day, with {around}", "  ")

    def _slot(self, start: str, row: Row) -> None:
        hands = hands_words(row["people"])
        when = f"{clock(row['start_h'])}-{clock(row['end_h'])}"
        self.desk.wrapped(f"{when} {row['task']}, {hands}: {row['title']}", " " * len(start), start)
        indent = " " * (len(start) + 2)
        for text in slot_notes(row):
            self.desk.wrapped(text, indent)

    def _runners_up(self) -> None:
        rows = self.view["runners_up"]
        if rows:
            self.section("Ready too, but no room for it today")
            for row in rows[:8]:
                hands = f"{row['people']} x {row['hours']:.1f} h"
                self.desk.wrapped(f"{row['task']}, {hands}: {row['title']}", "    ", "  - ")

    def load(self) -> None:
        rows = self.view["load"]
        if rows:
            self.section("Bring")
            for row in rows:
                text = f"{load_words(row)} {row['part']} from {row['place']}"
                self.desk.wrapped(f"{text}, for {', '.join(row['tasks'])}", "    ", "  - ")
        if self.view["tools"]:
            self.section("Tools")
            self.desk.wrapped("; ".join(row["tool"] for row in self.view["tools"]), "  ")

    def not_counted(self) -> None:
        rows = self.view["not_counted"]
        if rows or self.view["robs"]:
            self.section("Look before you rely on it")
        for row in rows:
            said = f"{row['part']} {level_words(row['level'])}"
            self.desk.wrapped(f"{said}: {', '.join(row['tasks'])}", "    ", "  - ")
        for row in self.view["robs"]:
            self.desk.wrapped(
                f"{row['task']} takes what {', '.join(row['robs'])} lacks then", "    ", "  - "
            )

    def not_possible(self) -> None:
        rows = self.view["not_possible"]
        if not rows:
            return
        self.section("Not possible, what holds up most first")
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
            self.section("Waiting for other work alone")
            texts = [f"{row['task']} (after {', '.join(row['for'])})" for row in near]
            texts += [f"and {len(rows) - len(near)} later ones"] if len(rows) > len(near) else []
            self.desk.wrapped("; ".join(texts), "  ")
