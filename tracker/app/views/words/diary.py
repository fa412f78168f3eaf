"""Work, days, weather, notes and the inbox, in words."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Fact, short_id
from tracker.app.views.words.speaker import Speaker

READINGS = (
    ("surface_c", "surface", "C"),
    ("air_c", "air", "C"),
    ("humidity_pct", "humidity", "percent"),
    ("margin_k", "over the dew point", "K"),
)


def worked(speaker: Speaker, group: Sequence[Fact]) -> str:
    """How far a task is."""
    fact = group[0]
    fraction = float(fact.get("fraction", 1.0))
    far = "done" if fraction >= 1 else "not begun" if fraction <= 0 else f"{fraction:.0%} done"
    hours = f", {float(fact['hours']):g} crew-hours" if fact.get("hours") is not None else ""
    then = f"; next: {fact['next']}" if fact.get("next") else ""
    return f"{speaker.name(fact['task'])} {far}{hours}{then}"


def condition(speaker: Speaker, group: Sequence[Fact]) -> str:
    """Temperatures, humidity and rain as somebody read them."""
    fact = group[0]
    parts = [
        f"{words} {float(fact[name]):g} {unit}"
        for name, words, unit in READINGS
        if fact.get(name) is not None
    ]
    if fact.get("rain") is not None:
        parts.append("rain" if fact["rain"] else "no rain")
    where = f" in {speaker.name(fact['zone'])}" if fact.get("zone") else ""
    return f"conditions{where}: {', '.join(parts)}"


def day(speaker: Speaker, group: Sequence[Fact]) -> str:
    """Who came and what the weather was."""
    fact = group[0]
    people = int(fact["people"])
    said = [f"{people} {'person' if people == 1 else 'people'}"]
    if fact.get("from_h") is not None and fact.get("to_h") is not None:
        said.append(f"{_clock(fact['from_h'])} to {_clock(fact['to_h'])}")
    if fact.get("dry") is not None:
        said.append("dry" if fact["dry"] else "wet")
    if fact.get("air_c") is not None:
        said.append(f"{float(fact['air_c']):g} C")
    return f"the day began: {', '.join(said)}"


def _clock(hour: float) -> str:
    minutes = round(float(hour) * 60)
    return f"{minutes // 60}:{minutes % 60:02d}"


def note(speaker: Speaker, group: Sequence[Fact]) -> str:
    """A line of the diary."""
    about = speaker.known_as(group[0].get("on", ()))
    return f"note{f' on {about}' if about else ''}: {group[0]['text']}"


def inbox(speaker: Speaker, group: Sequence[Fact]) -> str:
    """A line that waits to be sorted."""
    return f"to be sorted: {group[0]['text']}"


def placed(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What became of a line of the inbox."""
    line = speaker.build.inbox.get(group[0]["line"])
    return f"sorted '{line.text if line else 'a line'}': {group[0]['into']}"


def accepted(speaker: Speaker, group: Sequence[Fact]) -> str:
    """A reservation that somebody took on."""
    return f"accepted the reservation {group[0]['key']}: {group[0]['why']}"


def undone(speaker: Speaker, group: Sequence[Fact]) -> str:
    """Which acts were undone."""
    return "undid " + " ".join(short_id(identifier) for identifier in group[0]["acts"])
