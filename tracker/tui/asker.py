"""The panel that asks: a title and a few questions, above the entry line, hiding nothing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from tracker.build.names import clean
from tracker.tui.asks import Asking

MOST_QUESTIONS = 5


class Asker(Vertical):
    """Asks; Enter goes on and answers after the last question, Esc puts it aside."""

    BINDINGS: ClassVar = [Binding("escape", "aside", show=False)]

    class Left(Message):
        """The questions were left, with what was typed to them."""

        def __init__(self, asking: Asking, typed: dict[str, str]) -> None:
            super().__init__()
            self.asking, self.typed = asking, typed

    class Answered(Left):
        """Every question was gone through."""

    class PutAside(Left):
        """They were left before the end."""

    asking: Asking | None = None

    def compose(self) -> ComposeResult:
        """A title, a warning, and as many rows as any action asks."""
        yield Static(classes="asker-title", markup=False)
        yield Static(classes="asker-warning", markup=False)
        for number in range(MOST_QUESTIONS):
            with Horizontal(classes="asker-row"):
                yield Static(classes="asker-label", markup=False)
                yield Input(compact=True, select_on_focus=False, id=f"answer-{number}")

    @property
    def inputs(self) -> list[Input]:
        """The inputs in use."""
        return list(self.query(Input))[: len(self.asking.questions) if self.asking else 0]

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
        first.focus()

    def close(self) -> None:
        """Nothing is asked any more."""
        self.asking = None
        self.display = False

    @on(Input.Submitted)
    def go_on(self, event: Input.Submitted) -> None:
        """To the next question, or the end."""
        event.stop()
        inputs = self.inputs
        if event.input in inputs[:-1]:
            inputs[inputs.index(event.input) + 1].focus()
        elif self.asking is not None:
            self.post_message(self.Answered(self.asking, self.typed))

    def action_aside(self) -> None:
        """Leave the questions; what was typed is kept for the next time."""
        if self.asking is not None:
            self.post_message(self.PutAside(self.asking, self.typed))
