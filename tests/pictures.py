"""Make the pictures of README.md from the running program: ``python -m tests.pictures``.

The demo is made with a fixed clock and writer, so the same release gives the same pictures.
"""

from __future__ import annotations

import asyncio
import re
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path

from tracker.app.demo import make
from tracker.app.session import Session
from tracker.tui.app import BuildApp

FOLDER = Path(__file__).parent.parent / "demo" / "pictures"
NOW = datetime(2027, 3, 6, 8, 5, tzinfo=UTC)
PICTURES: dict[str, tuple[tuple[int, int], tuple[str, ...]]] = {
    "checks": ((120, 36), ()),
    "narrow": ((80, 24), ("down",) * 3),
    "parts": ((80, 24), ("2",)),
}
"""Name -> size in columns and rows, and the keys pressed before it is taken."""


def demo(folder: Path) -> Session:
    """The demo as it is at ``NOW``, always with the same writer."""
    return make(
        folder / "studio",
        NOW,
        folder / "data",
        user="Runa",
        clock=lambda: NOW,
        new_writer=lambda: "quoinabc",
    )


async def picture(session: Session, size: tuple[int, int], keys: tuple[str, ...]) -> str:
    """One picture of the screen as SVG, with ids that do not change from run to run."""
    app = BuildApp(session)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.press(*keys)
        await pilot.pause()
        drawn = app.export_screenshot(title="closein")
    return re.sub(r"terminal-\d+", "terminal", drawn)


def main() -> int:
    """Write every picture; print where."""
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        session = demo(Path(scratch))
        for name, (size, keys) in PICTURES.items():
            file = FOLDER / f"{name}.svg"
            file.write_text(asyncio.run(picture(session, size, keys)), "utf-8")
            print(file)
    return 0


if __name__ == "__main__":
    sys.exit(main())
