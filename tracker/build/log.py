"""What is written down as it happens: notes, the inbox, the day, conditions, acceptances."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from tracker.act import Act, Fact
from tracker.build.values import number, number_or_none, text, texts, yesno_or_none
from tracker.errors import BadInput, Refused

if TYPE_CHECKING:
    from tracker.build.state import Build


READABLE = {
    "surface_c": (-60.0, 120.0, "C"),
    "air_c": (-60.0, 60.0, "C"),
    "humidity_pct": (0.0, 100.0, "percent"),
    "margin_k": (-60.0, 120.0, "K"),
}
"""What an instrument in a yard can read; anything beyond is a slip of the finger."""


class Note(NamedTuple):
    """A line of the diary; ``on`` are the ids of the items it is about."""

    ref: str
    when: str
    by: str
    text: str
    on: tuple[str, ...]


class InboxLine(NamedTuple):
    """A line that could not be placed; ``sorted`` says what became of it, or is None."""

    ref: str
    when: str
    by: str
    text: str
    sorted: str | None


class Condition(NamedTuple):
    """Conditions recorded: temperatures in C, humidity in percent, dew-point margin in kelvin.

    ``zone`` is a zone's id, or '' for the whole vehicle; what was not measured is None.
    """

    ref: str
    when: str
    by: str
    zone: str
    surface_c: float | None
    air_c: float | None
    humidity_pct: float | None
    margin_k: float | None
    rain: bool | None


class Day(NamedTuple):
    """The start of a day: how many people, from and to (hours), dry or not, air in C."""

    ref: str
    when: str
    by: str
    people: int
    from_h: float | None
    to_h: float | None
    dry: bool | None
    air_c: float | None


class Accepted(NamedTuple):
    """A reservation that somebody took on by name."""

    ref: str
    when: str
    by: str
    why: str


def apply_note(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A note joins the diary."""
    on = texts(fact.get("on", ()))
    draft.notes.append(Note(ref, act.happened, act.by, text(fact["text"]), on))


def apply_inbox(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A line waits to be sorted."""
    draft.inbox[ref] = InboxLine(ref, act.happened, act.by, text(fact["text"]), None)


def apply_sorted(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A waiting line was dealt with."""
    line = draft.inbox.get(fact["line"])
    if line is not None:
        draft.inbox[fact["line"]] = line._replace(sorted=text(fact["into"]))


def apply_condition(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """Conditions as somebody read them."""
    draft.conditions.append(
        Condition(
            ref,
            act.happened,
            act.by,
            text(fact.get("zone", "")),
            number_or_none(fact.get("surface_c")),
            number_or_none(fact.get("air_c")),
            number_or_none(fact.get("humidity_pct")),
            number_or_none(fact.get("margin_k")),
            yesno_or_none(fact.get("rain")),
        )
    )


def apply_day(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A day begins."""
    draft.days.append(
        Day(
            ref,
            act.happened,
            act.by,
            int(number(fact["people"])),
            number_or_none(fact.get("from_h")),
            number_or_none(fact.get("to_h")),
            yesno_or_none(fact.get("dry")),
            number_or_none(fact.get("air_c")),
        )
    )


def apply_accepted(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A reservation is accepted; it no longer stops a release."""
    accepted = Accepted(ref, act.happened, act.by, text(fact["why"]))
    draft.accepted[text(fact["key"])] = accepted


def note(text: str, on: tuple[str, ...] = ()) -> Fact:
    """The fact that writes a note; empty text is refused."""
    if not text.strip():
        raise BadInput("a note needs words; say what happened")
    fact: dict[str, Any] = {"f": "note.written", "text": text.strip()}
    if on:
        fact["on"] = list(on)
    return fact


def to_inbox(text: str) -> Fact:
    """The fact that keeps a line which could not be placed."""
    return {"f": "inbox.put", "text": text}


def sort_inbox(build: Build, ref: str, into: str) -> Fact:
    """The fact that says what became of an inbox line."""
    line = build.inbox.get(ref)
    if line is None or line.sorted is not None:
        raise BadInput(f"no line '{ref}' waits in the inbox; 'closein inbox' lists them")
    return {"f": "inbox.sorted", "line": ref, "into": into}


def condition(
    zone: str = "",
    surface_c: float | None = None,
    air_c: float | None = None,
    humidity_pct: float | None = None,
    margin_k: float | None = None,
    rain: bool | None = None,
) -> Fact:
    """The fact that records conditions (C, percent, kelvin); at least one must be given."""
    readings = {
        "surface_c": surface_c,
        "air_c": air_c,
        "humidity_pct": humidity_pct,
        "margin_k": margin_k,
        "rain": rain,
    }
    known = {name: value for name, value in readings.items() if value is not None}
    if not known:
        raise BadInput("a condition needs a reading: surface, air, humidity, margin or rain")
    for name, (low, high, unit) in READABLE.items():
        value = readings.get(name)
        if value is not None and not low <= value <= high:
            called = name.rpartition("_")[0]
            raise BadInput(f"{called} {value:g} is outside {low:g} to {high:g} {unit}")
    return {"f": "condition.logged", **({"zone": zone} if zone else {}), **known}


def day(
    people: int,
    from_h: float | None = None,
    to_h: float | None = None,
    dry: bool | None = None,
    air_c: float | None = None,
) -> Fact:
    """The fact that starts a day: people, working hours from and to (0 to 24), dry, air in C."""
    if not 0 <= people <= 99:
        raise BadInput(f"{people} people is outside 0 to 99")
    for hour in (from_h, to_h):
        if hour is not None and not 0 <= hour <= 24:
            raise BadInput(f"hour {hour:g} is outside 0 to 24")
    low, high, _ = READABLE["air_c"]
    if air_c is not None and not low <= air_c <= high:
        raise BadInput(f"air {air_c:g} is outside {low:g} to {high:g} C")
    known = {"from_h": from_h, "to_h": to_h, "dry": dry, "air_c": air_c}
    return {
        "f": "day.started",
        "people": people,
        **{name: value for name, value in known.items() if value is not None},
    }


def accept(key: str, why: str) -> Fact:
    """The fact that accepts a reservation by name, with the reason."""
    if not why.strip():
        raise Refused("accepting a reservation needs a reason; add --why TEXT")
    return {"f": "reservation.accepted", "key": key, "why": why.strip()}
