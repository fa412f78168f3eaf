"""The record of a sizing, in words: what decided an item's size, and from which figures."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def sized_words(record: Any) -> str:
    """One line on what an item was sized with; '' where nothing can be read from it.

    Parameters
    ----------
    record: the item's field ``sized``, which another program may have written.
    """
    if not isinstance(record, Mapping):
        return ""
    inputs = record.get("inputs")
    given = inputs.items() if isinstance(inputs, Mapping) else ()
    told = ", ".join(f"{name} {_plain(value)}" for name, value in given)
    tables = record.get("table_version")
    words = f"by {record.get('helper')}" + (f" from {told}" if told else "")
    return words + (f" (tables: {tables})" if tables else "")


def _plain(value: Any) -> str:
    if value is True:
        return "yes"
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)
