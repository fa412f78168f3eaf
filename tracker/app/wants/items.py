"""Adding, changing and removing what a build is made of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.app.wants.values import fresh_name, take_values
from tracker.build import item as items
from tracker.build.coverage import Coverage
from tracker.build.item import VEHICLE, Item
from tracker.build.kinds import kind_of
from tracker.build.names import Names
from tracker.build.release import is_buried
from tracker.build.state import Build
from tracker.errors import BadInput, Refused

FROM_TEMPLATES = ("phase", "holdpoint")
"""Kinds that only a phase template brings."""

OPEN_TO_CHANGE = ("limit_min", "limit_max")
"""All that may be changed of a check that a phase template brought."""

NAME = "name"
"""The word that stands for an item's short name where its fields are given."""


def add(kind: str, slug: str | None, values: Mapping[str, Any]) -> Intent:
    """Add an item; without a name it gets the next one free.

    Parameters
    ----------
    kind: a kind of ``kinds.toml``.
    slug: its short name.
    values: field -> what was typed; the unit at a field's end may be left off.
    """

    def intent(build: Build) -> Sequence[Fact]:
        names = Names(build)
        table = kind_of(kind)
        may_add(kind)
        name = fresh_name(names, table, slug)
        return [items.add(kind, name, known(take_values(table, values, names)))]

    return intent


def change(name: str, values: Mapping[str, Any], why: str | None = None) -> Intent:
    """Change fields of an item, or of several named by a range or a list.

    Parameters
    ----------
    values: field -> what was typed, ``unknown`` to forget it; ``name`` renames.
    why: the reason, needed for what is buried.
    """

    def intent(build: Build) -> Sequence[Fact]:
        names, cover = Names(build), Coverage(build)
        found = names.expand([name])
        facts = []
        for item in found:
            wanted = dict(values)
            new = {}
            if NAME in wanted:
                if len(found) > 1:
                    raise BadInput("only one item at a time can be renamed")
                new = renamed(names, item, str(wanted.pop(NAME)))
            new |= take_values(kind_of(item.kind), wanted, names, item)
            facts += changed(cover, item, new, why)
        if not facts:
            raise BadInput(f"{name}: that is what the record says already, so nothing changes")
        return facts

    return intent


def remove(name: str, why: str) -> Intent:
    """Remove an item, or several, with the reason; the record of it stays."""

    def intent(build: Build) -> Sequence[Fact]:
        return [removed(item, why) for item in Names(build).expand([name])]

    return intent


def take_file(text: str, file: str) -> Intent:
    """Take items from a TOML text: new names are added, known ones changed; all or nothing.

    Parameters
    ----------
    text: tables such as ``[[run]]`` with ``name = "L1"`` and fields.
    file: what people call it, for errors.
    """
    from tracker.app.planfile import compare

    return lambda build: compare(build, text, file).facts


def may_add(kind: str) -> None:
    """Refuse to add by hand what only a template brings."""
    if kind == VEHICLE:
        raise Refused("a build has one vehicle; 'closein item change vehicle FIELD=VALUE' tells it")
    if kind in FROM_TEMPLATES:
        raise Refused(f"a {kind} comes with a phase; 'closein phases adopt NAME' takes one up")


def known(values: Mapping[str, Any]) -> dict[str, Any]:
    """The values that say something."""
    return {name: value for name, value in values.items() if value is not None}


def renamed(names: Names, item: Item, slug: str) -> dict[str, Any]:
    """The field that renames an item, once the new name is seen to be free."""
    if slug == item.slug:
        return {}
    if slug.casefold() == item.slug.casefold() == names.name(item.id).casefold():
        return {"slug": slug}  # only its capitals change
    return {"slug": fresh_name(names, kind_of(item.kind), slug)}


def changed(
    cover: Coverage, item: Item, values: Mapping[str, Any], why: str | None = None
) -> list[Fact]:
    """The facts that set what differs; none where nothing does.

    Raises
    ------
    Refused: the item is buried and there is no reason, or the field belongs to a template.
    """
    new = {
        name: value
        for name, value in values.items()
        if name in item.rivals or (item.slug if name == "slug" else item.fields.get(name)) != value
    }
    if not new:
        return []
    if item.id.startswith("check:"):
        for name in new:
            if name not in OPEN_TO_CHANGE:
                raise Refused(
                    f"{item.slug} comes from a phase, so its {name} stays; "
                    f"{' and '.join(OPEN_TO_CHANGE)} can be changed"
                )
    if is_buried(cover, item) and not (why or "").strip():
        raise Refused(
            f"{item.slug} is buried behind a close-in; changing its record needs a reason (--why)"
        )
    return [items.change(item, new, why)]


def removed(item: Item, why: str) -> Fact:
    """The fact that removes an item; what a template asks for can't be removed, only answered."""
    if item.kind in FROM_TEMPLATES or item.id.startswith("check:"):
        more = " --na WHY answers a check that does not apply" if item.kind == "check" else ""
        raise Refused(f"{item.slug} comes with a phase and can't be removed;{more or ' it stays'}")
    return items.remove(item, why)
