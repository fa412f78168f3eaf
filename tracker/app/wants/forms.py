"""The forms a line of the entry line can have, but for the two that mark checks.

A form returns None for a line that does not look like it, an intent with what it was taken as,
or raises the sentence on why a line that does look like it can't be placed.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.app.wants import parts
from tracker.build import log
from tracker.build.coverage import Coverage
from tracker.build.item import Item
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.errors import BadInput, UnknownName
from tracker.quantity import parse

PEOPLE = re.compile(r"(?P<people>\d{1,2}) (?:people|persons?|hands|of us)\b,?(?P<rest>.*)", re.I)
HOURS = re.compile(r"(\d{1,2})(?::(\d{2}))?-(\d{1,2})(?::(\d{2}))?")
DEGREES = re.compile(r"-?\d{1,3}(?:[.,]\d{1,2})?°?[CF]", re.I)
SKIES = {"dry": True, "wet": False, "rain": False, "raining": False}
RAINING = ("rain", "raining")
OUT = re.compile(r"out\b(?: of)?(?P<part>.*?)(?: at (?P<place>.+))?", re.I)


class Taken(NamedTuple):
    """What a line was taken as: what to do, and that in words."""

    intent: Intent
    words: str


@dataclass(frozen=True, slots=True)
class Look:
    """The state a line is read against, and who says it."""

    build: Build
    cover: Coverage
    names: Names
    by: str


def day(look: Look, line: str) -> Taken | None:
    """``3 people 8-16 dry 6C``: a day begins; rain is recorded as a condition besides."""
    found = PEOPLE.fullmatch(line)
    if found is None:
        return None
    rest = re.sub(r"(?<=\d) ?(?:to|-) ?(?=\d)", "-", found["rest"])
    words = [word.strip(",") for word in rest.split() if word.strip(",")]
    if words and not _of_a_day(words[0]):
        return None
    hours: tuple[float, float] | None = None
    sky: str | None = None
    air_c: float | None = None
    for word in words:
        clock = HOURS.fullmatch(word)
        if clock and hours is None:
            hours = _hours(clock)
        elif word.casefold() in SKIES and sky is None:
            sky = word.casefold()
        elif DEGREES.fullmatch(word) and air_c is None:
            air_c = parse(word, "C")
        else:
            raise BadInput(f"'{word}' does not belong to the start of a day")
    start, end = hours or (None, None)
    dry = SKIES[sky] if sky else None
    facts = [log.day(int(found["people"]), start, end, dry, air_c)]
    if sky in RAINING:
        facts.append(log.condition(air_c=air_c, rain=True))
    told = [f"{found['people']} people"]
    told += [f"{start:g} to {end:g} h"] if hours else []
    told += [sky] if sky else []
    told += [f"{air_c:g} C"] if air_c is not None else []
    return Taken(lambda _: facts, f"the day: {', '.join(told)}")


def _of_a_day(word: str) -> bool:
    return bool(HOURS.fullmatch(word) or DEGREES.fullmatch(word) or word.casefold() in SKIES)


def _hours(clock: re.Match[str]) -> tuple[float, float]:
    start = int(clock[1]) + int(clock[2] or 0) / 60
    end = int(clock[3]) + int(clock[4] or 0) / 60
    if not start < end <= 24 or int(clock[2] or 0) > 59 or int(clock[4] or 0) > 59:
        raise BadInput(f"'{clock[0]}' are no hours of a day")
    return start, end


def out(look: Look, line: str) -> Taken | None:
    """``out glands``, ``out of glands at shelf``: there is none of a part."""
    found = OUT.fullmatch(line)
    if found is None:
        return None
    part = find_part(look.names, found["part"].strip())
    place = found["place"]
    where = f" at {clean(place)}" if place else ""
    name = look.names.name(part.id)
    return Taken(parts.out(name, place), f"out of {name}{where}")


def find_part(names: Names, text: str) -> Item:
    """A part by its name, its title, or a beginning that only one has."""
    known = names.by_kind.get("part", {})
    wanted = " ".join(text.casefold().split())
    if not wanted:
        raise BadInput("out of what? name a part")
    exact = [
        item
        for name, item in known.items()
        if wanted in (name.casefold(), item.title.casefold())
        or wanted.replace(" ", "-") == name.casefold()
    ]
    begun = [
        item
        for name, item in known.items()
        if name.casefold().startswith(wanted) or item.title.casefold().startswith(wanted)
    ]
    found = exact or begun
    if len(found) == 1:
        return found[0]
    if found:
        fits = ", ".join(names.name(item.id) for item in found[:6])
        raise BadInput(f"'{clean(text)}' fits several parts: {fits}")
    raise UnknownName("part", clean(text), known)


_RAISE = "; if it stops the work, 'closein stuck TEXT' raises a blocker"
_RECEIVE = "; if parts came, 'closein part receive PART QUANTITY' counts them in"
HINTS = {
    "stuck": _RAISE,
    "blocked": _RAISE,
    "missing": _RAISE,
    "got": _RECEIVE,
    "received": _RECEIVE,
}
"""What a note that begins so may have been meant to be; it is kept as a note all the same."""


def note(look: Look, line: str) -> Taken:
    """Anything else: a note, about the item or bay it begins with."""
    about = _about(look.names, line.split())
    words = f"a note on {look.names.name(about.id)}" if about else "a note"
    words += HINTS.get(line.split()[0].casefold().strip(":,"), "")
    on = (about.id,) if about else ()

    def intent(build: Build) -> Sequence[Fact]:
        return [log.note(line, tuple(each for each in on if each in build.items))]

    return Taken(intent, words)


def _about(names: Names, words: Sequence[str]) -> Item | None:
    """The item a note begins with: ``bay 7 ...`` or a name that has a letter and a digit."""
    first = words[0].strip(":,")
    if first.casefold() == "bay" and len(words) > 1:
        found = numbered(names, words[1].strip(":,"), "bay")
        return found[0] if len(found) == 1 else None
    if first.isalpha() or first.isdigit():
        return None
    try:
        return names.find(first)
    except BadInput:
        return None


def numbered(names: Names, word: str, kind: str) -> list[Item]:
    """The items of a kind that a word means: a name, a number, or a range of either.

    ``12`` is the item called 12, else the one whose name is the kind's prefix and that number;
    numbers of a range that nothing has are passed over. Empty where nothing fits.
    """
    from tracker.build.kinds import kinds

    known, table = names.by_kind.get(kind, {}), kinds().get(kind)
    exact = [item for name, item in known.items() if name.casefold() == word.casefold()]
    span = re.fullmatch(r"([0-9]{1,4})(?:(?:-|\.\.)([0-9]{1,4}))?", word)
    if exact:
        return exact
    if span is None or table is None:
        try:
            return names.expand([word], (kind,))
        except UnknownName:
            return []
    low, high = int(span[1]), int(span[2] or span[1])
    if low > high:
        raise BadInput(f"the range '{clean(word)}' runs backwards; turn it round")
    return _in_range(known, "", low, high) or _in_range(known, table.prefix, low, high)


def _in_range(known: Mapping[str, Item], stem: str, low: int, high: int) -> list[Item]:
    """The items whose names are a stem and a number from low to high, in order of number."""
    found = []
    for name, item in known.items():
        digits = re.fullmatch(rf"{re.escape(stem)}([0-9]{{1,9}})", name, re.IGNORECASE)
        if digits and low <= int(digits[1]) <= high:
            found.append((int(digits[1]), item))
    return [item for _, item in sorted(found, key=lambda pair: pair[0])]
