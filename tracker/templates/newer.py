"""A template against what a build took up from an older one: what is new, changed, gone, kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tracker.act import Fact
from tracker.build import item as items
from tracker.build.fields import fits
from tracker.build.item import Item
from tracker.build.state import Build
from tracker.templates.facts import facts_of
from tracker.templates.phase import Phase


@dataclass(frozen=True, slots=True)
class Change:
    """One field of one item that differs.

    Parameters
    ----------
    item: as the build has it.
    field: the field.
    new: what the template says, or None where it says nothing.
    """

    item: Item
    field: str
    new: Any


@dataclass(frozen=True, slots=True)
class Newer:
    """What taking the template up again would do, item by item.

    Parameters
    ----------
    edition_here, edition_there: the build's and the template's.
    added: rows of the fact ``phase.adopted`` that the build has not.
    changed: fields that would take the template's value.
    kept: fields that differ and were set by hand, so that they stay.
    dropped: items of the build that the template has no more; they stay too.
    """

    phase: str
    edition_here: int
    edition_there: int
    added: tuple[dict[str, Any], ...]
    changed: tuple[Change, ...]
    kept: tuple[Change, ...]
    dropped: tuple[Item, ...]

    @property
    def nothing(self) -> bool:
        """Does the build say what the template says, but for what was set by hand?"""
        return not (self.added or self.changed or self.dropped)

    def facts(self) -> list[Fact]:
        """The facts that take what is new and changed; what is gone and what was edited stays."""
        news = [items.add(row["kind"], row["slug"], row["fields"], row["id"]) for row in self.added]
        fields: dict[str, dict[str, Any]] = {}
        touched: dict[str, Item] = {}
        for change in self.changed:
            touched[change.item.id] = change.item
            fields.setdefault(change.item.id, {})[change.field] = change.new
        return [*news, *(items.renew(touched[each], fields[each]) for each in fields)]


def newer(build: Build, phase: Phase) -> Newer | None:
    """What a template says against a build; None where the build never took the phase up."""
    fact = facts_of(phase)
    home = build.items.get(fact["phase"]["id"])
    if home is None:
        return None
    rows = [{**fact["phase"], "kind": "phase"}, *fact["items"]]
    added = tuple(row for row in rows if row["id"] not in build.items)
    differing = [
        change
        for row in rows
        if (item := build.items.get(row["id"])) is not None
        for change in _changes(item, row["fields"])
    ]
    known = {row["id"] for row in rows}
    return Newer(
        phase.name,
        int(home.get("edition", 0)),
        phase.edition,
        added,
        tuple(change for change in differing if not _edited(change.item, change.field)),
        tuple(change for change in differing if _edited(change.item, change.field)),
        tuple(_gone(build, phase.name, known)),
    )


def _changes(item: Item, fields: dict[str, Any]) -> Iterator[Change]:
    stated = {name: value for name, value in fields.items() if fits(name, value)}
    for name in (*stated, *(name for name in item.fields if name not in stated)):
        new = stated.get(name)
        if name in stated and name in item.fields and _same(item.fields[name], new):
            continue
        if name not in stated and _edited(item, name):
            continue  # what only people say of it is no matter of the template's
        yield Change(item, name, new)


def _edited(item: Item, field: str) -> bool:
    """Was the field ever set by hand, or set twice by people who did not know of each other?"""
    return bool(item.heads.get(field))


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, list | tuple) and isinstance(other, list | tuple):
        return list(one) == list(other)
    return isinstance(one, bool) == isinstance(other, bool) and bool(one == other)


def _gone(build: Build, phase: str, known: set[str]) -> Iterator[Item]:
    """Items that came from this template and are in it no more; what people added is not meant."""
    for prefix in ("hold", "task", "check"):
        start = f"{prefix}:{phase}/"
        for identifier, item in build.items.items():
            if identifier.startswith(start) and identifier not in known and item.removed is None:
                yield item
