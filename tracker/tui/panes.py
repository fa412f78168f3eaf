"""One pane: the title of a view and its list."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.getters import query_one
from textual.widgets import Static

from tracker.tui.columns import Column, Line
from tracker.tui.lines import Lines


class Pane(Vertical):
    """A view's title line and its list."""

    title: ClassVar = query_one(".pane-title", Static)
    lines: ClassVar = query_one(Lines)

    def __init__(self, view: str, columns: Sequence[Column]) -> None:
        super().__init__(id=f"pane-{view}")
        self.view, self.columns = view, columns

    def compose(self) -> ComposeResult:
        """The title above the list."""
        yield Static(classes="pane-title", markup=False)
        yield Lines(self.columns, id=self.view)

    def show(self, title: Content, lines: Sequence[Line], empty: str) -> None:
        """Draw a title and lines; ``empty`` is said where there are none."""
        self.title.update(title)
        self.lines.empty = empty
        self.lines.set_lines(lines)
