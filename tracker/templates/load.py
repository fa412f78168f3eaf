"""From a template file to a :class:`Phase`, or one error with file and line."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

from tracker.errors import BadFile, UnknownName
from tracker.templates import rules
from tracker.templates.names import Names, Rows
from tracker.templates.phase import Check, HoldPoint, Phase, Task
from tracker.templates.reader import Row, read_tables
from tracker.templates.shape import TEMPLATE
from tracker.templates.shipped import folder, path_of


def shipped() -> tuple[str, ...]:
    """The names of the templates that come with the program, in the trade's order of work."""
    return tuple(shipped_rows())


def shipped_rows() -> Mapping[str, Rows]:
    """The templates that come with the program as read, by name, in the trade's order."""
    return _shipped_rows(folder())


def rows_of(path: Path) -> Rows:
    """A template file as read, before its rules and references are looked at."""
    return read_tables(_text_of(path), str(path), TEMPLATE)


def read(name: str) -> Phase:
    """A template that comes with the program.

    Raises
    ------
    UnknownName: there is none of that name.
    """
    if name not in shipped():
        raise UnknownName("phase template", name, shipped())
    return load(path_of(name))


def load(
    source: Path | str, name: str | None = None, among: Mapping[str, Rows] | None = None
) -> Phase:
    """Load a phase template strictly.

    Parameters
    ----------
    source: the path of its file, or its text.
    name: what its phase must be called; by default the file's name without its ending, or for
        a text what the text says.
    among: the templates it may refer to, besides itself, by name; by default those that come
        with the program. It takes the place of the one of its own name.

    Raises
    ------
    BadFile: the first thing that is wrong with it, in one sentence, with file and line.
    """
    if isinstance(source, Path):
        text, file, name = _text_of(source), str(source), name or source.stem
    else:
        text, file = source, f"{name or 'template'}.toml"
    rows = read_tables(text, file, TEMPLATE)
    head = rows["phase"][0]
    known = shipped_rows() if among is None else among
    names = Names({**known, head["name"]: rows})
    rules.check_template(rows, name or head["name"], names)
    return _phase(rows, names, sha256(text.encode()).hexdigest())


@functools.lru_cache(maxsize=4)
def _shipped_rows(where: Path) -> Mapping[str, Rows]:
    found = {}
    for path in sorted(where.glob("*.toml")):
        found[path.stem] = rows_of(path)
    return dict(sorted(found.items(), key=lambda pair: int(pair[1]["phase"][0]["order"])))


def _text_of(path: Path) -> str:
    try:
        raw = path.read_bytes()
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise BadFile(str(path), None, f"can't be read: {reason}") from None
    try:
        return raw.decode()
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise BadFile(str(path), line, "not UTF-8 text; save the file as UTF-8") from None


def _phase(rows: Rows, names: Names, digest: str) -> Phase:
    head = rows["phase"][0]
    home = head["name"]
    return Phase(
        name=home,
        title=head["title"],
        order=head["order"],
        edition=head["edition"],
        after=tuple(names.phase(head, "after", name) for name in head.get("after", ())),
        summary=head["summary"],
        holdpoints=tuple(_holdpoint(row, names, home) for row in rows["holdpoint"]),
        tasks=tuple(_task(row, names, home) for row in rows["task"]),
        checks=tuple(_check(row, names) for row in rows["check"]),
        hash=digest,
    )


def _holdpoint(row: Row, names: Names, home: str) -> HoldPoint:
    values = _values(row)
    values["gates"] = names.phase(row, "gates", row["gates"])
    values["closed_by"] = names.task(row, "closed_by", row["closed_by"], home)
    return HoldPoint(**values)


def _task(row: Row, names: Names, home: str) -> Task:
    values = _values(row)
    values["needs"] = tuple(names.task(row, "needs", name, home) for name in row.get("needs", ()))
    values["hours"] = {band: tuple(pair) for band, pair in row["hours"].items()}
    return Task(**values)


def _check(row: Row, names: Names) -> Check:
    values = _values(row)
    values["class_"] = values.pop("class")
    values["before"] = names.hold(row, "before")
    return Check(**values)


def _values(row: Row) -> dict[str, Any]:
    return {
        key: tuple(value) if isinstance(value, list) else value for key, value in row.values.items()
    }
