"""Taking up phases from their templates."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tracker.act import Fact
from tracker.app.places import own_phases
from tracker.app.session import Intent
from tracker.build.state import Build
from tracker.errors import BadInput, Refused
from tracker.templates.facts import facts_of
from tracker.templates.library import Library
from tracker.templates.newer import newer
from tracker.templates.phase import Phase

IN_BUILD = "phases"
"""The folder inside a build folder that may hold templates of this build's own."""


def library(folder: Path | None) -> Library:
    """The templates in force for a build folder, or without one."""
    return Library(folder / IN_BUILD if folder is not None else None, own_phases())


def adopt(names: Sequence[str], among: Library | None = None) -> Intent:
    """Take up phases by name, each with its tasks, checks and hold points.

    Parameters
    ----------
    names: templates in force, or files by their path.
    among: the templates in force; by default those that come with the program.

    What a build has already stays as it is, whatever the template says by now; where nothing is
    new there are no facts.
    """
    phases = [template(name, among) for name in names]
    return lambda build: [fact for phase in phases if (fact := news(build, phase)) is not None]


def adopt_newer(names: Sequence[str], among: Library | None = None) -> Intent:
    """Take what newer templates add and change, as one act.

    Fields that were set by hand keep their values, and what a template has no more stays.

    Raises
    ------
    Refused: a phase that this build never took up.
    """
    phases = [template(name, among) for name in names]

    def intent(build: Build) -> Sequence[Fact]:
        facts: list[Fact] = []
        for phase in phases:
            found = newer(build, phase)
            if found is None:
                raise Refused(
                    f"{phase.name} is not in this build; without --newer 'closein phases adopt' "
                    "takes it up"
                )
            facts += found.facts()
        return facts

    return intent


def template(name: str, among: Library | None = None) -> Phase:
    """A template by name, or the file of one's own that a path names."""
    templates = among or Library()
    if name.endswith(".toml") or "/" in name:
        path = Path(name)
        if not path.is_file():
            raise BadInput(f"there is no file {name}; 'closein phases' lists the phases by name")
        return templates.load(path)
    return templates.read(name)


def news(build: Build, phase: Phase) -> Fact | None:
    """The fact that takes up a phase, or None where the build has it, of whatever edition."""
    fact = facts_of(phase)
    return None if fact["phase"]["id"] in build.items else fact


def comes_after(build: Build, phase: Phase) -> list[str]:
    """The names of the phases that come before this one and that the build does not have."""
    return [
        identifier.removeprefix("phase:")
        for identifier in phase.after
        if identifier not in build.items
    ]
