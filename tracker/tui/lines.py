"""A list of lines in columns, drawn line by line: quick with thousands, literal with any text."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from rich.cells import set_cell_size
from rich.segment import Segment
from textual import events
from textual.binding import Binding
from textual.geometry import Size
from textual.message import Message
from textual.reactive import var
from textual.scroll_view import ScrollView
from textual.strip import Strip

from tracker.tui.columns import Column, Line, fit, widths

CALM = ("good", "na", "quiet")
"""Looks of lines that nobody has to do anything about."""


class Lines(ScrollView, can_focus=True):
    """Lines under a head that stays; one of them is in hand.

    The line in hand stays the same one when the lines change around it.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        f"lines--{look}"
        for look in (
            *("plain", "head", "heading", "quiet", "hand", "hand-away"),
            *("open", "good", "bad", "waived", "na", "stale", "conflict"),
        )
    }
    BINDINGS: ClassVar = [
        Binding("up", "step(-1)", show=False),
        Binding("down", "step(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("home", "edge(0)", show=False),
        Binding("end", "edge(-1)", show=False),
    ]

    hand: var[int] = var(-1)
    """The number of the line in hand, or -1."""

    class InHand(Message):
        """Another line is in hand."""

        def __init__(self, lines: Lines) -> None:
            super().__init__()
            self.lines = lines

        @property
        def control(self) -> Lines:
            """The list."""
            return self.lines

    def __init__(self, columns: Sequence[Column], empty: str = "", **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.columns = columns
        self.empty = empty
        self.all: list[Line] = []
        self._widths: dict[int, list[int]] = {}

    @property
    def line(self) -> Line | None:
        """The line in hand, or None."""
        return self.all[self.hand] if 0 <= self.hand < len(self.all) else None

    def set_lines(self, lines: Sequence[Line]) -> None:
        """Draw other lines; what was in hand stays in hand, or else its neighbour.

        It stays in sight, too; a list that was scrolled away from it is left where it is.
        """
        old, seen = self.line, self._in_sight()
        self.all = list(lines)
        self._widths = {}
        self.virtual_size = Size(self.size.width, len(lines) + 1)
        number = next((i for i, row in enumerate(lines) if old and row.key == old.key), None)
        if number is None:
            number = self._near(min(max(self.hand, 0), len(lines) - 1))
        self.hand = number
        self.refresh()
        if seen:
            self.call_after_refresh(self.show_hand)
        self.post_message(self.InHand(self))

    def take(self, number: int) -> None:
        """Take a line in hand and bring it into sight."""
        if not 0 <= number < len(self.all) or not self.all[number].key:
            return
        self.hand = number
        self.refresh()
        self.show_hand()
        self.post_message(self.InHand(self))

    def _page(self) -> tuple[int, int]:
        """The number of the first line drawn, and how many there is room for."""
        return round(self.scroll_offset.y), max(1, self.size.height - 1)

    def _in_sight(self) -> bool:
        top, height = self._page()
        return top <= self.hand < top + height

    def show_hand(self) -> None:
        """Scroll so far that the line in hand, and a heading right above it, can be seen."""
        top, height = self._page()
        above = max(0, self.hand - 1)
        if above < top:
            self.scroll_to(y=above, animate=False)
        elif self.hand >= top + height:
            self.scroll_to(y=self.hand - height + 1, animate=False)

    def _near(self, number: int, way: int = 1) -> int:
        """The nearest line from ``number`` on that can be in hand, or -1."""
        for order in (way, -way):
            at = number
            while 0 <= at < len(self.all):
                if self.all[at].key:
                    return at
                at += order
        return -1

    def action_step(self, way: int) -> None:
        """Go one line up or down, over headings; stays at the ends."""
        at = self.hand + way
        while 0 <= at < len(self.all) and not self.all[at].key:
            at += way
        self.take(at)

    def action_page(self, way: int) -> None:
        """Go a page up or down."""
        jump = self.hand + way * max(1, self.size.height - 2)
        self.take(self._near(min(max(jump, 0), len(self.all) - 1), way))

    def action_edge(self, number: int) -> None:
        """Go to the first or last line."""
        self.take(self._near(0) if number == 0 else self._near(len(self.all) - 1, -1))

    def on_click(self, event: events.Click) -> None:
        """A click takes the line in hand."""
        if event.y > 0:
            self.take(round(self.scroll_offset.y) + event.y - 1)

    def on_resize(self) -> None:
        """Keep the line in hand in sight."""
        self.virtual_size = Size(self.size.width, len(self.all) + 1)
        self.call_after_refresh(self.show_hand)

    def on_focus(self) -> None:
        """The line in hand is drawn stronger while the list has the keys."""
        self.refresh()

    def on_blur(self) -> None:
        """And weaker while it has not."""
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One line of the list; the first is its head."""
        width = self.size.width
        if not self.all and self.empty:
            text = f" {self.empty}" if y == 0 else ""
            return self._strip(fit(text, width), "quiet", width)
        if y == 0:
            heads = tuple(column.head for column in self.columns)
            return self._strip(self._join(heads, width), "head", width)
        number = round(self.scroll_offset.y) + y - 1
        if number >= len(self.all):
            return self._strip("", "plain", width)
        line = self.all[number]
        if not line.key:
            return self._strip(fit(line.cells[0], width), line.look, width)
        return self._row(line, width, number == self.hand)

    def _sizes(self, width: int) -> list[int]:
        sizes = self._widths.get(width)
        if sizes is None:
            sizes = self._widths[width] = widths(self.columns, self.all, width - 2)
        return sizes

    def _join(self, cells: Sequence[str], width: int) -> str:
        sizes = self._sizes(width)
        if len(cells) < len(sizes):
            own, over = sizes[: len(cells)], [size for size in sizes[len(cells) :] if size]
            sizes = [*own[:-1], own[-1] + sum(over) + len(over)]
        pairs = zip(cells, sizes, strict=False)
        return f" {' '.join(fit(cell, size) for cell, size in pairs if size)} "

    def _strip(self, text: str, look: str, width: int) -> Strip:
        style = self.get_component_rich_style(f"lines--{look}")
        return Strip([Segment(set_cell_size(text, width), style)], width)

    def _row(self, line: Line, width: int, in_hand: bool) -> Strip:
        """One line: its first cell tells the state and has its colour, the rest is calm."""
        text = set_cell_size(self._join(line.cells, width), width)
        rest = "quiet" if line.look in CALM else "plain"
        styles = [self.get_component_rich_style(f"lines--{look}") for look in (line.look, rest)]
        if in_hand:
            text = "▸" + text[1:]
            name = "lines--hand" if self.has_focus else "lines--hand-away"
            over = self.get_component_rich_style(name, partial=True)
            styles = [style + over for style in styles]
        first = self._sizes(width)[0] + 1
        parts = (text[:first], text[first:])
        return Strip([Segment(*pair) for pair in zip(parts, styles, strict=True)], width)
