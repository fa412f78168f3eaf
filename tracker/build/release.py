"""Releasing and closing in: how a hold point stands in a zone, and what may be recorded of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from tracker.act import Fact
from tracker.build.answer import Standing, standing
from tracker.build.coverage import Coverage
from tracker.build.holdpoint import (
    CLOSED,
    MOVES,
    RELEASED,
    HoldEvent,
    pack_basis,
    recorded,
    state_of,
)
from tracker.build.item import Item, as_list
from tracker.build.lapse import lapse_reasons, weather_of
from tracker.build.state import Build
from tracker.errors import BadInput, Refused

PRESENT = ("present", "remote", "next-day")
"""How the second person took part: there, by phone or photo, or the same person a day later."""

UNSIGNED = ("open", "conflict")
"""States in which a point has no one answer that could be signed."""


@dataclass(frozen=True, slots=True)
class HoldStanding:
    """How a hold point stands in one zone.

    Parameters
    ----------
    hold: the hold point's item.
    zone: a zone's id, or '' for the whole vehicle.
    state: one of ``holdpoint.STATES``.
    points: how each point it covers stands.
    reasons: why a release lapsed, in words.
    blockers: uncleared blockers that stop it.
    reservations: reservations nobody has accepted, in words.
    release: the last release recorded, or None.
    late: items that surfaced after close-in: not known at close-in.
    """

    hold: Item
    zone: str
    state: str
    points: tuple[Standing, ...]
    reasons: tuple[str, ...]
    blockers: tuple[Item, ...]
    reservations: tuple[str, ...]
    release: HoldEvent | None
    late: tuple[Item, ...]


def hold_standing(
    cover: Coverage, hold: Item, zone: str, now: datetime, reservations: Sequence[str] = ()
) -> HoldStanding:
    """How a hold point stands in a zone at ``now`` (with an offset)."""
    build = cover.build
    events = build.holds.get((hold.id, zone), ())
    record = recorded(events)
    release = next((event for event in reversed(events) if event.kind == RELEASED), None)
    weather = weather_of(build, hold, zone, events, now)
    points = tuple(
        standing(build, check, subject, weather) for check, subject in cover.points(hold, zone)
    )
    blockers = tuple(stopping(cover, hold, zone))
    reasons: list[str] = []
    if release is not None and record == RELEASED:
        reasons += lapse_reasons(build, hold, release, points, now)
        reasons += [f"{item.slug} stands in the way: {item.title}" for item in blockers]
        reasons += [f"reservation: {text}" for text in reservations]
    ready = (
        not blockers
        and not reservations
        and bool(points)
        and all(point.settled for point in points if point.binds)
    )
    begun = bool(hold.get("booked") or hold.get(f"booked@{zone}")) or any(
        point.answer for point in points
    )
    return HoldStanding(
        hold,
        zone,
        state_of(record, not reasons, ready, begun),
        points,
        tuple(reasons),
        blockers,
        tuple(reservations),
        release,
        tuple(_late(cover, hold, zone, events)) if record == CLOSED else (),
    )


def stopping(cover: Coverage, hold: Item, zone: str) -> list[Item]:
    """The uncleared blockers that stop a hold point in a zone.

    They stop the hold point itself, its phase, the zone, or one of its checks; a check whose
    subjects all lie in other zones stops those alone.
    """
    stopped = {hold.id, hold.get("gates"), zone}
    for check in cover.checks(hold):
        subjects = cover.subjects(check)
        if not subjects or any(cover.in_zone(subject, zone) for subject in subjects):
            stopped.add(check.id)
    return [
        blocker
        for blocker in cover.by_kind.get("blocker", [])
        if not blocker.get("cleared") and stopped & set(as_list(blocker.get("stops")))
    ]


def _late(cover: Coverage, hold: Item, zone: str, events: Sequence[HoldEvent]) -> list[Item]:
    closing = next(event for event in reversed(events) if event.kind == CLOSED)
    known = set(closing.fact.get("covered", ()))
    return [item for item in cover.covered_items(hold, zone) if item.id not in known]


def release(stand: HoldStanding, by: str, second: str, present: str, now: datetime) -> Fact:
    """The fact that releases a hold point in a zone: two people sign what it covers now.

    Parameters
    ----------
    by, second: the two names; the same name only with ``present='next-day'``.
    present: one of ``PRESENT``.
    now: with an offset.

    Raises
    ------
    Refused: a hold-class check is not settled, a blocker or reservation stands, or the second
    person is no second person.
    """
    _allowed(stand, "release", now)
    _second_person(stand, by, second, present, now)
    unsettled = [point for point in stand.points if point.binds and not point.settled]
    name = stand.hold.slug
    if not stand.points:
        raise Refused(f"{name} covers nothing here yet, so there is nothing to release")
    if unsettled:
        first = ", ".join(f"{p.check.slug} on {p.subject.slug}" for p in unsettled[:3])
        more = f" and {len(unsettled) - 3} more" if len(unsettled) > 3 else ""
        raise Refused(
            f"{name} can't be released: {first}{more} must be good, waived or not applicable; "
            f"'closein todo {name}' lists them"
        )
    if stand.blockers:
        slugs = ", ".join(item.slug for item in stand.blockers)
        raise Refused(f"{name} can't be released while {slugs} stands; 'closein unstuck' clears it")
    _no_reservation(stand)
    answered = [p.answer.ref for p in stand.points if p.answer and p.state not in UNSIGNED]
    still_open = [[p.check.id, p.subject.id] for p in stand.points if not p.settled]
    return {
        "f": "hold.released",
        "hold": stand.hold.id,
        **({"zone": stand.zone} if stand.zone else {}),
        "by": by,
        "second": second,
        "present": present,
        "basis": pack_basis(answered),
        **({"open": still_open} if still_open else {}),
    }


def _second_person(stand: HoldStanding, by: str, second: str, present: str, now: datetime) -> None:
    if present not in PRESENT:
        raise BadInput(f"'{present}' is not one of {', '.join(PRESENT)}")
    if not by.strip() or not second.strip():
        raise BadInput("a release takes two names; give --by NAME and --second NAME")
    same = by.strip().casefold() == second.strip().casefold()
    if same and present != "next-day":
        raise Refused(
            "a release takes two people; name another, or walk it again the next day "
            "and say --next-day"
        )
    if present == "next-day":
        answered = [datetime.fromisoformat(p.answer.when) for p in stand.points if p.answer]
        if answered and max(answered).astimezone(now.tzinfo).date() >= now.date():
            raise Refused("something was answered today; --next-day counts from the day after")


def _allowed(stand: HoldStanding, move: str, now: datetime) -> None:
    if move not in MOVES[stand.state] and not (move == "release" and stand.state == "open"):
        able = ", ".join(MOVES[stand.state]) or "nothing yet; answer its checks first"
        raise Refused(f"{stand.hold.slug} is {stand.state}; what can be done now: {able}")


def _no_reservation(stand: HoldStanding) -> None:
    if stand.reservations:
        raise Refused(
            f"{stand.hold.slug} waits for a reservation: {stand.reservations[0]}; "
            "'closein accept' takes it on by name"
        )


def withdraw(stand: HoldStanding, why: str, now: datetime) -> Fact:
    """The fact that takes a release back, with the reason."""
    _allowed(stand, "withdraw", now)
    return _with_reason(stand, "hold.withdrawn", why)


def reopen(stand: HoldStanding, why: str, now: datetime) -> Fact:
    """The fact that opens a closed zone again, with the reason."""
    _allowed(stand, "reopen", now)
    return _with_reason(stand, "hold.reopened", why)


def close(cover: Coverage, stand: HoldStanding, why: str | None, now: datetime) -> Fact:
    """The fact that a zone was closed in: what it covers is buried from now on.

    Raises
    ------
    Refused: it was never released, the release lapsed and no reason is given, a check that can
    never be waived is not settled, or a reservation stands.
    """
    _allowed(stand, "close", now)
    _no_reservation(stand)
    if stand.state != "released":
        never = [p for p in stand.points if p.check.get("waive") is False and not p.settled]
        if never:
            raise Refused(
                f"{stand.hold.slug} can't be closed: {never[0].check.slug} on "
                f"{never[0].subject.slug} is {never[0].state} and can never be waived"
            )
        if not (why or "").strip():
            cause = f" ({stand.reasons[0]})" if stand.reasons else ""
            raise Refused(
                f"{stand.hold.slug} is {stand.state}{cause}; release it again, "
                "or close it with --why TEXT"
            )
    covered = sorted(item.id for item in cover.covered_items(stand.hold, stand.zone))
    fact: dict[str, Any] = {"f": "hold.closed", "hold": stand.hold.id, "covered": covered}
    if stand.zone:
        fact["zone"] = stand.zone
    if why:
        fact["why"] = why
    return fact


def _with_reason(stand: HoldStanding, kind: str, why: str) -> Fact:
    if not why.strip():
        raise Refused(f"{stand.hold.slug}: this needs a reason; add --why TEXT")
    zone = {"zone": stand.zone} if stand.zone else {}
    return {"f": kind, "hold": stand.hold.id, **zone, "why": why}


def is_buried(cover: Coverage, item: Item) -> bool:
    """Was the item covered when some zone was closed in, and not reopened since?"""
    return any(
        recorded(events) == CLOSED and item.id in events[-1].fact.get("covered", ())
        for events in cover.build.holds.values()
    )


def closed_zones(build: Build, hold: Item) -> set[str]:
    """The zones in which a hold point is closed."""
    return {
        zone
        for (identifier, zone), events in build.holds.items()
        if identifier == hold.id and recorded(events) == CLOSED
    }
