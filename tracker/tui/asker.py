"""The panel that asks: a title and a few questions, above the entry line, hiding nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from tracker.build.names import clean
from tracker.tui.asks import Asking
from tracker.tui.box import Box
from tracker.tui.mending import faulty

MOST_QUESTIONS = 5


Left = Callable[[Asking, dict[str, str]], None]
"""Called with what was asked and what was typed when the questions are left."""


class Asker(Vertical):
    """Asks; Enter goes on and answers after the last question, Esc puts it aside.

    Parameters
    ----------
    answered: called when every question was gone through.
    put_aside: called when they were left before the end.
    """

    BINDINGS: ClassVar = [Binding("escape", "aside", show=False)]

    def __init__(self, answered: Left, put_aside: Left) -> None:
        super().__init__()
        self.answered, self.put_aside = answered, put_aside

    asking: Asking | None = None

    def compose(self) -> ComposeResult:
        """A title, a warning, and as many rows as any action asks."""
        yield Static(classes="asker-title", markup=False)
        yield Static(classes="asker-warning", markup=False)
        for number in range(MOST_QUESTIONS):
            with Horizontal(classes="asker-row"):
                yield Static(classes="asker-label", markup=False)
                yield Box(self.go_on, id=f"answer-{number}")

    @property
    def inputs(self) -> list[Box]:
        """The inputs in use."""
        return list(self.query(Box))[: len(self.asking.questions) if self.asking else 0]

    @property
    def typed(self) -> dict[str, str]:
        """What stands in the inputs, by the names of the questions."""
        if self.asking is None:
            return {}
        pairs = zip(self.asking.questions, self.inputs, strict=True)
        return {question.name: box.value for question, box in pairs}

    @property
    def begun(self) -> bool:
        """Was anything typed that was not filled in already?"""
        questions = self.asking.questions if self.asking else ()
        return any(self.typed[question.name] != question.filled for question in questions)

    def ask(self, asking: Asking, typed: Mapping[str, str]) -> None:
        """Show questions, with what was typed to them before."""
        self.asking = asking
        self.query_one(".asker-title", Static).update(Content(clean(asking.title)))
        warning = self.query_one(".asker-warning", Static)
        warning.update(Content(clean(asking.warning)))
        warning.display = bool(asking.warning)
        rows, labels = self.query(".asker-row"), self.query(".asker-label").results(Static)
        for number, row in enumerate(rows):
            row.display = number < len(asking.questions)
        for question, label, box in zip(asking.questions, labels, self.inputs, strict=False):
            label.update(Content(question.label))
            box.placeholder = question.hint
            box.value = typed.get(question.name, question.filled)
            box.cursor_position = len(box.value)
        self.display = True
        first = next((box for box in self.inputs if not box.value), self.inputs[-1])
        self.screen.set_focus(first)

    def close(self) -> None:
        """Nothing is asked any more."""
        self.asking = None
        self.display = False

    def go_on(self, box: Box) -> None:
        """To the next question, or the end."""
        inputs = self.inputs
        if box in inputs[:-1]:
            self.screen.set_focus(inputs[inputs.index(box) + 1])
        elif self.asking is not None:
            self.answered(self.asking, self.typed)

    def mend(self, error: str) -> None:
        """Put the cursor where the answer is that an error is about."""
        name = faulty(self.asking, self.typed, error) if self.asking is not None else None
        for question, box in zip(
            self.asking.questions if self.asking else (), self.inputs, strict=True
        ):
            if question.name == name:
                box.cursor_position = len(box.value)
                self.screen.set_focus(box)

    def action_aside(self) -> None:
        """Leave the questions; what was typed is kept for the next time."""
        if self.asking is not None:
            self.put_aside(self.asking, self.typed)
