"""The page that ``closein today --next`` prints: day by day what to do, then what to take along."""

from __future__ import annotations

from tracker.app.views.words.today import day_words, load_words
from tracker.cli.desk import Desk
from tracker.cli.today_page import Page, Row


class AheadPage:
    """One page.

    Parameters
    ----------
    view: from ``ahead_view``.
    """

    def __init__(self, desk: Desk, view: Row) -> None:
        self.desk, self.view = desk, view

    def print(self) -> None:
        """Print it all."""
        self.desk.wrapped(f"{self.view['build']}: the working days ahead", head=True)
        for number, day in enumerate(self.view["days"]):
            page = Page(self.desk, day)
            after = "" if number == 0 else ", once the work above is done"
            date = f"{day['weekday'].capitalize()} {day['date']}"
            page.section(f"{date}, {day_words(day['day'])}{after}")
            page.plan()
        together = Page(self.desk, self.view)
        together.load()
        self._counts_on()
        together.not_counted()
        if self.view["days"]:
            Page(self.desk, self.view["days"][0]).not_possible()

    def _counts_on(self) -> None:
        rows = self.view["counts_on"]
        if rows:
            Page(self.desk, self.view).section("Counts on what is due by then")
            for row in rows:
                said = f"{load_words(row)} {row['part']}, due {row['due']}"
                self.desk.wrapped(said, "    ", "  - ")
