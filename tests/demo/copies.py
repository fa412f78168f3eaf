"""Copies of the demo, made at a moment of their own."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from tracker.app.demo import make
from tracker.app.session import Session

NOW = datetime.fromisoformat("2027-03-20T07:15:00+01:00")
"""An early hour, at which nothing of today can have happened yet."""


def made(into: Path, now: datetime = NOW, writer: str = "aaaabbbb") -> Session:
    """A copy of the demo as it comes out at ``now``, opened at that moment."""
    return make(
        into / "build",
        now,
        into / "data",
        user="Runa",
        clock=lambda: now,
        new_writer=lambda: writer,
    )
