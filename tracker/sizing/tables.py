"""The tables beside the helpers, read once when first asked for.

A table is ``NAME.toml`` in this folder. It begins with ``version`` (a text), holds its sources as
``[source.KEY]`` with ``name, edition, place, verified``, and each group of rows names its source
by that key as ``source = "KEY"``. Nothing derived from a table is kept between two calls, so that
another table can stand in for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

from tracker.sizing.result import Source

Table = Mapping[str, Any]

_standing_in: dict[str, Table] = {}


def table(name: str) -> Table:
    """A table by the name of its file, without the ending; treat it as read-only."""
    return _standing_in[name] if name in _standing_in else packaged(name)


@cache
def packaged(name: str) -> Table:
    """The table as it is packaged, whatever stands in for it."""
    import tomllib

    return tomllib.loads(Path(__file__).with_name(f"{name}.toml").read_text("utf-8"))


@contextmanager
def standing_in(name: str, rows: Table) -> Iterator[None]:
    """Let another table stand in for one, inside a ``with``."""
    before = _standing_in.get(name)
    _standing_in[name] = rows
    try:
        yield
    finally:
        if before is None:
            del _standing_in[name]
        else:
            _standing_in[name] = before


def source(name: str, key: str) -> Source:
    """A source that a table names.

    Parameters
    ----------
    name: the table.
    key: the source's key in it.
    """
    row = table(name)["source"][key]
    return Source(row["name"], row["edition"], row["place"], row["verified"])


def version(*names: str) -> str:
    """The versions of tables, in one line: ``copper 1, ampacity 1``."""
    return ", ".join(f"{name} {table(name)['version']}" for name in names)
