"""The phase templates there are: those of the build folder, the user's own, those shipped.

A file of one's own with the name of a shipped template takes its place; any other adds a phase.
The build folder goes before the user's own folder, that before what comes with the program.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from tracker.errors import BadFile, UnknownName
from tracker.templates.load import load, read, rows_of, shipped, shipped_rows
from tracker.templates.names import Rows
from tracker.templates.phase import Phase
from tracker.templates.shipped import path_of

SHIPPED, YOURS, THIS_BUILD = "shipped", "yours", "this build"
"""Where a template may come from."""


@dataclass(frozen=True, slots=True)
class Source:
    """One template that is in force.

    Parameters
    ----------
    name: its phase, which is its file's name without the ending.
    origin: ``shipped``, ``yours`` or ``this build``.
    path: its file.
    hides: where others of the same name come from that it takes the place of.
    fault: why its file can't be read, in one sentence, or None.
    """

    name: str
    origin: str
    path: Path
    hides: tuple[str, ...] = ()
    fault: str | None = None


class Library:
    """All templates that can be taken up.

    Parameters
    ----------
    build: the folder ``phases`` of a build folder, or None; it need not exist.
    yours: the user's own folder, or None; it need not exist.
    """

    def __init__(self, build: Path | None = None, yours: Path | None = None) -> None:
        self._folders = [(YOURS, yours), (THIS_BUILD, build)]

    @cached_property
    def own(self) -> Mapping[str, Source]:
        """The templates that do not come with the program, by name."""
        known = dict.fromkeys(shipped(), (SHIPPED,))
        found: dict[str, Source] = {}
        for origin, folder in self._folders:
            for path in _templates_in(folder):
                hides = known.get(path.stem, ())
                found[path.stem] = Source(path.stem, origin, path, hides, _fault(path))
                known[path.stem] = (origin, *hides)
        return found

    @cached_property
    def rows(self) -> Mapping[str, Rows]:
        """Every readable template as read, in the trade's order, own ones in their place."""
        own = {
            name: rows_of(source.path) for name, source in self.own.items() if source.fault is None
        }
        together = {**shipped_rows(), **own}
        return dict(sorted(together.items(), key=lambda pair: int(pair[1]["phase"][0]["order"])))

    @property
    def sources(self) -> list[Source]:
        """What is in force, in the trade's order; what can't be read stands last."""
        readable = [
            self.own[name] if name in self.own else Source(name, SHIPPED, path_of(name))
            for name in self.rows
            if name not in self.own or self.own[name].fault is None
        ]
        return [*readable, *(source for source in self.own.values() if source.fault is not None)]

    def names(self) -> tuple[str, ...]:
        """The names of all templates in force."""
        return tuple(source.name for source in self.sources)

    def read(self, name: str) -> Phase:
        """The template in force under a name.

        A shipped one is read against those it was shipped with, one's own against all there are.

        Raises
        ------
        UnknownName: there is none. BadFile: it is one's own and breaks a rule.
        """
        source = self.own.get(name)
        if source is not None:
            return load(source.path, among=self.rows)
        if name not in shipped():
            raise UnknownName("phase template", name, self.names())
        return read(name)

    def load(self, path: Path) -> Phase:
        """A template file from anywhere, read against all there are."""
        return load(path, among=self.rows)

    def missed_in(self, phase: Phase) -> list[str]:
        """What other templates refer to that the shipped template had and this one lacks.

        Each in one sentence: a check before a hold point that is nowhere is never asked.
        """
        if phase.name not in shipped():
            return []
        was = read(phase.name)
        gone = {each.key for each in was.holdpoints} - {each.key for each in phase.holdpoints}
        return [
            f"the checks of {home} that come before {key} would not be asked: "
            f"this {phase.name} has no hold point {key}"
            for key in sorted(gone)
            for home, rows in self.rows.items()
            if home != phase.name and any(row["before"] == key for row in rows["check"])
        ]


def _templates_in(folder: Path | None) -> Sequence[Path]:
    try:
        return sorted(folder.glob("*.toml")) if folder is not None else ()
    except OSError:
        return ()


def _fault(path: Path) -> str | None:
    try:
        rows_of(path)
    except BadFile as error:
        return str(error)
    return None
