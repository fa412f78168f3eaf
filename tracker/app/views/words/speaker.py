"""How items, fields and values are called when something is told of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from tracker.act import Fact
from tracker.app.views.words.counting import ranges
from tracker.build.item import VEHICLE
from tracker.build.kinds import Field, kinds, show
from tracker.build.names import Names
from tracker.build.state import Build
from tracker.quantity import show as show_quantity


class Speaker:
    """Knows what everything in one state of a build is called."""

    def __init__(self, build: Build, names: Names) -> None:
        self.build, self.names = build, names

    def name(self, identifier: Any) -> str:
        """What an item is called, removed or not."""
        if identifier == VEHICLE:
            return "the vehicle"
        shown = self.names.shown.get(identifier)
        if shown:
            return shown
        item = self.build.items.get(identifier)
        return item.slug if item is not None else "something not here"

    def known_as(self, identifiers: Iterable[Any]) -> str:
        """Several items, with ranges for those numbered in a row."""
        return ranges([self.name(identifier) for identifier in identifiers])

    def values(self, kind: str, values: Mapping[str, Any]) -> str:
        """Fields of a kind of item and their values, on one line."""
        return ", ".join(self.value(kind, name, value) for name, value in values.items())

    def value(self, kind: str, name: str, value: Any) -> str:
        """One field and its value: ``length 5.5 m``. A field may end in ``@`` and a zone's id."""
        base, _, zone = name.partition("@")
        where = f" ({self.name(zone)})" if zone else ""
        field = kinds()[kind].fields.get(base) if kind in kinds() else None
        if field is None:
            words = "unknown" if value is None else _plain(value)
            return f"{base.replace('_', ' ')} {words}{where}"
        return f"{label(field)} {self.shown(field, value)}{where}"

    def shown(self, field: Field, value: Any) -> str:
        """A field's value as people read it."""
        if field.type == "number" and field.unit and value is not None:
            return show_quantity(value, field.unit)
        if field.type == "names" and value not in (None, "none"):
            return self.known_as([value] if isinstance(value, str) else value)
        return show(field, value, self.names)


def label(field: Field) -> str:
    """What people call a field: its name without the unit it ends in."""
    name = field.name
    if field.unit:
        name = name.removesuffix("_" + field.unit.casefold().replace("%", "pct"))
    return name.replace("_", " ")


def why(fact: Fact) -> str:
    """The reason a fact gives, after a colon, or ''."""
    return f": {fact['why']}" if fact.get("why") else ""


def _plain(value: Any) -> str:
    if isinstance(value, list | tuple):
        return " ".join(map(str, value))
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {_plain(inner)}" for key, inner in value.items())
    return f"{value:g}" if isinstance(value, float) else str(value)
