"""Words into the fields of an item, by its kind."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from tracker.build.item import Item
from tracker.build.kinds import Field, Kind, kinds, take
from tracker.build.names import Names, clean, slug_of
from tracker.errors import BadInput, did_you_mean
from tracker.quantity.units import TAKEN, unit_spelled

COUNTED = ("needed", "minimum", "pack")
"""Fields of a part that are in the part's own unit."""


def take_values(
    kind: Kind, given: Mapping[str, Any], names: Names, item: Item | None = None
) -> dict[str, Any]:
    """Values by the full names of their fields, from words or plain values.

    Parameters
    ----------
    given: field (its unit may be left off) -> what was typed.
    item: the item that is to be changed, or None for a new one.

    Raises
    ------
    BadInput: a field there is not, one given twice, or a value that can't be taken.
    """
    fields = {word: kind.field(word) for word in given}
    unit = item.get("unit") if item is not None else None
    for word, field in fields.items():
        if kind.name == "part" and field.name == "unit":
            unit = part_unit(str(given[word]))
    taken: dict[str, Any] = {}
    for word, field in fields.items():
        if field.name in taken:
            raise BadInput(f"{field.name} is given twice")
        taken[field.name] = take_value(kind, field, given[word], names, unit)
    return taken


def take_value(kind: Kind, field: Field, text: Any, names: Names, unit: str | None = None) -> Any:
    """One field's value; ``unit`` is the unit a part is counted in."""
    if kind.name == "part" and field.name in COUNTED and isinstance(text, str):
        return take(replace(field, unit=unit or ""), text, names)
    value = take(field, text, names)
    if value is None:
        return None
    if kind.name == "part" and field.name == "unit":
        return part_unit(value)
    if kind.name == "check" and field.name == "each":
        known = ("once", *kinds())
        if value not in known:
            raise BadInput(f"each can't be '{value}'{did_you_mean(value, known)}")
    return value


def part_unit(text: str) -> str:
    """The unit a part is counted in: m, m2, l, kg, or the name of a thing, such as each or box.

    Raises
    ------
    BadInput: a unit that is typed but never kept, such as ft.
    """
    word = clean(text).strip()
    spelled = unit_spelled(word)
    if spelled is None or word in TAKEN:
        return word
    if spelled in TAKEN:
        return spelled
    kept = next((unit for unit, taken in TAKEN.items() if spelled in taken), "")
    raise BadInput(
        f"a part is not kept in {word}; keep it in {kept} and type its quantity in {word}"
    )


def fresh_name(names: Names, kind: Kind, wanted: str | None) -> str:
    """A short name that nothing of this kind has: the one wanted, else the next one free.

    Raises
    ------
    BadInput: the name breaks a rule or is taken; suggests one that is free.
    """
    if wanted is None:
        return names.free(kind.name, kind.prefix)
    slug_of(wanted)
    if taken(names, kind.name, wanted):
        raise BadInput(
            f"there is a {kind.title} called '{wanted}' already; "
            f"'{names.free(kind.name, _stem(kind, wanted))}' is free"
        )
    return wanted


def taken(names: Names, kind: str, name: str) -> bool:
    """Is something of this kind called so?"""
    return any(known.casefold() == name.casefold() for known in names.by_kind.get(kind, {}))


def _stem(kind: Kind, name: str) -> str:
    found = re.fullmatch(r"(.*?)\d+", name)
    stem = found[1] if found else f"{name}-"
    return kind.prefix if stem.casefold() == kind.prefix.casefold() else stem
