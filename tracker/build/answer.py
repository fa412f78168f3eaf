"""How a point stands: open, good, bad, waived, not applicable, out of date or in conflict."""

from __future__ import annotations

from datetime import datetime
from typing import Any, NamedTuple

from tracker.build.item import VEHICLE, Item, as_list
from tracker.build.limit import Limit, judge, limit_of
from tracker.build.log import Condition
from tracker.build.point import Answer
from tracker.build.state import Build

OPEN_STATES = ("open", "stale", "conflict")
"""States that count as open."""


class Standing(NamedTuple):
    """How one point stands.

    Parameters
    ----------
    check, subject: the items.
    state: open, good, bad, waived, na, stale or conflict.
    answer: the answer in force, or the last of those in conflict, or None.
    why: what made it stale, conflicting or undecided, in words, or ''.
    limit: the limit for this subject, or None.
    """

    check: Item
    subject: Item
    state: str
    answer: Answer | None
    why: str
    limit: Limit | None

    @property
    def settled(self) -> bool:
        """Does it stand in nobody's way?"""
        return self.state in ("good", "waived", "na")

    @property
    def binds(self) -> bool:
        """Must it be settled before a release? Hold-class checks, and what is never waived."""
        return self.check.get("class") == "hold" or self.check.get("waive") is False


class Weather(NamedTuple):
    """What may have voided answers since they were given.

    Parameters
    ----------
    bad: the last condition recorded below the hold point's limits, and what it was in words.
    over: the moment (ISO) the last release that ran out did so, and when it was given, or None.
    """

    bad: tuple[Condition, str] | None = None
    over: tuple[str, str] | None = None


CALM = Weather()
"""Nothing has voided anything."""


def watched(check: Item, subject: Item, limit: Limit | None) -> dict[str, Any]:
    """The fields an answer rests on, as they are now, with the limit where there is one."""
    saw = {
        name: (subject.slug if name == "slug" else subject.fields.get(name))
        for name in check.get("watches", ())
    }
    if limit is not None:
        saw["limit"] = limit.seen()
    return saw


def standing(build: Build, check: Item, subject: Item, weather: Weather = CALM) -> Standing:
    """How a point stands now."""
    limit = limit_of(check, subject, build.items.get(VEHICLE))
    heads = build.answers.get((check.id, subject.id), ())
    if len(heads) > 1:
        words = " against ".join(f"{head.result} by {head.by}" for head in heads)
        return Standing(check, subject, "conflict", heads[-1], words, limit)
    if not heads or heads[0].result == "reopened":
        last = heads[0] if heads else None
        why = f"reopened: {last.why}" if last is not None and last.why else ""
        return Standing(check, subject, "open", last, why, limit)
    answer = heads[0]
    stale = why_stale(build, check, subject, answer, limit, weather)
    if stale:
        return Standing(check, subject, "stale", answer, stale, limit)
    if answer.result != "measured":
        return Standing(check, subject, answer.result, answer, "", limit)
    if limit is None or answer.value is None:
        return Standing(check, subject, "open", answer, "the check asks for no number now", limit)
    state = judge(limit, answer.value, answer.second, answer.why)
    if state == "unknown":
        return Standing(check, subject, "open", answer, f"limit {limit}", limit)
    return Standing(check, subject, state, answer, "", limit)


def why_stale(
    build: Build, check: Item, subject: Item, answer: Answer, limit: Limit | None, weather: Weather
) -> str:
    """Why an answer no longer holds, in words; '' where it does."""
    if answer.result == "bad":
        return ""
    now = watched(check, subject, limit)
    for name, then in (answer.fact.get("saw") or {}).items():
        if name not in now or _same(now[name], then):
            continue
        if name != "limit":
            return f"{name} was {_show(build, then)}, now {_show(build, now[name])}"
        if answer.result == "measured" and not _was_unknown(then):
            return f"the limit changed, now {limit}"
    if answer.result == "na":
        return ""
    lapse = check.get("lapse")
    if lapse == "weather" and weather.bad and _came_after(weather.bad[0], answer):
        return weather.bad[1]
    if lapse == "walk" and weather.over and not _later(answer.when, weather.over[1]):
        return f"the release ran out at {weather.over[0][:16].replace('T', ' ')}"
    return ""


def _same(one: Any, other: Any) -> bool:
    return list(as_list(one)) == list(as_list(other))


def _was_unknown(then: Any) -> bool:
    """A number measured before its limit was known is judged once it is."""
    return not isinstance(then, list | tuple) or then[:2] in ([None, None], (None, None))


def _show(build: Build, value: Any) -> str:
    if isinstance(value, list | tuple):
        return ", ".join(_show(build, each) for each in value) or "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str) and value in build.items:
        return build.items[value].slug
    return "unknown" if value is None else f"{value:g}" if isinstance(value, float) else str(value)


def _came_after(condition: Condition, answer: Answer) -> bool:
    """Was it recorded after the answer was found? In the same moment, the later act counts."""
    one, other = datetime.fromisoformat(condition.when), datetime.fromisoformat(answer.when)
    return (one, condition.ref) > (other, answer.ref)


def _later(one: str, other: str) -> bool:
    return datetime.fromisoformat(one) > datetime.fromisoformat(other)
