"""The recipes of fixtures, read strictly from ``fixtures.toml`` beside the code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from tracker.build.kinds import kind_of, kinds
from tracker.errors import BadInput, UnknownName
from tracker.templates.reader import Field, Row, Shape, Table, read_tables
from tracker.templates.shape import PART_UNITS
from tracker.templates.values import nearest, shown

WHENS = ("ribs", "no-ribs", "switch", "no-switch", "gas", "no-gas", "feed")
PERS = ("once", "each", "link", "hole")
PLACES = ("here", "bay", "nowhere")
_NAME = Field("slug", required=True)
_TEXT = Field("text", required=True)

SHAPE: Shape = {
    "fixture": Table(
        {
            "name": _NAME,
            "title": _TEXT,
            "thing": _NAME,
            "several": Field("yesno"),
            "summary": _TEXT,
            "caution": Field("text"),
        },
        required=True,
    ),
    "draft": Table(
        {
            "of": Field("slugs", required=True),
            "kind": _NAME,
            "key": Field("slug"),
            "per": Field("text", one_of=PERS),
            "at": Field("text", one_of=PLACES),
            "when": Field("texts", one_of=WHENS),
            "set": Field("any", required=True),
        }
    ),
    "part": Table(
        {
            "of": Field("slugs", required=True),
            "part": _NAME,
            "title": Field("text"),
            "unit": Field("text", required=True, one_of=PART_UNITS),
            "qty": Field("number", required=True, min=0.001, max=1e6),
            "per": Field("slug"),
            "when": Field("texts", one_of=WHENS),
        }
    ),
}


@dataclass(frozen=True, slots=True)
class Draft:
    """One item that a fixture brings.

    Parameters
    ----------
    kind: of item.
    key: a word that other drafts name it by, or None.
    per: once, each, link or hole.
    at: here, bay or nowhere.
    when: the conditions that must all hold.
    fields: field -> what it takes, with placeholders.
    """

    kind: str
    key: str | None
    per: str
    at: str
    when: tuple[str, ...]
    fields: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Needed:
    """A part that a fixture takes: so many ``per`` fixture (once) or drafted item of a kind."""

    part: str
    title: str | None
    unit: str
    quantity: float
    per: str
    when: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a fixture brings with it.

    Parameters
    ----------
    name: what people type.
    title: what it is called where they give it no name.
    thing: the kind of item it is itself.
    several: may it be a row?
    caution: shown with the draft, or None.
    """

    name: str
    title: str
    thing: str
    several: bool
    summary: str
    caution: str | None
    drafts: tuple[Draft, ...]
    parts: tuple[Needed, ...]


def recipe(name: str) -> Recipe:
    """A recipe by name; :class:`UnknownName` offers the nearest."""
    known = recipes()
    if name not in known:
        raise UnknownName("fixture", name, known)
    return known[name]


@cache
def recipes() -> Mapping[str, Recipe]:
    """The recipes that come with the program, by name."""
    path = Path(__file__).with_name("fixtures.toml")
    return load(path.read_text("utf-8"), path.name)


def load(text: str, file: str) -> Mapping[str, Recipe]:
    """Recipes from a text.

    Raises
    ------
    BadFile: the first thing that is wrong, with its line.
    """
    rows = read_tables(text, file, SHAPE)
    names = [row["name"] for row in rows["fixture"]]
    for table in ("draft", "part"):
        for row in rows[table]:
            _check(row, names)
    for number, row in enumerate(rows["fixture"]):
        if row["name"] in names[:number]:
            raise row.wrong("name", f"a fixture called {shown(row['name'])} stands here twice")
        _kind(row, "thing")
    return {row["name"]: _recipe(row, rows["draft"], rows["part"]) for row in rows["fixture"]}


def _check(row: Row, names: Sequence[str]) -> None:
    for place, name in enumerate(row["of"]):
        if name not in names:
            raise row.wrong(("of", place), f"of names {shown(name)}{nearest(name, names)}")
    if row.table == "part":
        if row.get("per", "once") != "once":
            _kind(row, "per")
        return
    _kind(row, "kind")
    if not isinstance(row["set"], dict):
        raise row.wrong("set", f"set is {shown(row['set'])}; it must be a table")
    for name in row["set"]:
        try:
            kind_of(row["kind"]).field(name)
        except BadInput as error:
            raise row.wrong(("set", name), str(error)) from None


def _kind(row: Row, key: str) -> None:
    if row[key] not in kinds():
        raise row.wrong(key, f"{key} is {shown(row[key])}{nearest(row[key], kinds())}")


def _recipe(row: Row, drafts: Sequence[Row], parts: Sequence[Row]) -> Recipe:
    name = row["name"]
    return Recipe(
        name,
        row["title"],
        row["thing"],
        bool(row.get("several")),
        row["summary"],
        row.get("caution"),
        tuple(
            Draft(
                each["kind"],
                each.get("key"),
                each.get("per", "once"),
                each.get("at", "here"),
                tuple(each.get("when", ())),
                each["set"],
            )
            for each in drafts
            if name in each["of"]
        ),
        tuple(
            Needed(
                each["part"],
                each.get("title"),
                each["unit"],
                each["qty"],
                each.get("per", "once"),
                tuple(each.get("when", ())),
            )
            for each in parts
            if name in each["of"]
        ),
    )
