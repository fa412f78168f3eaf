"""Releasing, closing and booking hold points, as people say it."""

from __future__ import annotations

from datetime import date

from tracker.act import Fact
from tracker.app.session import Intent, Session
from tracker.build import item
from tracker.build import release as releasing
from tracker.build.coverage import WHOLE, Coverage
from tracker.build.item import Item
from tracker.build.names import Names, clean
from tracker.build.release import HoldStanding, hold_standing
from tracker.build.state import Build
from tracker.errors import BadInput, Refused


def release(
    session: Session,
    hold: str,
    *,
    zone: str | None = None,
    by: str,
    second: str,
    present: str = "present",
) -> Intent:
    """Sign what a hold point covers, by two people; see :func:`tracker.build.release.release`."""

    def intent(build: Build) -> list[Fact]:
        stand = standing_at(session, Coverage(build), Names(build), hold, zone)
        return [releasing.release(stand, clean(by), clean(second), present, session.now())]

    return intent


def withdraw(session: Session, hold: str, *, zone: str | None = None, why: str) -> Intent:
    """Take a release back, with the reason."""

    def intent(build: Build) -> list[Fact]:
        stand = standing_at(session, Coverage(build), Names(build), hold, zone)
        return [releasing.withdraw(stand, clean(why), session.now())]

    return intent


def close(
    session: Session, hold: str, *, zone: str | None = None, why: str | None = None
) -> Intent:
    """Record that a zone was closed in."""

    def intent(build: Build) -> list[Fact]:
        cover = Coverage(build)
        stand = standing_at(session, cover, Names(build), hold, zone)
        reason = clean(why).strip() if why else None
        return [releasing.close(cover, stand, reason, session.now())]

    return intent


def reopen(session: Session, hold: str, *, zone: str | None = None, why: str) -> Intent:
    """Open again what was closed, with the reason."""

    def intent(build: Build) -> list[Fact]:
        stand = standing_at(session, Coverage(build), Names(build), hold, zone)
        return [releasing.reopen(stand, clean(why), session.now())]

    return intent


def book(hold: str, day: str, *, zone: str | None = None) -> Intent:
    """Book the day (ISO) of a close-in, in one zone or all; ``none`` drops the booking."""

    def intent(build: Build) -> list[Fact]:
        names = Names(build)
        found = names.find(hold, ("holdpoint",), "hold point")
        key = f"booked@{named_zone(Coverage(build), names, found, zone)}" if zone else "booked"
        value = _day(day)
        if found.get(key) == value:
            raise Refused(
                f"{found.slug} is booked for {value} already"
                if value
                else f"{found.slug} is not booked"
            )
        return [item.change(found, {key: value})]

    return intent


def standing_at(
    session: Session, cover: Coverage, names: Names, hold: str, zone: str | None
) -> HoldStanding:
    """How a hold point stands in the zone a person named, or the only one there is.

    Raises
    ------
    UnknownName, BadInput: no such hold point or zone, or a zone has to be named.
    """
    found = names.find(hold, ("holdpoint",), "hold point")
    key = named_zone(cover, names, found, zone)
    reservations = [row.text for row in session.reservations]
    return hold_standing(cover, found, key, session.now(), reservations)


def named_zone(cover: Coverage, names: Names, hold: Item, zone: str | None) -> str:
    """The zone (an id) in which a hold point is meant; '' is the whole vehicle."""
    keys = cover.zone_keys(hold)
    if zone:
        found = names.find(zone, ("zone",), "zone").id
        if found not in keys:
            raise BadInput(
                f"{hold.slug} is released for the whole vehicle at once; leave --zone off"
            )
        return found
    if (hold.id, WHOLE) in cover.build.holds:
        return WHOLE
    if len(keys) == 1:
        return keys[0]
    listed = ", ".join(names.name(key) for key in keys)
    raise BadInput(f"{hold.slug} is released zone by zone; say which with --zone: {listed}")


def _day(text: str) -> str | None:
    if text.strip().casefold() == "none":
        return None
    try:
        return date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        raise BadInput(
            f"'{clean(text)}' is no date; write it like 2027-04-18, or none to drop the booking"
        ) from None
