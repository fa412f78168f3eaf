"""The strict reader of TOML files that people write: a declared shape in, rows or one error out.

Declare what a file may hold as a :data:`Shape`, and read it::

    RUN = {"name": Field("slug", required=True), "length_m": Field("number", min=0)}
    for row in read_tables(text, "runs.toml", {"run": Table(RUN)})["run"]:
        row["name"], row.get("length_m"), row.line

Whatever the shape does not name is an error: one sentence with file, line, key, value, what is
allowed and, where something near was meant, that. Rules that span several keys or tables are the
caller's; ``raise row.wrong("length_m", "...")`` gives them the same form.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tracker.errors import BadFile
from tracker.templates.lines import Lines, Where
from tracker.templates.values import Wrong, nearest, parsed, shown, taken


@dataclass(frozen=True, slots=True)
class Field:
    """What one key takes.

    Parameters
    ----------
    type: ``text``, ``slug`` (small letters, digits, hyphens), ``number`` (made a float), ``whole``,
        ``yesno``, ``date`` (made ISO text), ``texts``, ``slugs`` or ``numbers`` (a list; one value
        standing alone is taken as a list of one), ``table`` or ``tables`` (see ``fields``), or
        ``any`` (left to ``take``).
    required: must it be there.
    one_of: the texts allowed, where only these are; for a list, what each may be.
    min, max: bounds of a number, or of each number of a list, both allowed.
    fields: what the inner table, or each of the inner tables, takes.
    take: a last step that turns the value into what is wanted; its ``ValueError`` or
        ``CloseinError`` becomes the reason in the error.
    """

    type: str
    required: bool = False
    one_of: tuple[str, ...] = ()
    min: float | None = None
    max: float | None = None
    fields: Mapping[str, Field] | None = None
    take: Callable[[Any], Any] | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """What one table takes: ``[[name]]`` any number of times if ``many``, else ``[name]`` once."""

    fields: Mapping[str, Field]
    many: bool = True
    required: bool = False


Shape = Mapping[str, Table]
"""The tables a file may hold, by name."""


@dataclass(frozen=True, slots=True)
class Row:
    """One table of a file, its values taken and checked.

    Parameters
    ----------
    table: its name in the shape.
    number: its place among the tables of that name, from 0.
    values: the keys that were there; those that were not are absent.
    """

    file: str
    table: str
    number: int
    values: Mapping[str, Any]
    where: Where
    lines: Lines

    @property
    def line(self) -> int:
        """The line of its header, from 1."""
        return self.lines.of(self.where)

    def __getitem__(self, key: str) -> Any:
        return self.values[key]

    def __contains__(self, key: str) -> bool:
        return key in self.values

    def __iter__(self) -> Iterator[str]:
        return iter(self.values)

    def get(self, key: str, otherwise: Any = None) -> Any:
        """The value of ``key``, or ``otherwise`` where it was not given."""
        return self.values.get(key, otherwise)

    def wrong(self, key: str | Where, problem: str) -> BadFile:
        """The error that ``problem`` (one clause) stands at ``key``, or at a path inside it."""
        inner = (key,) if isinstance(key, str) else key
        return BadFile(self.file, self.lines.of(self.where + inner), problem)


def read_tables(text: str, file: str, shape: Shape) -> dict[str, tuple[Row, ...]]:
    """Read a hand-written TOML text strictly.

    Parameters
    ----------
    text: the whole file.
    file: its name as the person knows it, for the error.
    shape: the tables it may hold; nothing else is taken.

    Returns
    -------
    The rows of each table of the shape, in the order of the file; empty where there are none.

    Raises
    ------
    BadFile: the first thing that is wrong, with its line.
    """
    lines = Lines(text)
    try:
        whole = parsed(text)
        for name in whole:
            if name not in shape:
                raise Wrong((name,), f"unknown table or key {shown(name)}{nearest(name, shape)}")
        return {name: tuple(_rows(whole, name, shape[name], file, lines)) for name in shape}
    except Wrong as wrong:
        line = wrong.line if wrong.where is None else lines.of(wrong.where)
        raise BadFile(file, line, wrong.problem) from None


def _rows(
    whole: Mapping[str, Any], name: str, table: Table, file: str, lines: Lines
) -> Iterator[Row]:
    found = whole.get(name)
    head = f"[[{name}]]" if table.many else f"[{name}]"
    if found is None:
        if table.required:
            raise Wrong((), f"the table {head} is missing")
        return
    if table.many:
        if not isinstance(found, list) or not all(isinstance(each, dict) for each in found):
            raise Wrong((name,), f"{name} must be written as {head}, once for each")
        for number, each in enumerate(found):
            where: Where = (name, number)
            yield Row(file, name, number, taken(each, table.fields, where, head), where, lines)
    else:
        if not isinstance(found, dict):
            raise Wrong((name,), f"{name} must be written as {head}, once")
        yield Row(file, name, 0, taken(found, table.fields, (name,), head), (name,), lines)
