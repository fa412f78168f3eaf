"""Values inside facts, read strictly: a fact that holds anything else is kept, not taken.

Journals come from other people's computers, so a value is looked at before it enters the state.
Each function gives the value back or raises ValueError.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isfinite
from typing import Any


def text(value: Any) -> str:
    """A text."""
    if type(value) is not str:
        raise ValueError("not a text")
    return value


def text_or_none(value: Any) -> str | None:
    """A text, or nothing."""
    return None if value is None else text(value)


def number(value: Any) -> float:
    """A finite number; yes and no are no numbers."""
    if type(value) not in (int, float) or not isfinite(value):
        raise ValueError("not a number")
    return float(value)


def number_or_none(value: Any) -> float | None:
    """A finite number, or nothing."""
    return None if value is None else number(value)


def yesno_or_none(value: Any) -> bool | None:
    """Yes or no, or nothing."""
    if value is not None and type(value) is not bool:
        raise ValueError("neither yes nor no")
    return value


def texts(value: Any) -> tuple[str, ...]:
    """A list of texts."""
    if not isinstance(value, list | tuple):
        raise ValueError("not a list")
    return tuple(map(text, value))


def table(value: Any) -> Mapping[str, Any]:
    """A table with texts for keys."""
    if not isinstance(value, Mapping):
        raise ValueError("not a table")
    return value
