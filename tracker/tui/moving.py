"""Moving about: between the views, the bays and the checks still to do."""

from __future__ import annotations

from textual.widgets import Input

from tracker.tui.actions import CHECKS, MAIN, TODAY, VIEWS
from tracker.tui.asker import Asker
from tracker.tui.drawing import Drawing
from tracker.tui.lines import Lines
from tracker.tui.rows import SETTLED


class Moving(Drawing):
    """The part of the screen that moves about."""

    @property
    def lines(self) -> Lines:
        """The list of the view in hand."""
        return self.pane(self.view).lines

    def action_view(self, view: str) -> None:
        """Go to a view."""
        self.view = view
        for name in VIEWS:
            self.pane(name).set_class(name == view, "-current")
            if view in MAIN:
                self.pane(name).set_class(name == view, "-there")
        self.set_class(view == TODAY, "-day")
        self.query_one("#views").set_class(view not in MAIN, "-current-side")
        self.draw()
        self.set_focus(self.lines)

    def action_next_view(self) -> None:
        """To the next view, or while something is asked to the next question."""
        self._step(1)

    def action_previous_view(self) -> None:
        """To the view before, or the question before."""
        self._step(-1)

    def _step(self, way: int) -> None:
        boxes = self.query_one(Asker).inputs
        if self.focused in boxes:
            at = boxes.index(self.focused) + way
            self.set_focus(boxes[at % len(boxes)])
        elif boxes:
            self.set_focus(boxes[0])
        elif isinstance(self.focused, Input):
            self.set_focus(self.lines)
        else:
            self.action_view(VIEWS[(VIEWS.index(self.view) + way) % len(VIEWS)])

    def action_only_open(self) -> None:
        """Only the checks still to do, or all."""
        self.sitting.only_open = not self.sitting.only_open
        self.draw()

    def action_next_open(self) -> None:
        """To the next check still to do, from the top again after the last."""
        lines = self.pane(CHECKS).lines
        order = [*range(lines.hand + 1, len(lines.all)), *range(lines.hand + 1)]
        for number in order:
            if lines.all[number].key and lines.all[number].row["state"] not in SETTLED:
                lines.take(number)
                return
        self.tell("nothing is open here")

    def action_next_bay(self) -> None:
        """To the first row of the next bay."""
        self._bay(1)

    def action_previous_bay(self) -> None:
        """To the first row of this bay, then of the one before."""
        self._bay(-1)

    def _bay(self, way: int) -> None:
        lines = self.lines
        heads = [number + 1 for number, line in enumerate(lines.all) if not line.key]
        ahead = [n for n in heads if (n > lines.hand if way > 0 else n < lines.hand)]
        if ahead:
            lines.take(ahead[0] if way > 0 else ahead[-1])

    def action_next_hold(self) -> None:
        """Show the next hold point."""
        self.sitting.next_hold()
        self.draw()

    def action_next_zone(self) -> None:
        """Show the next zone."""
        self.sitting.next_zone()
        self.draw()
