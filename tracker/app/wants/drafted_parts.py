"""What a fixture takes in parts, added to what the build needs of them already."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from tracker.build.item import Item
from tracker.build.names import Names
from tracker.templates.recipes import Needed, Recipe

Table = tuple[str, dict[str, Any], None, bool]
"""A table of the draft: its name, its fields, no word to be named by, and whether it is new."""


@dataclass(slots=True)
class Parts:
    """The tables of the parts, and what there is to say of them."""

    rows: list[Table] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def parts_of(
    names: Names,
    recipe: Recipe,
    title: str,
    count: int,
    kinds: Sequence[str],
    holds: Callable[[Sequence[str]], bool],
) -> Parts:
    """What a fixture takes in parts, itself first.

    Parameters
    ----------
    title: what it is called, which names the part that it is itself.
    count: how many there are.
    kinds: the kind of each drafted item.
    holds: do the conditions of a row hold?
    """
    found = Parts()
    own = Needed(slug_from(title), title, "each", float(count), "once", ())
    of_itself = () if recipe.thing == "opening" else (own,)
    for needed in (*of_itself, *recipe.parts):
        times = 1 if needed.per == "once" else kinds.count(needed.per)
        if times and holds(needed.when):
            _add(found, names, needed, needed.quantity * times)
    return found


def _add(found: Parts, names: Names, needed: Needed, quantity: float) -> None:
    task = _reckoned_by(names, needed)
    if task is not None:
        found.notes.append(
            f"{needed.part}: the task {task.slug} reckons them for each {needed.per}"
        )
        return
    here = {name.casefold(): item for name, item in names.by_kind.get("part", {}).items()}
    part = here.get(needed.part.casefold())
    if part is None:
        title = {"title": needed.title} if needed.title else {}
        found.rows.append(
            (needed.part, {**title, "unit": needed.unit, "needed": quantity}, None, True)
        )
    elif part.get("needed") is None or part.get("unit") != needed.unit:
        found.notes.append(
            f"{needed.part}: nobody knows how many the build needs in all; this takes {quantity:g}"
        )
    else:
        total = float(part.get("needed")) + quantity
        found.rows.append((names.name(part.id), {"needed": total}, None, False))


def _reckoned_by(names: Names, needed: Needed) -> Item | None:
    """The task of the build, if any, that counts this part for each such item by itself."""
    if needed.per == "once":
        return None
    for task in names.by_kind.get("task", {}).values():
        for row in task.get("parts", ()):
            if row.get("part") == needed.part and row.get("per") == needed.per:
                return task
    return None


def slug_from(title: str) -> str:
    """A short name made from a title: ``Press lamp`` gives ``press-lamp``."""
    plain = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")
    return plain[:40].strip("-") or "fixture"
