"""What a field may hold whoever wrote it: a record may come from other hands or a newer release.

People's own input is checked against ``kinds.toml`` where it is typed. Here only the shape is
held, by the field's name, so that no act can put a text where a number is reckoned with.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import lru_cache
from math import isfinite
from typing import Any

UNIT_ENDINGS = frozenset(
    ("m", "mm", "m2", "mm2", "c", "k", "a", "v", "w", "h", "pct", "kg", "pa", "l")
)
"""A name that ends in one of these after an underscore holds a number in that unit."""

GREATEST = 1e15
"""No number of a build is greater."""


def is_number(value: Any) -> bool:
    """A finite number, and no yes or no."""
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    return plain and isfinite(value) and abs(value) <= GREATEST


def _is_text(value: Any) -> bool:
    return isinstance(value, str)


def _is_date(value: Any) -> bool:
    try:
        return isinstance(value, str) and bool(date.fromisoformat(value))
    except ValueError:
        return False


def _is_texts(value: Any) -> bool:
    return isinstance(value, list | tuple) and all(map(_is_text, value))


def _is_names(value: Any) -> bool:
    return _is_text(value) or _is_texts(value)


def _is_yesno(value: Any) -> bool:
    return isinstance(value, bool)


def _is_limit(value: Any) -> bool:
    return isinstance(value, dict) and all(
        is_number(each) if name in ("min", "max", "sign_min") else _is_text(each)
        for name, each in value.items()
    )


def _is_hours(value: Any) -> bool:
    return (
        isinstance(value, dict)
        and "likely" in value
        and all(
            isinstance(pair, list | tuple) and len(pair) == 2 and all(map(is_number, pair))
            for pair in value.values()
        )
    )


def _is_where(value: Any) -> bool:
    return isinstance(value, dict) and all(
        all(map(_is_plain, wanted)) if isinstance(wanted, list | tuple) else _is_plain(wanted)
        for wanted in value.values()
    )


def _is_parts(value: Any) -> bool:
    return isinstance(value, list | tuple) and all(
        isinstance(row, dict)
        and _is_text(row.get("part"))
        and all(is_number(each) if name == "qty" else _is_plain(each) for name, each in row.items())
        for row in value
    )


def _is_table(value: Any) -> bool:
    return isinstance(value, dict)


def _is_plain(value: Any) -> bool:
    return isinstance(value, bool | str) or is_number(value)


def _is_plain_or_list(value: Any) -> bool:
    return _is_plain(value) or (isinstance(value, list | tuple) and all(map(_is_plain, value)))


_HOLDS: dict[str, Callable[[Any], bool]] = {
    **dict.fromkeys(
        ("needed", "minimum", "pack", "unit_cost", "order", "crew", "edition", "lead_days",
         "conductors", "limit_min", "limit_max", "amount"),
        is_number,
    ),
    **dict.fromkeys(
        ("booked", "cleared", "expected", "last_day", "decided", "paid", "due_on", "done_on",
         "weighed", "lent_on", "back_by", "returned"),
        _is_date,
    ),
    **dict.fromkeys(("bay", "stops", "needs", "part", "body"), _is_names),
    **dict.fromkeys(("buries", "watches", "may", "tools", "skills", "after", "trade"), _is_names),
    **dict.fromkeys(
        ("each", "before", "phase", "gates", "closed_by", "covered_by", "how", "class", "say",
         "text", "title", "missed", "basis", "standard", "lapse", "unit", "face", "owes"),
        _is_text,
    ),
    **dict.fromkeys(
        ("waive", "dry", "memory", "exit", "critical", "engine", "gas", "light"), _is_yesno
    ),
    "limit": _is_limit,
    "hours": _is_hours,
    "where": _is_where,
    "vehicle": _is_where,
    "parts": _is_parts,
    "sized": _is_table,
}  # fmt: skip


@lru_cache(maxsize=4096)
def _holds_of(name: str) -> Callable[[Any], bool]:
    if name in _HOLDS:
        return _HOLDS[name]
    stem, _, ending = name.rpartition("_")
    if name.startswith("booked@"):
        return _is_date
    return is_number if stem and ending in UNIT_ENDINGS else _is_plain_or_list


def fits(name: str, value: Any) -> bool:
    """May the field hold the value? What may not is passed over, and the field stays unknown."""
    return _holds_of(name)(value)
