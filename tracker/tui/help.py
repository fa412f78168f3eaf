"""All keys on one page, made from the table of actions."""

from __future__ import annotations

from textwrap import fill
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from tracker.tui.actions import help_rows
from tracker.tui.marks import HOLD_SIGNS, SIGNS

WIDTH = 70
ENTRY_LINE = """\
12 label ok            the check called 'label' is good on run 12
12 len 9in             what was measured; the limit decides
bay 7 ok but 12 14     all that is looked at in bay 7, but for 12 and 14
out glands             none are there any more
3 people 8-16 dry 6C   the day begins
anything else          becomes a note"""


def help_text() -> Content:
    """The whole page."""
    keys_width = max(len(keys) for keys, _ in help_rows()) + 2
    rows = "\n".join(
        fill(f"{keys:<{keys_width}}{text}", WIDTH, subsequent_indent=" " * keys_width)
        for keys, text in help_rows()
    )
    states = "  ".join(f"{sign} {word}" for sign, word in SIGNS.values())
    holds = "  ".join(f"{sign} {state}" for state, sign in HOLD_SIGNS.items())
    parts: list[str | tuple[str, str]] = [
        ("Keys in the lists\n", "bold"),
        f"{rows}\n\n",
        ("The entry line takes what you would say\n", "bold"),
        f"{ENTRY_LINE}\n\n",
        ("A check is\n", "bold"),
        f"{states}\n\n",
        ("A hold point is\n", "bold"),
        f"{holds}\n\n",
        ("Esc goes back", "bold"),
    ]
    return Content.assemble(*parts)


class HelpScreen(ModalScreen[None]):
    """The page of keys over the screen."""

    BINDINGS: ClassVar = [
        Binding(key, "dismiss", show=False) for key in ("escape", "q", "question_mark", "enter")
    ]

    def compose(self) -> ComposeResult:
        """A page that scrolls."""
        with VerticalScroll():
            yield Static(help_text())

    def on_mount(self) -> None:
        """The page has the keys."""
        self.query_one(VerticalScroll).focus()
