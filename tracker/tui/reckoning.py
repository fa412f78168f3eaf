"""What takes longer than a key may: the dates and the buy list, reckoned in a thread."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual import on
from textual.message import Message
from textual.worker import get_current_worker

from tracker.app.session import Session
from tracker.errors import CloseinError
from tracker.tui.actions import DATES, PARTS
from tracker.tui.buying_rows import BUYING
from tracker.tui.moving import Moving


def reckon_dates(still: Session, go_on: Callable[[], None]) -> dict[str, Any]:
    """The dates; what makes them is loaded only where somebody looks at them."""
    from tracker.app.views.dates import dates_view

    return dates_view(still, each=go_on)


def reckon_buying(still: Session, go_on: Callable[[], None]) -> dict[str, Any]:
    """The buy list, likewise."""
    from tracker.app.views.buying import buy_view

    return buy_view(still)


VIEWS_OF = {DATES: reckon_dates, BUYING: reckon_buying}


class Superseded(Exception):
    """Nobody waits any more for what is being reckoned."""


class Reckoned(Message):
    """Something was reckoned, or could not be."""

    def __init__(self, what: str, key: object, view: dict[str, Any] | None, problem: str) -> None:
        super().__init__()
        self.what, self.key, self.view, self.problem = what, key, view, problem


class Reckoning(Moving):
    """The part of the screen that has the dates and the buy list reckoned while it goes on."""

    def draw(self) -> None:
        """Everything anew; what is looked at and has changed since is reckoned anew."""
        sitting = self.sitting
        key = sitting.today_key()
        wide = self.has_class("-wide")
        looked_at = {
            DATES: self.view == DATES or (wide and self.pane(DATES).has_class("-there")),
            BUYING: sitting.buying and (wide or self.view == PARTS),
        }
        for what, here in looked_at.items():
            if here and sitting.asked.get(what) != key:
                sitting.asked[what] = key
                self._begin(what, key, sitting.session.still())
        super().draw()

    def _begin(self, what: str, key: object, still: Session) -> None:
        """Begin; what was begun before for an older state is given up."""
        self.run_worker(
            lambda: self.reckon(what, key, still), thread=True, exclusive=True, group=what
        )

    def reckon(self, what: str, key: object, still: Session) -> None:
        """Reckon in a thread; ``still`` is only read."""
        worker = get_current_worker()

        def go_on() -> None:
            if worker.is_cancelled:
                raise Superseded

        try:
            found = Reckoned(what, key, VIEWS_OF[what](still, go_on), "")
        except Superseded:
            return
        except CloseinError as error:
            found = Reckoned(what, key, None, str(error))
        self.post_message(found)

    @on(Reckoned)
    def reckoned(self, event: Reckoned) -> None:
        """Show it, unless the build has changed meanwhile and another is on its way."""
        if event.key != self.sitting.asked.get(event.what):
            return
        self.sitting.found[event.what] = event.key, event.view
        if event.problem:
            self.tell(event.problem, failed=True)
        self.draw_lists()
        self.draw_detail()

    def action_view(self, view: str) -> None:
        """Go to a view; the dates have more room for what is in hand."""
        self.set_class(view == DATES, "-dates")
        super().action_view(view)
        if view == DATES:
            self.call_after_refresh(self.draw_detail)

    def action_buying(self) -> None:
        """To what has to be bought, or from it back to all parts."""
        self.sitting.buying = not (self.view == PARTS and self.sitting.buying)
        self.action_view(PARTS)

    def action_book(self) -> None:
        """Book the hold point in hand among the dates, or the one shown."""
        hold = self.row.get("hold_point") if self.view == DATES else None
        if hold and self.sitting.walk and self.sitting.walk["hold_point"]["slug"] != hold:
            self.sitting.hold, self.sitting.zone = hold, None
            self.sitting.read()
            self.draw()
        super().action_book()
