"""The plan as TOML text: the items of a build as a person would write them."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite
from typing import Any

import tomli_w

from tracker.build.item import VEHICLE, Item, as_list
from tracker.build.kinds import Field, Kind, kinds
from tracker.build.names import Names
from tracker.build.state import Build

HEAD = """\
# The plan of {name}, as tables of items. Change what you like and import it again:
#   a new table adds an item; a changed value changes it; "unknown" forgets a value;
#   a line or a table taken out changes nothing;
#   removed = "why"    removes the item, its record stays;
#   rename = "L33"     gives it another name;
#   reason = "why"     is needed to change what is buried already.
# Numbers are in the unit their name ends in; texts such as "18 ft" are taken too.
"""

TEMPLATE_IDS = ("phase:", "hold:", "task:", "check:")


def export(build: Build, name: str, *, everything: bool = False) -> str:
    """The plan of a build.

    Parameters
    ----------
    name: what the build is called.
    everything: also what came with the phases, and cleared blockers.
    """
    names = Names(build)
    tables = [HEAD.format(name=" ".join(name.split()))]
    for kind in kinds().values():
        for shown, item in names.by_kind.get(kind.name, {}).items():
            if everything or not (item.id.startswith(TEMPLATE_IDS) or item.get("cleared")):
                tables.append("\n".join(_table(build, names, kind, shown, item)) + "\n")
    return "\n".join(tables)


def _table(build: Build, names: Names, kind: Kind, shown: str, item: Item) -> Iterator[str]:
    if kind.name == VEHICLE:
        yield f"[{kind.name}]"
    else:
        yield f"[[{kind.name}]]"
        yield f"name = {toml(shown)}"
    for field in kind.fields.values():
        value = written(field, item, build, names)
        if value is not None:
            yield f"{field.name} = {toml(value)}"
    for name, rivals in item.rivals.items():
        values = " or ".join(toml(str(value)) for value in rivals.values())
        yield f"# in conflict: {name} is {values}; 'closein settle' decides"


def written(field: Field, item: Item, build: Build, names: Names) -> Any:
    """A field's value as a plain value of the file, names for ids; None where it is not written.

    What no release of this program would put into a field is not written either.
    """
    value = item.fields.get(field.name)
    if field.type == "names":
        if value == "none":
            return "none"
        known = [
            _reference(field, identifier, names)
            for identifier in as_list(value)
            if isinstance(identifier, str)
            and (named := build.items.get(identifier)) is not None
            and named.removed is None
        ]
        return (known[0] if known else None) if field.one else known or None
    if field.type == "list":
        fits = isinstance(value, list) and all(isinstance(row, str) for row in value)
        return [_sound(row) for row in value] if fits and value else None
    if isinstance(value, float) and not isfinite(value):
        return None
    if isinstance(value, str):
        return _sound(value)
    return value if isinstance(value, int | float) else None


def _sound(text: str) -> str:
    """A text as UTF-8 can hold it; halves of a character become '?'."""
    return text.encode("utf-8", "replace").decode()


def _reference(field: Field, identifier: str, names: Names) -> str:
    """The name of an item; with its kind before it where other kinds use the same name."""
    shown = names.shown[identifier]
    if field.kind != "any":
        return shown
    wanted = shown.casefold()
    alike = [
        kind
        for kind, rows in names.by_kind.items()
        if any(name.casefold() == wanted for name in rows)
    ]
    if len(alike) < 2:
        return shown
    own = next(kind for kind in alike if names.by_kind[kind].get(shown, _NOBODY).id == identifier)
    return f"{own}:{shown}"


_NOBODY = Item("", "", "", {}, "")


def toml(value: Any) -> str:
    """A plain value as TOML on one line; of a text, what UTF-8 can't hold becomes '?'."""
    if isinstance(value, list):
        return f"[{', '.join(toml(each) for each in value)}]"
    if isinstance(value, str):
        value = _sound(value)
    return tomli_w.dumps({"value": value}).removeprefix("value = ").removesuffix("\n")
