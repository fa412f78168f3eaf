"""Taking up phases from their templates."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.build.state import Build
from tracker.errors import BadInput
from tracker.templates.facts import facts_of
from tracker.templates.load import load, read
from tracker.templates.phase import Phase


def adopt(names: Sequence[str]) -> Intent:
    """Take up phases by name, each with its tasks, checks and hold points.

    What a build has already stays as it is; where nothing is new there are no facts.
    """
    phases = [template(name) for name in names]
    return lambda build: [fact for phase in phases if (fact := news(build, phase)) is not None]


def template(name: str) -> Phase:
    """A template that comes with the program, or the file of one's own that a path names."""
    if name.endswith(".toml") or "/" in name:
        path = Path(name)
        if not path.is_file():
            raise BadInput(f"there is no file {name}; 'closein phases' lists the phases by name")
        return load(path)
    return read(name)


def news(build: Build, phase: Phase) -> Fact | None:
    """The fact that takes up a phase, or None where the build has all of it."""
    fact = facts_of(phase)
    wanted = [fact["phase"]["id"], *(row["id"] for row in fact["items"])]
    return None if all(identifier in build.items for identifier in wanted) else fact


def comes_after(build: Build, phase: Phase) -> list[str]:
    """The names of the phases that come before this one and that the build does not have."""
    return [
        identifier.removeprefix("phase:")
        for identifier in phase.after
        if identifier not in build.items
    ]
