"""Settling what people who did not know of each other said differently; accepting faults."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from tracker.act import Fact
from tracker.app.session import Intent, Session
from tracker.app.wants import checks
from tracker.build import item as items
from tracker.build import log
from tracker.build.answer import standing
from tracker.build.coverage import Coverage
from tracker.build.item import Item
from tracker.build.kinds import Field, kinds, show, take
from tracker.build.names import Names, clean, slug_of
from tracker.build.release import is_buried
from tracker.build.state import Build
from tracker.errors import BadInput, Refused, UnknownName


def settle(
    item: str, field: str | None, value: str | None, *, by: str, why: str | None = None
) -> Intent:
    """Choose the value of a field in conflict.

    Parameters
    ----------
    item: the item's name.
    field: the field; may be left out where only one of the item is in conflict.
    value: one of the values it was given, or another one, as typed.
    by: who settles it; signed by the act itself.
    why: the reason, needed where the item is buried.
    """

    def intent(build: Build) -> list[Fact]:
        names = Names(build)
        found = names.find(item)
        name = _field_in_conflict(found, field)
        chosen = _chosen(names, found, name, value)
        if is_buried(Coverage(build), found) and not (why or "").strip():
            raise Refused(f"{found.slug} is buried; a change to it needs a reason: add --why TEXT")
        return [items.change(found, {name: chosen}, clean(why).strip() if why else None)]

    return intent


def settle_check(check: str, at: Sequence[str], result: str, *, by: str, **details: Any) -> Intent:
    """Answer a check in conflict anew, which takes the place of all answers that stand.

    ``details`` are those of :func:`tracker.app.wants.checks.mark`.
    """
    again = checks.mark(check, at, result, by=by, **details)

    def intent(build: Build) -> Sequence[Fact]:
        cover, names = Coverage(build), Names(build)
        found = checks.find_check(names, check)
        for subject in checks.find_subjects(cover, names, found, at):
            if standing(build, found, subject).state != "conflict":
                raise Refused(
                    f"{found.slug} on {subject.slug} is not in conflict; 'closein check' answers it"
                )
        return again(build)

    return intent


def accept(session: Session, key: str, why: str) -> Intent:
    """Take on a reservation by its name, or by a beginning that only one has."""

    def intent(build: Build) -> list[Fact]:
        known = [row.key for row in session.reservations]
        wanted = key.strip()
        found = [name for name in known if name == wanted] or [
            name for name in known if wanted and name.startswith(wanted)
        ]
        if not known:
            raise Refused("no reservation stands, so there is nothing to accept")
        if len(found) > 1:
            raise BadInput(f"'{clean(key)}' fits several reservations: {', '.join(found)}")
        if not found:
            raise UnknownName("reservation", clean(key), known)
        return [log.accept(found[0], clean(why))]

    return intent


def _field_in_conflict(item: Item, field: str | None) -> str:
    if not item.rivals:
        raise Refused(f"{item.slug} has no field in conflict; 'closein settle' lists what is")
    if field is None:
        if len(item.rivals) == 1:
            return next(iter(item.rivals))
        raise BadInput(f"{item.slug} is in conflict in {', '.join(item.rivals)}; say which")
    short = [name for name in item.rivals if name.rpartition("_")[0] == field]
    name = field if field in item.rivals else short[0] if len(short) == 1 else None
    if name is None:
        raise UnknownName("field in conflict", clean(field), item.rivals)
    return name


def _chosen(names: Names, item: Item, name: str, text: str | None) -> Any:
    """The value meant: one that stands, however it is written, or a new one."""
    kind = kinds().get(item.kind)
    field = kind.fields.get(name) if kind is not None else None
    shown = {_shown(field, value, names): value for value in item.rivals[name].values()}
    if text is None:
        listed = " or ".join(shown)
        raise BadInput(f"{item.slug}: {name} is {listed}; say which, or another value")
    for words, value in shown.items():
        if text.strip().casefold() in (words.casefold(), str(value).casefold()):
            return value
    if name == "slug":
        return slug_of(text.strip())
    if field is not None:
        return take(field, text, names)
    if name.startswith("booked"):
        try:
            return date.fromisoformat(text.strip()).isoformat()
        except ValueError:
            pass
    raise BadInput(f"{item.slug}: {name} can't be '{clean(text)}'; choose {' or '.join(shown)}")


def _shown(field: Field | None, value: Any, names: Names) -> str:
    if field is not None:
        return show(field, value, names)
    return "unknown" if value is None else str(value)
