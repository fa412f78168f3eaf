"""The kinds of item and their fields, read from ``kinds.toml`` when first asked for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from tracker.build.item import as_list
from tracker.build.names import Names, clean
from tracker.build.unsaid import default_of, due_of
from tracker.errors import BadInput, UnknownName, did_you_mean
from tracker.quantity import parse


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a kind.

    Parameters
    ----------
    name: ends in its unit where it has one.
    type: text, number, whole, yesno, choice, names, date or list.
    unit: SI unit of a number, '' for a bare one.
    of: the words of a choice.
    kind: the kind of item that names mean; 'any' for all.
    one: do names mean a single item?
    low, high: range of a number, both included, or None.
    due: must it be known before the close-in that buries the item?
    help: what it means.
    sources: what the sources say that disagree on it, in words; () for a plain field. Such a
        field is part of the profile: the rules and product sheets that this one build keeps to.
    """

    name: str
    type: str
    unit: str = ""
    of: tuple[str, ...] = ()
    kind: str = "any"
    low: float | None = None
    high: float | None = None
    default: Any = None
    due: bool = False
    help: str = ""
    one: bool = False
    sources: tuple[str, ...] = ()


TITLE = Field("title", "text", help="what it is called")
"""Every kind has this field, whether or not its table names it."""


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of item: what people call it, how made-up names begin, its fields by name."""

    name: str
    title: str
    prefix: str
    fields: Mapping[str, Field]

    def field(self, name: str) -> Field:
        """A field by name; :class:`BadInput` offers the ones there are.

        The unit at the end may be left off: ``length`` means ``length_m``.
        """
        if name in self.fields:
            return self.fields[name]
        short = [field for field in self.fields if field.rpartition("_")[0] == name]
        if len(short) == 1:
            return self.fields[short[0]]
        known = ", ".join(self.fields)
        near = did_you_mean(name, self.fields)
        raise BadInput(f"a {self.title} has no field '{clean(name)}'{near or f'; it has {known}'}")


@cache
def kinds() -> dict[str, Kind]:
    """All kinds by name."""
    import tomllib

    text = Path(__file__).with_name("kinds.toml").read_text("utf-8")
    table = tomllib.loads(text)
    shared = {part: table.pop(part)["fields"] for part in ("place", "profile")}
    return {name: _kind(name, row, shared) for name, row in table.items()}


def _kind(name: str, row: dict[str, Any], shared: dict[str, dict[str, Any]]) -> Kind:
    rows = dict(row.get("fields", {}))
    for part, fields_of_part in shared.items():
        if row.get(part):
            rows |= fields_of_part
    fields = {}
    for key, field in rows.items():
        fields[key] = Field(
            key,
            field["type"],
            field.get("unit", ""),
            tuple(field.get("of", ())),
            field.get("kind", "any"),
            field.get("min"),
            field.get("max"),
            default_of(name, key),
            key in due_of(name),
            field.get("help", ""),
            field.get("one", False),
            tuple(field.get("sources", ())),
        )
    fields.setdefault(TITLE.name, TITLE)
    return Kind(name, row["title"], row["prefix"], fields)


def kind_of(name: str) -> Kind:
    """A kind by name; :class:`UnknownName` offers the nearest."""
    table = kinds()
    if name not in table:
        raise UnknownName("kind of item", clean(name), table)
    return table[name]


def take(field: Field, text: Any, names: Names) -> Any:
    """A field's value from what was typed: text for all types, or a value of the right type.

    Raises
    ------
    BadInput: names the field, the value and what is allowed.
    """
    if isinstance(text, str):
        text = clean(text).strip()
    if text is None or (isinstance(text, str) and text.casefold() in ("", "unknown")):
        return None
    takers = {
        "text": _take_text,
        "number": _take_number,
        "whole": _take_whole,
        "yesno": _take_yesno,
        "choice": _take_choice,
        "date": _take_date,
    }
    if field.type == "names":
        return _take_names(field, text, names)
    if field.type == "list":
        rows = text if isinstance(text, list) else str(text).split(",")
        return [row for row in (clean(str(row)).strip() for row in rows) if row]
    return takers[field.type](field, text)


def _take_text(field: Field, text: Any) -> str:
    if isinstance(text, bool | list | dict):
        raise BadInput(f"{field.name} is a text; {text!r} is not")
    return str(text)


def _take_number(field: Field, text: Any) -> float:
    if isinstance(text, bool) or not isinstance(text, int | float | str):
        raise BadInput(f"{field.name} is a number; {text!r} is not")
    if not isinstance(text, str):
        return float(_within(field, text))
    try:
        return _within(field, parse(text, field.unit))
    except BadInput as error:
        known = str(error).startswith(field.name)
        raise BadInput(str(error) if known else f"{field.name}: {error}") from None


def _take_whole(field: Field, text: Any) -> int:
    try:
        number = int(str(text))
    except ValueError:
        raise BadInput(f"{field.name} is a whole number; '{clean(str(text))}' is not") from None
    return int(_within(field, number))


def _within(field: Field, value: float) -> float:
    low = field.low if field.low is not None else float("-inf")
    high = field.high if field.high is not None else float("inf")
    if abs(value) > 1e300:
        raise BadInput(f"{field.name} is too large a number")
    if not low <= value <= high:
        raise BadInput(
            f"{field.name} {value:g} {field.unit}".rstrip()
            + f" is outside {low:g} to {high:g} {field.unit}".rstrip()
        )
    return value


def _take_yesno(field: Field, text: Any) -> bool:
    words = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}
    if isinstance(text, bool):
        return text
    word = str(text).strip().casefold()
    if word not in words:
        raise BadInput(f"{field.name} is yes or no; '{clean(str(text))}' is neither")
    return words[word]


def _take_choice(field: Field, text: Any) -> str:
    word = str(text).strip().casefold()
    if word not in field.of:
        near = did_you_mean(word, field.of) or f"; it is one of {', '.join(field.of)}"
        raise BadInput(f"{field.name} can't be '{clean(str(text))}'{near}")
    return word


def _take_date(field: Field, text: Any) -> str:
    from datetime import date

    try:
        return date.fromisoformat(str(text).strip()).isoformat()
    except ValueError:
        raise BadInput(
            f"{field.name} is a date like 2027-04-18; '{clean(str(text))}' is not"
        ) from None


def _take_names(field: Field, text: Any, names: Names) -> list[str] | str:
    if str(text).strip().casefold() == "none":
        return "none" if field.name == "covered_by" else []
    words = text if isinstance(text, list) else [str(text)]
    kinds_wanted = () if field.kind == "any" else (field.kind,)
    noun = "item" if field.kind == "any" else field.kind
    found = names.expand([str(word) for word in words], kinds_wanted, noun)
    if field.one:
        if len(found) != 1:
            raise BadInput(f"{field.name} is one {field.kind}, not {len(found)}")
        return found[0].id
    return [item.id for item in found]


def show(field: Field, value: Any, names: Names) -> str:
    """A field's value as people read it."""
    if value is None:
        return "unknown"
    if field.type == "yesno":
        return "yes" if value else "no"
    if field.type == "names":
        return ", ".join(names.name(str(identifier)) for identifier in as_list(value))
    if field.type == "number" and isinstance(value, int | float):
        return f"{value:g} {field.unit}".rstrip()
    return clean(", ".join(map(str, as_list(value))))
