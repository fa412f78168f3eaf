"""Reading the screen as people do: as rows of text."""

from __future__ import annotations

import asyncio
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from io import StringIO

from rich.console import Console
from textual.pilot import Pilot
from textual.widgets import Input

from tracker.app.session import Session
from tracker.tui.app import BuildApp
from tracker.tui.screen import BuildScreen

SMALL, LARGE = (80, 24), (120, 40)
PATIENCE_S = 20.0


def shown(app: BuildApp) -> str:
    """All that is on the screen, as text."""
    width, height = app.size
    console = Console(
        width=width,
        height=height,
        file=StringIO(),
        record=True,
        force_terminal=True,
        color_system="truecolor",
        legacy_windows=False,
    )
    stack = app._background_screens
    console.print(app.screen._compositor.render_update(full=True, screen_stack=stack))
    return console.export_text(styles=False)


@asynccontextmanager
async def open_on(session: Session, size: tuple[int, int] = SMALL) -> AsyncIterator[Pilot[None]]:
    """The screen, open on a build."""
    app = BuildApp(session)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        yield pilot


async def until(pilot: Pilot[None], true: Callable[[], object]) -> None:
    """Wait for something to become true; fails when it does not."""
    end = time.monotonic() + PATIENCE_S
    while not true():
        assert time.monotonic() < end, shown(_app(pilot))
        await pilot.pause()
        await asyncio.sleep(0.01)


async def typed(pilot: Pilot[None], words: str) -> None:
    """Put a text into the input that has the keys, as pasting does."""
    box = pilot.app.focused
    assert isinstance(box, Input), box
    box.insert_text_at_cursor(words)
    await pilot.pause()


def _app(pilot: Pilot[None]) -> BuildApp:
    app = pilot.app
    assert isinstance(app, BuildApp)
    return app


def screen(pilot: Pilot[None]) -> BuildScreen:
    """The screen under the pilot."""
    found = pilot.app.screen_stack[0]
    assert isinstance(found, BuildScreen)
    return found


def text(pilot: Pilot[None]) -> str:
    """All that is on the screen, as text."""
    return shown(_app(pilot))


def state(session: Session, check: str, subject: str) -> str:
    """How a check of a subject stands in the build."""
    from tracker.app.views.walk import walk_view

    return next(
        row["state"]
        for place in walk_view(session)["places"]
        for row in place["points"]
        if (row["check"], row["subject"]) == (check, subject)
    )
