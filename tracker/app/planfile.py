"""Taking a plan from TOML: what the file says against what the build says, as one act."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from hashlib import blake2b
from typing import Any

from tracker.act import Fact
from tracker.app.plantext import written
from tracker.app.wants.items import changed, known, may_add, removed, renamed
from tracker.app.wants.values import part_unit, take_value
from tracker.build import item as items
from tracker.build.coverage import Coverage
from tracker.build.item import VEHICLE, Item
from tracker.build.kinds import Kind, kinds, show
from tracker.build.names import Names, clean, slug_of
from tracker.build.state import Build
from tracker.errors import CloseinError
from tracker.templates.reader import Field, Row, Shape, Table, read_tables

WORDS = {
    "name": Field("text"),
    "rename": Field("text"),
    "removed": Field("text"),
    "reason": Field("text"),
}
"""Keys that say something of the item itself and are no fields of it."""

Base = Mapping[tuple[str, str], Row]


@dataclass(frozen=True, slots=True)
class Difference:
    """What a file would change: the facts, and each in words, one line an item."""

    facts: list[Fact]
    lines: list[str]


class _Keys(dict[str, Field]):
    """The keys of one table; a field's unit may be left off where that is clear."""

    def __init__(self, kind: Kind) -> None:
        own = {} if kind.name == VEHICLE else WORDS | {"name": Field("text", required=True)}
        super().__init__(own | dict.fromkeys(kind.fields, Field("any")))
        self.kind = kind

    def __contains__(self, key: object) -> bool:
        return super().__contains__(key) or self._short(key) is not None

    def __missing__(self, key: str) -> Field:
        return Field("any")

    def _short(self, key: object) -> str | None:
        fits = [name for name in self.kind.fields if name.rpartition("_")[0] == key]
        return fits[0] if len(fits) == 1 else None


@cache
def _shape() -> Shape:
    return {name: Table(_Keys(kind), many=name != VEHICLE) for name, kind in kinds().items()}


def compare(
    build: Build,
    text: str,
    file: str,
    *,
    why: str | None = None,
    base: str | None = None,
) -> Difference:
    """What a file says that the build does not.

    Parameters
    ----------
    text: the whole file; what it leaves out stays as it is.
    file: what people call it, for errors.
    why: the reason for changing what is buried, where a table gives none of its own.
    base: the text that was edited; what it says already is no change, whatever others did since.

    Raises
    ------
    BadFile: the first thing that is wrong, with its line; then nothing of it counts.
    """
    reading = _Reading(build, text, why, base)
    for name, rows in read_tables(text, file, _shape()).items():
        for row in rows:
            reading.meet(kinds()[name], row)
    return reading.difference()


class _Reading:
    """One file against one state; first every name is met, then every value is taken."""

    def __init__(self, build: Build, text: str, why: str | None, base: str | None) -> None:
        self.build, self.text, self.why = build, text, why
        self.cover, self.names = Coverage(build), Names(build)
        self.base = _rows_of(base) if base is not None else {}
        self.here = {
            (kind, name.casefold()): item
            for kind, rows in self.names.by_kind.items()
            for name, item in rows.items()
        }
        self.met: list[tuple[Kind, Row, Item, bool]] = []
        self.seen: set[tuple[str, str]] = set()
        self.fresh: dict[str, Item] = {}

    def meet(self, kind: Kind, row: Row) -> None:
        """Take note of one table: its item is here already or is new."""
        name = _name_of(kind, row)
        key = (kind.name, name.casefold())
        if key in self.seen:
            raise row.wrong("name", f"a {kind.title} called '{clean(name)}' stands here twice")
        self.seen.add(key)
        item = self.here.get(key)
        if item is not None:
            self.met.append((kind, row, item, False))
            return
        if self._gone(kind, row, name):
            return
        try:
            may_add(kind.name)
            slug_of(name)
        except CloseinError as error:
            raise row.wrong("name", str(error)) from None
        if "removed" in row or "rename" in row:
            raise row.wrong("name", f"no {kind.title} is called '{name}', so it can't be changed")
        item = Item(self._new_id(kind.name, name), kind.name, name, {}, "")
        self.fresh[item.id] = item
        self.met.append((kind, row, item, True))

    def _new_id(self, kind: str, name: str) -> str:
        """An id for a new item that the file itself refers to, before its act has an id.

        The same file taken in two copies of the same state gives the same items, no doubles.
        """
        last = self.build.acts[-1].id if self.build.acts else ""
        said = "\0".join((last, self.text, kind, name)).encode("utf-8", "replace")
        return f"item-{blake2b(said, digest_size=8).hexdigest()}"

    def _gone(self, kind: Kind, row: Row, name: str) -> bool:
        """Was it removed before, so that the table has nothing more to say?"""
        before = self.base.get((kind.name, name.casefold()))
        if before is not None:
            if dict(before.values) == dict(row.values) or "removed" in row:
                return True
            raise row.wrong("name", f"'{clean(name)}' was removed or renamed in the meantime")
        return "removed" in row and any(
            item.removed is not None and item.kind == kind.name and item.slug == name
            for item in self.build.items.values()
        )

    def difference(self) -> Difference:
        """The facts and the words; new items come first, in the order of the file."""
        together = replace(self.build, items=self.build.items | self.fresh)
        self.names = Names(together)  # so that the tables can name each other's items
        taken = [(*each, self._values(*each)) for each in self.met]
        named = {
            identifier
            for *_, values in taken
            for value in values.values()
            for identifier in (value if isinstance(value, list) else [value])
            if isinstance(identifier, str)
        }
        facts: list[Fact] = []
        lines: list[str] = []
        for kind, _, item, new, values in taken:
            if new:
                identifier = item.id if item.id in named else None
                facts.append(items.add(kind.name, item.slug, known(values), identifier))
                lines.append(f"+ {kind.title} {item.slug}{self._said(kind, values)}")
        for kind, row, item, new, values in taken:
            if not new:
                self._change(kind, row, item, values, facts, lines)
        return Difference(facts, lines)

    def _change(
        self,
        kind: Kind,
        row: Row,
        item: Item,
        values: dict[str, Any],
        facts: list[Fact],
        lines: list[str],
    ) -> None:
        title = f"{kind.title} {self.names.name(item.id)}"
        try:
            if "rename" in row:
                values = renamed(self.names, item, row["rename"]) | values
            change = changed(self.cover, item, values, row.get("reason") or self.why)
            facts += change
            for fact in change:
                for name, value in fact["set"].items():
                    lines.append(f"~ {title}: {self._step(kind, item, name, value)}")
            if "removed" in row:
                facts.append(removed(item, row["removed"]))
                lines.append(f"- {title}: {clean(row['removed'])}")
        except CloseinError as error:
            raise row.wrong("removed" if "removed" in row else "name", str(error)) from None

    def _values(self, kind: Kind, row: Row, item: Item, new: bool) -> dict[str, Any]:
        before = self.base.get((kind.name, _name_of(kind, row).casefold()))
        values: dict[str, Any] = {}
        given = {key: row[key] for key in row if key not in WORDS}
        unit = item.get("unit")
        for key, value in given.items():
            field = kind.field(key)
            if field.name in values:
                raise row.wrong(key, f"{field.name} is given twice")
            if before is not None and key in before and _alike(before[key], value):
                continue
            if not new and _alike(written(field, item, self.build, self.names), value):
                continue
            try:
                if kind.name == "part" and "unit" in given:
                    unit = part_unit(str(given["unit"]))
                values[field.name] = take_value(kind, field, value, self.names, unit)
            except CloseinError as error:
                raise row.wrong(key, str(error)) from None
        return values

    def _said(self, kind: Kind, values: Mapping[str, Any]) -> str:
        told = [
            f"{name} {show(kind.field(name), value, self.names)}"
            for name, value in values.items()
            if value is not None
        ]
        return f": {', '.join(told)}" if told else ""

    def _step(self, kind: Kind, item: Item, name: str, value: Any) -> str:
        if name == "slug":
            return f"renamed {value}"
        field = kind.field(name)
        was = show(field, item.fields.get(name), self.names)
        return f"{name} {was} -> {show(field, value, self.names)}"


def _name_of(kind: Kind, row: Row) -> str:
    return VEHICLE if kind.name == VEHICLE else str(row["name"]).strip()


def _rows_of(text: str) -> Base:
    return {
        (kind, _name_of(kinds()[kind], row).casefold()): row
        for kind, rows in read_tables(text, "plan", _shape()).items()
        for row in rows
    }


def _alike(one: Any, other: Any) -> bool:
    return isinstance(one, bool) == isinstance(other, bool) and bool(one == other)
