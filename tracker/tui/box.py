"""An input that is done with each key before the next one: what is typed ahead goes where it
belongs, however many keys arrive at once over a slow line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual import events
from textual.widgets import Input

LINE_END = " ¶ "
"""Stands where a pasted text had a line end."""


class Box(Input):
    """One line to type into.

    Parameters
    ----------
    done: called at once when Enter is pressed, not through the queue of messages.
    """

    def __init__(self, done: Callable[[Box], None], **settings: Any) -> None:
        super().__init__(compact=True, select_on_focus=False, **settings)
        self.done = done

    async def action_submit(self) -> None:
        """Enter."""
        self.done(self)

    def _on_paste(self, event: events.Paste) -> None:
        """All pasted lines, not just the first, on this one; Enter takes them one by one again."""
        lines = [line.strip() for line in event.text.splitlines() if line.strip()]
        event.stop()
        event.prevent_default()
        self.insert_text_at_cursor(LINE_END.join(lines))

    @property
    def lines(self) -> str:
        """What stands here, with each pasted line on a line of its own."""
        return self.value.replace(LINE_END, "\n")

    def take(self, event: events.Key) -> bool:
        """Take a printable key at once; True where it was one."""
        if not event.is_printable or event.character is None:
            return False
        if self.selection.is_empty:
            self.insert_text_at_cursor(event.character)
        else:
            self.replace(event.character, *self.selection)
        return True
