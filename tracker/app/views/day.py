"""The day asked about: what was said of it now, and for the rest as it was the last time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.app.session import Session
from tracker.app.wants.tasks import read_hours
from tracker.build.item import as_list
from tracker.build.log import READABLE
from tracker.build.log import Day as Started
from tracker.errors import BadInput, did_you_mean
from tracker.plan.day import Day
from tracker.plan.usual import USUAL_H
from tracker.quantity import parse


@dataclass(frozen=True, slots=True)
class Asked:
    """What was said of the day; None takes what was said the last time a day began.

    Parameters
    ----------
    crew: people there, 0 to 99.
    hours: length of the day as typed, such as ``6`` or ``4h30``.
    dry: is it dry?
    temp: temperature of the air as typed, such as ``8C`` or ``46F``.
    power: is there power?
    without: parts or tools that are not there, as typed.
    absent: people who are not there, as typed.
    ahead: is it a day to come, of whose weather nothing is known that was not said?
    """

    crew: int | None = None
    hours: str | None = None
    dry: bool | None = None
    temp: str | None = None
    power: bool | None = None
    without: Sequence[str] = ()
    absent: Sequence[str] = ()
    ahead: bool = False


def day_of(session: Session, asked: Asked) -> Day:
    """The day asked about, filled in from the last one that began.

    Raises
    ------
    UnknownName: no person is called that. BadInput: a number is out of range.
    """
    last = last_day(session)
    names, people = session.names, session.cover.by_kind.get("person", [])
    absent = [names.find(word, ("person",), "person").id for word in asked.absent]
    crew = asked.crew
    if crew is None:
        crew = max(0, (last.people if last else len(people) or 1) - len(set(absent)))
    if not 0 <= crew <= 99:
        raise BadInput(f"{crew} people is outside 0 to 99")
    hours = read_hours(asked.hours) if asked.hours else _hours(last)
    if not 0 < hours <= 24:
        raise BadInput(f"{hours:g} h is no length of a day; it is above 0 and at most 24")
    parts, tools = _missing(session, asked.without)
    weather = last if not asked.ahead else None
    return Day(
        session.now(),
        (float(hours),) * crew,
        asked.dry if asked.dry is not None else weather.dry if weather else None,
        _air_c(asked.temp) if asked.temp else weather.air_c if weather else None,
        asked.power,
        None,
        frozenset(absent),
        frozenset(parts),
        tuple(tools),
        frozenset(_unreached(session, absent)),
    )


def last_day(session: Session) -> Started | None:
    """The last day that began, or None."""
    return session.build.days[-1] if session.build.days else None


def _hours(last: Started | None) -> float:
    if last is None or last.from_h is None or last.to_h is None or last.to_h <= last.from_h:
        return USUAL_H
    return last.to_h - last.from_h


def _air_c(text: str) -> float:
    try:
        air_c = parse(text, "C")
    except BadInput as error:
        raise BadInput(f"temp: {error}") from None
    low, high, unit = READABLE["air_c"]
    if not low <= air_c <= high:
        raise BadInput(f"temp {air_c:g} is outside {low:g} to {high:g} {unit}")
    return air_c


def _missing(session: Session, words: Sequence[str]) -> tuple[list[str], list[str]]:
    """The parts and the tools that words mean."""
    parts, tools = [], []
    known = {
        str(tool).casefold(): str(tool)
        for task in session.cover.by_kind.get("task", [])
        for tool in as_list(task.get("tools"))
    }
    table = {name.casefold(): item for name, item in session.names.by_kind.get("part", {}).items()}
    for word in words:
        wanted = " ".join(word.casefold().split())
        if wanted in table:
            parts.append(table[wanted].id)
        elif wanted in known:
            tools.append(known[wanted])
        else:
            near = did_you_mean(wanted, [*table, *known]) or "; 'closein part list' lists the parts"
            raise BadInput(f"no part or tool is called '{word}'{near}")
    return parts, tools


def _unreached(session: Session, absent: Sequence[str]) -> list[str]:
    """The places that are out of reach because somebody is not there."""
    found = []
    names = {
        name.casefold()
        for person in absent
        for name in (session.build.items[person].slug, session.build.items[person].title)
    }
    for _, place in session.build.lots:
        words = place.casefold().replace("\u2019", "'").split()
        if names & {word.removesuffix("'s").rstrip("'") for word in words}:
            found.append(place)
    return found
