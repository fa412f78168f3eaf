"""What the keys do to a hold point: release, withdraw, close in, open again, book."""

from __future__ import annotations

from tracker.errors import CloseinError
from tracker.tui.actions import CHECKS
from tracker.tui.asker import Asker
from tracker.tui.asks import Asking
from tracker.tui.deeds import Deeds
from tracker.tui.holding import ZONE, gate_asking, zone_asking


class Gates(Deeds):
    """The part of the screen that does things to the hold point shown."""

    def gate(self, action: str) -> None:
        """Ask what an action on the hold point needs, the zone first where there are several.

        What the build's rules refuse anyway is said at once, and nothing is asked.
        """
        sitting, session = self.sitting, self.sitting.session
        if self.view != CHECKS:
            self.action_view(CHECKS)
        if sitting.walk is None:
            self.tell("there is no hold point yet; p takes up phases", failed=True)
            return
        hold = sitting.walk["hold_point"]["slug"]
        try:
            zones = sitting.zones(hold)
            if zones and sitting.zone is None and action != "book":
                self.ask(zone_asking(action, hold, zones))
                return
            row = sitting.gate_row(action, hold)
            sitting.would(action, row)
        except CloseinError as error:
            self.tell(str(error), failed=True)
            return
        self.ask(gate_asking(action, row, session.user, sitting.second, zones))

    def answered(self, ask: Asking, typed: dict[str, str]) -> None:
        """The zone leads on to what is done there; anything else is done."""
        if ask.action != ZONE:
            super().answered(ask, typed)
        elif self.sitting.choose_zone(typed["zone"]):
            self.sitting.put_aside(ask, {})
            self.no_more_asked()
            self.draw()
            self.gate(ask.row["then"])
        else:
            self.query_one(Asker).mend(self.sitting.message)
            self.draw()

    def action_release(self) -> None:
        """Ask for two names."""
        self.gate("release")

    def action_withdraw(self) -> None:
        """Ask why the release is taken back."""
        self.gate("withdraw")

    def action_close_in(self) -> None:
        """Say what is buried then, and ask whether it is."""
        self.gate("close_in")

    def action_reopen(self) -> None:
        """Ask why a closed zone is opened."""
        self.gate("reopen")

    def action_book(self) -> None:
        """Ask for the day."""
        self.gate("book")
