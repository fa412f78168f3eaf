"""A phase template as the one fact that adopts it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from tracker.act import Fact
from tracker.templates.phase import Check, HoldPoint, Phase, Task


def facts_of(phase: Phase) -> Fact:
    """The fact ``phase.adopted``: the phase, its hold points, tasks and checks, as plain values.

    Ids are made from names, so adopting the same template twice gives the same items. A field
    that the template leaves out, or that has its default, is not in the fact.
    """
    identifier = f"phase:{phase.name}"
    own = {
        "title": phase.title,
        "order": phase.order,
        "edition": phase.edition,
        "after": list(phase.after),
        "summary": phase.summary,
    }
    items = [
        *(_item("hold", "holdpoint", each, phase.name) for each in phase.holdpoints),
        *(_item("task", "task", each, phase.name) for each in phase.tasks),
        *(_item("check", "check", each, phase.name) for each in phase.checks),
    ]
    return {
        "f": "phase.adopted",
        "phase": {"id": identifier, "slug": phase.name, "fields": own},
        "hash": phase.hash,
        "items": items,
    }


def _item(prefix: str, kind: str, value: HoldPoint | Task | Check, phase: str) -> dict[str, Any]:
    stated = {
        field.name.rstrip("_"): _plain(getattr(value, field.name))
        for field in fields(value)
        if field.name != "key" and getattr(value, field.name) != field.default
    }
    return {
        "id": f"{prefix}:{phase}/{value.key}",
        "kind": kind,
        "slug": value.key,
        "fields": {**stated, "phase": f"phase:{phase}"},
    }


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value
