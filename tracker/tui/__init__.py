"""The screen. Nothing here is imported before somebody asks for it: a command stays quick."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tracker.app.session import Session


def run(session: Session) -> int:
    """Open the screen on a build until it is quit; the exit status."""
    import gc

    gc.disable()  # nothing of the imports is garbage, and looking for it costs a tenth of a second
    from tracker.tui.app import BuildApp

    gc.enable()
    gc.freeze()
    app = BuildApp(session)
    app.run()
    return app.return_code or 0
