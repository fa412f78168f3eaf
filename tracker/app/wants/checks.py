"""Marking checks, as people say it."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.build import marking
from tracker.build.coverage import Coverage
from tracker.build.item import VEHICLE, Item
from tracker.build.limit import limit_of
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.errors import BadInput, UnknownName
from tracker.quantity import parse


def mark(
    check: str,
    at: Sequence[str],
    result: str,
    *,
    by: str,
    bay: str | None = None,
    zone: str | None = None,
    but: Sequence[str] = (),
    value: str | None = None,
    second: str | None = None,
    present: str | None = None,
    why: str | None = None,
    read: str | None = None,
    photo: str | None = None,
) -> Intent:
    """Answer a check for its subjects.

    Parameters
    ----------
    check: its short name, a beginning that only one has, or its word for the entry line.
    at: names and ranges of subjects; none means the only one there is, or all of a bay or zone.
    result: good, bad, measured, waived, na or reopened.
    by: who found it.
    bay, zone: where, when no subject is named.
    but: subjects to leave out.
    value: what was measured, as typed, such as ``9in``.
    second, present, why, read, photo: see :func:`tracker.build.marking.mark`.
    """

    def intent(build: Build) -> list[Fact]:
        cover, names = Coverage(build), Names(build)
        item = find_check(names, check)
        subjects = find_subjects(cover, names, item, at, bay=bay, zone=zone, but=but)
        if result == "reopened":
            for subject in subjects:
                marking.taken_back(cover, item, subject)
        return marking.mark(
            cover,
            item,
            subjects,
            result,
            by=clean(by),
            value=read_value(cover, item, subjects, value),
            second=_text(second),
            present=present,
            why=_text(why),
            read=_text(read),
            photo=_text(photo),
        )

    return intent


def find_check(names: Names, text: str) -> Item:
    """A check by its short name, a beginning that only one has, or its word.

    Raises
    ------
    UnknownName, BadInput: nothing fits, or several do; says which.
    """
    checks = names.by_kind.get("check", {})
    wanted = text.strip().casefold()
    try:
        return names.find(text, ("check",), "check")
    except UnknownName:
        said = [item for item in checks.values() if item.get("say") == wanted]
        begun = [item for name, item in checks.items() if name.casefold().startswith(wanted)]
        found = said or (begun if wanted else [])
        if len(found) == 1:
            return found[0]
        if found:
            fits = ", ".join(names.name(item.id) for item in found[:6])
            raise BadInput(f"'{clean(text)}' fits several checks; say which: {fits}") from None
        raise


def find_subjects(
    cover: Coverage,
    names: Names,
    check: Item,
    at: Sequence[str],
    *,
    bay: str | None = None,
    zone: str | None = None,
    but: Sequence[str] = (),
) -> list[Item]:
    """The subjects that are meant: those named, else the only one, else all of a bay or zone.

    Raises
    ------
    BadInput, UnknownName: no subject is meant, or it stays open which.
    """
    due = cover.subjects(check)
    found = _named(names, check, at) if at else due
    if bay:
        wanted = names.find(bay, ("bay",), "bay").id
        found = [item for item in found if wanted in cover.bays_of(item)]
    if zone:
        within = names.find(zone, ("zone",), "zone").id
        found = [item for item in found if cover.in_zone(item, within)]
    if but:
        apart = {item.id for item in _named(names, check, but)}
        found = [item for item in found if item.id not in apart]
    if not found:
        where = f" in {clean(bay or zone or '')}" if bay or zone else ""
        apart_from = " but those left out" if but else ""
        raise BadInput(f"{check.slug} has no subject{where}{apart_from}")
    if len(found) > 1 and not (at or bay or zone):
        raise BadInput(
            f"{check.slug} is held against {len(found)} subjects; say which with --at, --bay "
            "or --zone"
        )
    return found


def _named(names: Names, check: Item, words: Sequence[str]) -> list[Item]:
    each = check.get("each", "once")
    kinds = ("vehicle",) if each == "once" else (each, "vehicle") if each == "zone" else (each,)
    try:
        return names.expand(words, kinds, each if each != "once" else "subject")
    except UnknownName as unknown:
        try:
            names.expand(words)  # it may be an item of another kind
        except (UnknownName, BadInput):
            raise unknown from None
        wanted = "the vehicle" if each == "once" else f"each {each}"
        raise BadInput(
            f"{check.slug} is held against {wanted}; '{clean(', '.join(words))}' is something else"
        ) from None


def read_value(
    cover: Coverage, check: Item, subjects: Sequence[Item], text: str | None
) -> float | None:
    """A measured number in the unit of the check's limit; None where it has no limit."""
    if text is None or not subjects:
        return None
    limit = limit_of(check, subjects[0], cover.build.items.get(VEHICLE))
    if limit is None:
        return None
    bare = text.strip().replace(".", "", 1).isdigit()
    return parse(f"{text}%" if limit.unit == "%" and bare else text, limit.unit)


def _text(text: str | None) -> str | None:
    return clean(text).strip() or None if text is not None else None
