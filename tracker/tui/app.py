"""The application: its colours, its signals, and the one screen it opens on."""

from __future__ import annotations

import asyncio
import os
import signal
from collections.abc import Iterable
from typing import ClassVar

from textual import events
from textual.app import App, SystemCommand
from textual.binding import Binding
from textual.screen import Screen
from textual.widgets import Input
from textual.widgets.input import Selection

from tracker.app.session import Session
from tracker.tui.actions import ACTIONS
from tracker.tui.box import Box
from tracker.tui.screen import BuildScreen
from tracker.tui.sitting import Sitting
from tracker.tui.theme import DARK, LIGHT, OWN_VARIABLES

ENDING_SIGNALS = (signal.SIGTERM, signal.SIGHUP)
NARROW, WIDE = "-narrow", "-wide"


class BuildApp(App[None]):
    """The screen on one build.

    Parameters
    ----------
    session: the build, open.
    """

    BINDINGS: ClassVar = [Binding("ctrl+c", "end", show=False, priority=True)]
    CSS_PATH = "app.tcss"
    TITLE = "closein"
    HORIZONTAL_BREAKPOINTS = [(0, NARROW), (110, WIDE)]  # noqa: RUF012 (the base declares it so)
    VERTICAL_BREAKPOINTS = [(0, "-low"), (34, "-tall")]  # noqa: RUF012

    def __init__(self, session: Session) -> None:
        # Without colours of our own the filter for NO_COLOR leaves none at all, not grey ones.
        super().__init__(ansi_color=True if os.environ.get("NO_COLOR") else None)
        self.sitting = Sitting(session)
        for theme in (DARK, LIGHT):
            self.register_theme(theme)
        self.theme = DARK.name

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Our own colours, for themes that lack them."""
        return dict(OWN_VARIABLES)

    def get_default_screen(self) -> Screen:
        """The screen it opens on."""
        return BuildScreen(self.sitting)

    def on_load(self) -> None:
        """Leave the terminal as it was found when somebody ends the program from outside."""
        loop = asyncio.get_running_loop()
        for number in ENDING_SIGNALS:
            loop.add_signal_handler(number, self.exit, None, 128 + number)

    async def on_event(self, event: events.Event) -> None:
        """Keys on the build's screen are dealt with one by one, each before the next is looked at.

        Else keys that arrive together, as over a slow line, reach the list while the input that
        the first of them opens has not got the keys yet, and words are taken for commands.
        """
        here = isinstance(self.screen, BuildScreen) if self.screen_stack else False
        if here and isinstance(event, events.Key) and not event.is_forwarded:
            await self._take_key(event)
        else:
            await super().on_event(event)

    async def _take_key(self, event: events.Key) -> None:
        if isinstance(self.screen, BuildScreen):
            self.screen.key_came(event.key)
        box = self.focused
        if isinstance(box, Box) and box.take(event):
            return
        if not await self._check_bindings(event.key, priority=True):
            await self._check_bindings(event.key)

    async def action_quit(self) -> None:
        """Ctrl-Q, wherever the keys are: as q does, asking where something typed would be lost."""
        while len(self.screen_stack) > 1:
            self.pop_screen()
        await self.screen.run_action("leave")

    async def action_end(self) -> None:
        """Ctrl-C: copies what is marked, where something is, and else quits as Ctrl-Q does."""
        box = self.focused if isinstance(self.focused, Input) else None
        marked = (box.selected_text if box else "") or self.screen.get_selected_text()
        if not marked:
            await self.action_quit()
            return
        self.copy_to_clipboard(marked)
        self.screen.clear_selection()
        if box:
            box.selection = Selection.cursor(box.cursor_position)

    def get_system_commands(self, screen: Screen) -> Iterable[SystemCommand]:
        """The palette holds the same actions as the keys."""
        for action in ACTIONS:
            yield SystemCommand(
                action.word,
                f"{action.help}  {action.all_keys}",
                lambda name=action.name: self._run(name),
            )

    def _run(self, name: str) -> None:
        self.call_next(self.screen.run_action, name)
