"""The page that ``closein dates`` prints: the dates first, then what drives them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tracker.app.views.words.dates import (
    booked_words,
    days_worked_words,
    driver_words,
    rests_words,
    so_far_words,
)
from tracker.cli.desk import Desk

Row = Mapping[str, Any]

MOST_DRIVERS = 3


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
        crew = f"{people}, {view['hours']:g} h on {days_worked_words(view)}"
        self.desk.wrapped(f"{view['build']}: {view['date']}, {crew}", head=True)
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
        self._rests_on()
        self._so_far(view["so_far"])

    def _drivers(self, rows: Sequence[Row]) -> None:
        driven = [row for row in rows if row["drivers"]]
        if not driven:
            return
        self.desk.say()
        self.desk.wrapped("What drives each date, by how much of its spread", head=True)
        for row in driven:
            words = ", ".join(map(driver_words, row["drivers"][:MOST_DRIVERS]))
            self.desk.wrapped(f"{row['hold_point'] or row['title']}: {words}", "    ", "  - ")

    def _rests_on(self) -> None:
        self.desk.say()
        self.desk.wrapped("What it rests on", head=True)
        for text in rests_words(self.view):
            self.desk.wrapped(text, "    ", "  - ")

    def _so_far(self, so_far: Row) -> None:
        self.desk.say()
        self.desk.wrapped("So far", head=True)
        for text in so_far_words(so_far):
            self.desk.wrapped(text, "    ", "  - ")


def _date_row(row: Row) -> list[str]:
    name = row["hold_point"] or row["title"]
    days = (row[f"chances_{chances}"] for chances in (50, 80, 95))
    return [name, *days, booked_words(row, row["booked"])]
