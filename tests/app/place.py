"""A build folder that several people open, and intents in few words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from tests.app.yard import Clock
from tracker.act import Fact
from tracker.app import folder as folders
from tracker.app.session import Session
from tracker.build import item, log
from tracker.build.state import Build


class Place:
    """A build folder that several people open, each on a computer of their own."""

    def __init__(self, where: Path) -> None:
        self.where, self.folder, self.clock = where, where / "heron", Clock()
        folders.create(self.folder, folders.Marked("b1", "Heron", "+00:00"))

    def open(self, user: str = "Ida") -> Session:
        """A session of a person, on the computer of that person."""
        return Session(self.folder, clock=self.clock, user=user, data=self.where / user)

    def bytes(self) -> dict[str, bytes]:
        """All files of the journal."""
        return {file.name: file.read_bytes() for file in (self.folder / "journal").glob("**/*.log")}


def note(text: str) -> Callable[[Build], Sequence[Fact]]:
    return lambda _: [log.note(text)]


def say(*facts: Fact) -> Callable[[Build], Sequence[Fact]]:
    return lambda _: facts


def change(name: str, /, **values: Any) -> Callable[[Build], Sequence[Fact]]:
    def intent(build: Build) -> Sequence[Fact]:
        found = next(each for each in build.items.values() if each.slug == name)
        return [item.change(found, values)]

    return intent


def texts(session: Session) -> list[str]:
    return [each.text for each in session.build.notes]
