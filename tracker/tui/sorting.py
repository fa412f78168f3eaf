"""What the keys do to the lines that could not be placed."""

from __future__ import annotations

from tracker.tui.actions import INBOX
from tracker.tui.gates import Gates


class Sorting(Gates):
    """The part of the screen that sorts the inbox."""

    def action_sort(self) -> None:
        """Say the line in hand again."""
        self._sort("sort")

    def action_keep(self) -> None:
        """Keep the line in hand as a note."""
        self._sort("keep")

    def action_drop(self) -> None:
        """The line in hand means nothing."""
        self._sort("drop")

    def _sort(self, action: str) -> None:
        here = self.view == INBOX
        if not here:
            self.action_view(INBOX)
        if not self.row:
            self.tell("no line waits to be sorted", failed=True)
        elif here:
            self.act(action)
        else:
            self.tell("choose the line and press the key again")
