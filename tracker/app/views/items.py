"""Items as people read them: lists of a kind, and one with all its fields."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from tracker.app.session import Session
from tracker.app.views.todo import was_words
from tracker.app.views.words.sizing import sized_words
from tracker.build.answer import standing
from tracker.build.item import Item, as_list
from tracker.build.kinds import kind_of, kinds, show
from tracker.build.point import Answer
from tracker.build.release import is_buried
from tracker.build.unsaid import unknown_fields

PLAIN = re.compile(r"[A-Za-z0-9-]+(?:~[0-9]+)?")
"""A name as this program gives it: nothing in it means anything to a shell."""

FROM_PHASES = ("phase", "task", "check", "holdpoint")
"""Kinds that a list without a kind leaves out: they are the phases' and there are many."""


def items_view(
    session: Session,
    kind: str | None = None,
    *,
    bay: str | None = None,
    zone: str | None = None,
    removed: bool = False,
) -> list[dict[str, Any]]:
    """The items of a kind, or all but what came with the phases.

    Parameters
    ----------
    bay, zone: names; then only what lies there for certain.
    removed: those that were removed, in place of those that were not.
    """
    names, cover = session.names, session.cover
    if kind:
        kind_of(kind)
    wanted_bay = names.find(bay, ("bay",), "bay").id if bay else None
    wanted_zone = names.find(zone, ("zone",), "zone").id if zone else None
    rows = []
    for item in session.build.items.values():
        if (item.removed is not None) != removed:
            continue
        if item.kind != kind if kind else item.kind in FROM_PHASES:
            continue
        bays = cover.bays_of(item)
        if wanted_bay and wanted_bay not in bays:
            continue
        if wanted_zone and not set(bays) & cover.zone_bays.get(wanted_zone, set()):
            continue
        rows.append(item_row(session, item, bays))
    return rows


def item_row(session: Session, item: Item, bays: list[str]) -> dict[str, Any]:
    """One item of a list."""
    names = session.names
    return {
        "kind": item.kind,
        "name": names.name(item.id) if item.removed is None else item.slug,
        "title": item.title if item.title != item.slug else None,
        "bay": [names.name(bay) for bay in bays],
        "fields": {
            name: words
            for name, words in fields_in_words(session, item).items()
            if name not in ("title", "bay")
        },
        "unknown": unknown_fields(item),
        "removed": item.removed,
    }


def item_view(session: Session, name: str) -> dict[str, Any]:
    """One item: every field in words, what is unknown, in conflict, buried, and where it counts."""
    names, cover = session.names, session.cover
    item = names.find(name)
    table = kinds().get(item.kind)
    answers = [
        _answer_row(session, check, item, rows)
        for (check, subject), rows in session.build.answers.items()
        if subject == item.id
    ]
    return {
        **item_row(session, item, cover.bays_of(item)),
        "kind_title": table.title if table else item.kind,
        "id": item.id,
        "buried": is_buried(cover, item),
        "covered_by": names.name(buried) if (buried := cover.buried_at(item)) else None,
        "conflicts": {
            field: [str(value) for value in rivals.values()]
            for field, rivals in item.rivals.items()
        },
        "empty": [field for field in (table.fields if table else ()) if field not in item.fields],
        "named_by": [
            names.name(other.id)
            for other in session.build.items.values()
            if other.removed is None and _names(other, item.id)
        ],
        "answers": answers,
        "notes": [
            {"when": note.when, "by": note.by, "text": note.text}
            for note in session.build.notes
            if item.id in note.on
        ],
    }


def _answer_row(session: Session, check: str, item: Item, rows: Sequence[Answer]) -> dict[str, Any]:
    """One check answered of it: how it stands, and in words what was found, by whom and when."""
    asked = session.build.items.get(check)
    point = standing(session.build, asked, item) if asked is not None else None
    last = rows[-1]
    words = point.why if point and point.state == "conflict" else was_words(last)
    return {
        "check": session.names.name(check),
        "result": last.result if len(rows) == 1 else "conflict",
        "state": point.state if point else last.result,
        "because": (point.why or None) if point else None,
        "value": last.value,
        "unit": last.fact.get("unit"),
        "was": words,
        "note": last.why,
        "second": last.second,
        "photo": last.fact.get("photo"),
        "by": last.by,
        "when": last.when,
    }


def _names(other: Item, identifier: str) -> bool:
    table = kinds().get(other.kind)
    return table is not None and any(
        identifier in as_list(other.fields.get(field.name))
        for field in table.fields.values()
        if field.type == "names"
    )


def fields_in_words(session: Session, item: Item) -> dict[str, str]:
    """What is known of an item, by field, as people read it."""
    table = kinds().get(item.kind)
    if table is None:
        return {name: str(value) for name, value in item.fields.items()}
    words = {}
    for field in table.fields.values():
        value = item.fields.get(field.name)
        if value is None:
            continue
        try:
            words[field.name] = show(field, value, session.names)
        except (TypeError, ValueError):  # what another program wrote into it
            words[field.name] = str(value)
    if sized := sized_words(item.fields.get("sized")):
        words["sized"] = sized
    return words


def all_names(session: Session, kind: str | None = None) -> list[str]:
    """Every name that can be typed, for completion; of one kind where it is given.

    A name that no release of this program gives is left out: shells expand what completes.
    """
    wanted = (kind,) if kind else tuple(session.names.by_kind)
    names = (name for each in wanted for name in session.names.by_kind.get(each, {}))
    return [name for name in names if PLAIN.fullmatch(name)]
