"""Items: everything a build is made of, from a wire run to a phase.

An item is added once, its fields are set by facts that name what they replace, and it is
removed with a reason; nothing ever leaves the record. A field set twice by people who did not
know of each other is in conflict until somebody settles it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from tracker.act import Act, Fact
from tracker.build.fields import fits
from tracker.build.values import table, text
from tracker.errors import Refused

if TYPE_CHECKING:
    from tracker.build.state import Build

VEHICLE = "vehicle"
"""The id of the one item every build has: the vehicle itself."""


@dataclass(slots=True)
class Item:
    """One item.

    Parameters
    ----------
    id: the act and fact that added it, or made from template and key.
    kind: a kind of the table ``kinds.toml``, or phase, task, check, holdpoint.
    slug: the short name people type.
    fields: what is known of it; what is unknown is absent.
    born: the fact that added it.
    heads: for each field set since, the facts whose values stand.
    rivals: for each field in conflict, those facts and their values.
    removed: the reason it was removed, or None.
    """

    id: str
    kind: str
    slug: str
    fields: dict[str, Any]
    born: str
    heads: dict[str, tuple[str, ...]] = field(default_factory=dict)
    rivals: dict[str, dict[str, Any]] = field(default_factory=dict)
    removed: str | None = None

    def copy(self) -> Item:
        """An item that may be changed without changing this one."""
        return Item(
            self.id,
            self.kind,
            self.slug,
            dict(self.fields),
            self.born,
            dict(self.heads),
            dict(self.rivals),
            self.removed,
        )

    def get(self, name: str, default: Any = None) -> Any:
        """A field's value, or ``default`` where it is unknown."""
        value = self.fields.get(name)
        return default if value is None else value

    @property
    def title(self) -> str:
        """What people read: its title or text, else its short name."""
        return str(self.fields.get("title") or self.fields.get("text") or self.slug)


def apply_added(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A new item; the same item added twice stays as it was first."""
    place_item(draft, _item_of(fact, fact.get("id") or ref, ref))


def apply_adopted(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A whole phase: its own item and every item of its template, in one fact."""
    rows = [{**fact["phase"], "kind": "phase"}, *fact["items"]]
    for item in [_item_of(row, row["id"], ref) for row in rows]:
        place_item(draft, item)


def _item_of(row: Mapping[str, Any], identifier: Any, ref: str) -> Item:
    given = table(row["fields"]).items()
    fields = {name: value for name, value in given if fits(name, value)}
    return Item(text(identifier), text(row["kind"]), text(row["slug"]), fields, ref)


def place_item(draft: Build, item: Item) -> None:
    """Put an item into the draft unless it is there, then apply the facts that waited for it."""
    if item.id in draft.items:
        return
    draft.items[item.id] = item
    draft.owned.add(item.id)
    for late, late_ref, late_act in draft.orphans.pop(item.id, ()):
        draft.apply(late, late_ref, late_act)


def apply_set(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """Fields take values; a value that nobody replaced makes a conflict."""
    item = draft.own(fact["id"])
    values, over = table(fact["set"]), table(fact.get("over") or {})
    if "slug" in values:
        text(values["slug"])
    replaced_by = {name: draft.living(over.get(name, ()), "over", name) for name in values}
    for name, value in values.items():
        replaced = replaced_by[name]
        heads = item.heads.get(name, ())
        standing = tuple(head for head in heads if head not in replaced)
        if standing:
            old = item.rivals.get(name) or {heads[-1]: _value(item, name)}
            item.rivals[name] = {head: old[head] for head in standing} | {ref: value}
        else:
            item.rivals.pop(name, None)
        item.heads[name] = (*standing, ref)
        if name == "slug":
            item.slug = value
        elif value is None or not fits(name, value):
            item.fields.pop(name, None)
        else:
            item.fields[name] = value


def apply_renewed(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """Fields take what a newer template says, but for those that anybody ever set by hand."""
    item = draft.own(fact["id"])
    for name, value in table(fact["set"]).items():
        if item.heads.get(text(name)):
            continue
        if value is None or not fits(name, value):
            item.fields.pop(name, None)
        else:
            item.fields[name] = value


def apply_removed(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """The item is no longer part of the build; its record stays."""
    draft.own(fact["id"]).removed = text(fact["why"])


def _value(item: Item, name: str) -> Any:
    return item.slug if name == "slug" else item.fields.get(name)


def add(kind: str, slug: str, fields: Mapping[str, Any], identifier: str | None = None) -> Fact:
    """The fact that adds an item; ``identifier`` only for the vehicle and template items."""
    fact: dict[str, Any] = {"f": "item.added", "kind": kind, "slug": slug, "fields": dict(fields)}
    if identifier:
        fact["id"] = identifier
    return fact


def change(item: Item, values: Mapping[str, Any], why: str | None = None) -> Fact:
    """The fact that sets fields to values (None makes a field unknown again)."""
    fact: dict[str, Any] = {"f": "item.set", "id": item.id, "set": dict(values)}
    over = {name: list(item.heads[name]) for name in values if item.heads.get(name)}
    if over:
        fact["over"] = over
    if why:
        fact["why"] = why
    return fact


def renew(item: Item, values: Mapping[str, Any]) -> Fact:
    """The fact that sets fields as a newer template has them (None: it has them no more).

    It replaces nothing: a field set by hand keeps its value, whichever came first.
    """
    return {"f": "item.renewed", "id": item.id, "set": dict(values)}


def remove(item: Item, why: str) -> Fact:
    """The fact that removes an item, with the reason."""
    if not why.strip():
        raise Refused(f"removing {item.slug} needs a reason; add --why TEXT")
    if item.id == VEHICLE:
        raise Refused("the vehicle can't be removed from its own build")
    return {"f": "item.removed", "id": item.id, "why": why}


def of_kind(items: Iterable[Item], kind: str) -> list[Item]:
    """The items of a kind that have not been removed, in the order they were added."""
    return [item for item in items if item.kind == kind and item.removed is None]


def as_list(value: Any) -> Sequence[Any]:
    """A field that may hold one name or several, as a list; what can be no name is left out."""
    if value is None or isinstance(value, dict):
        return ()
    if not isinstance(value, list | tuple):
        return (value,)
    return [each for each in value if not isinstance(each, list | dict)]
