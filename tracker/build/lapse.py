"""What voids a release: weather, time, and what is no longer as it was signed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from tracker.build.answer import Standing, Weather
from tracker.build.coverage import WHOLE
from tracker.build.holdpoint import CLOSED, RELEASED, HoldEvent, open_pairs, recorded
from tracker.build.item import Item
from tracker.build.log import Condition
from tracker.build.state import Build, PointKey


def weather_of(
    build: Build, hold: Item, zone: str, events: Sequence[HoldEvent], now: datetime
) -> Weather:
    """What voids answers in a zone by ``now``; nothing that came after its close-in does."""
    closed = events[-1].when if recorded(events) == CLOSED else None
    moment = datetime.fromisoformat(closed) if closed else now
    over = None
    for event in reversed(events):
        if event.kind == RELEASED and (end := ran_out(hold, event, moment)):
            over = (end, event.when)
            break
    return Weather(bad_weather(build, hold, zone, closed), over)


def bad_weather(
    build: Build, hold: Item, zone: str, until: str | None = None
) -> tuple[Condition, str] | None:
    """The last condition recorded below the hold point's limits, and what it was in words.

    Parameters
    ----------
    until: conditions after this moment (ISO) are passed over; None takes all.
    """
    least_c, least_k, dry = hold.get("min_surface_c"), hold.get("min_margin_k"), hold.get("dry")
    worst: tuple[Condition, str] | None = None
    for condition in build.conditions:
        if condition.zone not in (WHOLE, zone) and zone != WHOLE:
            continue
        if until is not None and _moment(condition.when) > _moment(until):
            continue
        day = condition.when[:16].replace("T", " ")
        words = ""
        if dry and condition.rain:
            words = f"rain recorded {day}"
        elif least_c is not None and _below(condition.surface_c, least_c):
            words = f"surface {condition.surface_c:g} C on {day}, below {least_c:g} C"
        elif least_k is not None and _below(condition.margin_k, least_k):
            words = f"only {condition.margin_k:g} K over the dew point on {day}"
        if words and (worst is None or _moment(condition.when) >= _moment(worst[0].when)):
            worst = (condition, words)
    return worst


def _below(value: float | None, least: float) -> bool:
    return value is not None and value < least


def _moment(text: str) -> datetime:
    return datetime.fromisoformat(text)


def ran_out(hold: Item, release: HoldEvent, now: datetime) -> str | None:
    """When (ISO) a release ran out, or None while it stands or has no end."""
    hours = hold.get("valid_h")
    if hours is None:
        return None
    end = _moment(release.when) + timedelta(hours=float(hours))
    return end.isoformat() if now > end else None


def lapse_reasons(
    build: Build, hold: Item, release: HoldEvent, points: Sequence[Standing], now: datetime
) -> list[str]:
    """Why a release no longer holds, in words: the difference from what was signed."""
    reasons = []
    if end := ran_out(hold, release, now):
        reasons.append(f"it ran out at {end[:16].replace('T', ' ')}")
    signed, unsettled = _signed(build, release), open_pairs(release.fact)
    here: set[PointKey] = set()
    for point in points:
        key = (point.check.id, point.subject.id)
        here.add(key)
        words = _difference(point, signed.get(key), key in unsettled)
        if words:
            reasons.append(f"{point.check.slug} on {point.subject.slug} {words}")
    return reasons + [_gone(build, key) for key in sorted(signed.keys() - here)]


def _difference(point: Standing, signed: str | None, unsettled: bool) -> str:
    """How a point differs from what was signed of it; '' where it does not.

    One that was signed while it was not settled may stay so or become settled.
    """
    ref = point.answer.ref if point.answer else None
    if unsettled:
        return "is bad" if point.state == "bad" and ref != signed else ""
    if signed is None:
        return f"is new and {point.state}"
    if point.state == "stale":
        return f"is out of date: {point.why}"
    if point.state == "conflict":
        return f"is in conflict: {point.why}"
    if point.state == "open":
        return "is open again" + (f": {point.why}" if point.why else "")
    if point.state == "bad":
        return "is bad"
    return "" if ref == signed else f"was answered again, {point.state}"


def _signed(build: Build, release: HoldEvent) -> dict[PointKey, str]:
    """The points that a release signed, each with the fact that answered it."""
    basis = release.fact["basis"]
    signed: dict[PointKey, str] = {}
    for act in build.acts:
        for index in basis.get(act.id, ()):
            fact = act.facts[index] if 0 <= index < len(act.facts) else {}
            check, subject = fact.get("check"), fact.get("subject")
            if isinstance(check, str) and isinstance(subject, str):
                signed[check, subject] = act.ref(index)
    return signed


def _gone(build: Build, key: PointKey) -> str:
    check, subject = (build.items.get(identifier) for identifier in key)
    name = f"{check.slug if check else key[0]} on {subject.slug if subject else key[1]}"
    why = subject.removed if subject is not None and subject.removed else None
    return f"{name} is no longer covered" + (f": {why}" if why else "")
