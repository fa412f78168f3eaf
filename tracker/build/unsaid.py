"""What nobody has said yet: what is due before a close-in, and what is taken until then.

A short table of its own, ``unsaid.toml``, because every command that says what is still to do
reads it, and the long one of all kinds and fields only few.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from tracker.build.item import Item, as_list


@cache
def _table() -> dict[str, dict[str, Any]]:
    import tomllib

    return tomllib.loads(Path(__file__).with_name("unsaid.toml").read_text("utf-8"))


def due_of(kind: str) -> tuple[str, ...]:
    """The fields of a kind that must be known before the close-in that buries the item."""
    return tuple(_table()["due"].get(kind, ()))


def default_of(kind: str, field: str) -> Any:
    """What a field is taken to be until somebody says otherwise, or None."""
    return _table()["default"].get(kind, {}).get(field)


def unknown_fields(item: Item) -> list[str]:
    """The fields of an item that are due before its close-in and still unknown.

    Its bay is as good as its face and station.
    """
    placed = bool(as_list(item.get("bay")))
    return [
        name
        for name in due_of(item.kind)
        if item.fields.get(name) is None and not (placed and name in ("face", "station_m"))
    ]
