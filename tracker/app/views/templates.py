"""The phases there are to take up, against those of a build."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.errors import BadFile
from tracker.templates.library import Library, Source
from tracker.templates.newer import Change, Newer, newer
from tracker.templates.phase import Phase

ASKED = ("text", "how", "limit", "each", "where")
"""Fields of a check that say what was asked: answers to the older wording stay as they are."""


def templates_view(build: Build | None, among: Library | None = None) -> list[dict[str, Any]]:
    """Every phase there is, in the trade's order, with where its template comes from.

    Parameters
    ----------
    build: the build that may have taken some up, or None where there is none.
    among: the templates in force; by default those that come with the program.
    """
    templates = among or Library()
    return [_row(templates, source, build) for source in templates.sources]


def _row(templates: Library, source: Source, build: Build | None) -> dict[str, Any]:
    try:
        row = template_row(templates.read(source.name), build)
    except BadFile as error:
        row = _unreadable(source, build, str(error))
    return row | {"from": source.origin, "file": str(source.path), "in_place_of": [*source.hides]}


def template_row(phase: Phase, build: Build | None) -> dict[str, Any]:
    """One phase and how much is in it."""
    found = newer(build, phase) if build is not None else None
    return {
        "name": phase.name,
        "title": phase.title,
        "order": phase.order,
        "edition": phase.edition,
        "adopted": found is not None,
        "adopted_edition": found.edition_here if found is not None else None,
        "differs": found is not None and not found.nothing,
        "after": [identifier.removeprefix("phase:") for identifier in phase.after],
        "tasks": len(phase.tasks),
        "checks": len(phase.checks),
        "hold_points": [hold.key for hold in phase.holdpoints],
        "summary": phase.summary,
        "fault": None,
    }


def _unreadable(source: Source, build: Build | None, fault: str) -> dict[str, Any]:
    """A template of one's own that can't be taken up as it stands."""
    return {
        "name": source.name,
        "title": source.name,
        "order": None,
        "edition": None,
        "adopted": build is not None and f"phase:{source.name}" in build.items,
        "adopted_edition": None,
        "differs": False,
        "after": [],
        "tasks": 0,
        "checks": 0,
        "hold_points": [],
        "summary": "",
        "fault": fault,
    }


def difference_view(
    build: Build, phases: Sequence[Phase], templates: Library | None = None
) -> list[dict[str, Any]]:
    """For each phase that the build has: what its template says by now, item by item."""
    names = Names(build)
    own = templates.own if templates is not None else {}
    return [
        _difference(build, names, found)
        | {"from": own[phase.name].origin if phase.name in own else "shipped"}
        for phase in phases
        if (found := newer(build, phase)) is not None
    ]


def _difference(build: Build, names: Names, found: Newer) -> dict[str, Any]:
    return {
        "phase": found.phase,
        "edition_here": found.edition_here,
        "edition_there": found.edition_there,
        "add": [
            {"kind": row["kind"], "name": row["slug"], "text": _told(row["fields"])}
            for row in found.added
        ],
        "change": [_change(build, names, change) for change in found.changed],
        "keep": [_change(build, names, change) for change in found.kept],
        "drop": [
            {"kind": item.kind, "name": names.name(item.id), "text": item.title}
            for item in found.dropped
        ],
    }


def _told(fields: dict[str, Any]) -> str:
    return clean(str(fields.get("title") or fields.get("text") or ""))


def _change(build: Build, names: Names, change: Change) -> dict[str, Any]:
    asked = change.item.kind == "check" and change.field in ASKED
    return {
        "kind": change.item.kind,
        "name": names.name(change.item.id),
        "field": change.field,
        "answers": sum(check == change.item.id for check, _ in build.answers) if asked else 0,
        "here": change.item.fields.get(change.field),
        "template": change.new,
    }
