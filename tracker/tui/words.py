"""The sentences around the lists: what stands above, beside and below them, as plain text."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from tracker.app.views.parts import amount_words, coming_words, where_words
from tracker.tui.rows import day_words

Model = dict[str, Any]

NO_PHASES = (
    "No phases yet: each brings its tasks, checks and hold points. "
    "Press p and name some, such as: framing deck rough-in-wiring insulation"
)


def some(count: int, noun: str, plural: str = "") -> str:
    """A number with its noun, such as '1 blocker' or 'no blockers'."""
    return f"{count or 'no'} {noun if count == 1 else plural or noun + 's'}"


def days_words(days: int | None) -> str:
    """How far a day is from today."""
    if days is None:
        return "not booked"
    if days == 0:
        return "today"
    return f"in {some(days, 'day')}" if days > 0 else f"{some(-days, 'day')} ago"


def hold_line(walk: Model | None, width: int) -> str:
    """The hold point shown: where, how it stands, what is still to do, when it is booked.

    What matters least is left out where all of it would not fit into ``width`` cells.
    """
    if walk is None:
        return NO_PHASES
    hold, points = walk["hold_point"], walk["points"]
    counted = [f"{points[key]} {word}" for key, word in COUNTED if points[key]]
    away = sum(walk.get("light", {}).get("not_shown", {}).values())
    light = f" (light: {away} not shown)" if away else ""
    zones = "all zones" if walk["zones"][1:] else ""
    day = f"{short_day(hold['booked'])}, " if hold["booked"] else ""
    booked = f"booked {day}" if day else ""
    hours = f"{walk['hours_left']:g} crew-hours" if walk["hours_left"] else ""
    for rest, more, place, date in (
        (counted, hours, zones, booked),
        (counted, "", zones, booked),
        (counted[:2], "", "", booked),
        (counted[:1], "", "", day),
        ((), "", "", ""),
    ):
        where = f"zone {hold['zone']}" if hold["zone"] else place
        still = points["open"] + points["bad"]
        parts = [
            f"Before {hold['slug']}{', ' if where else ''}{where} ({hold['state']}): "
            + ", ".join([f"{still} of {points['total']} to do{light}", *rest]),
            f"{date}{days_words(hold['days'])}",
            more,
        ]
        text = " · ".join(part for part in parts if part)
        if len(text) <= width:
            break
    return text


def short_day(day: str) -> str:
    """A day without its year, such as 'Wed 25 Nov'."""
    return day_words(day).rsplit(" ", 1)[0]


COUNTED = (
    ("bad", "bad"),
    ("waived", "waived"),
    ("na", "n/a"),
    ("good", "good"),
)


def lapse_words(walk: Model | None) -> str:
    """Why a release lapsed, and what stands against one, or ''."""
    if walk is None:
        return ""
    because = [f"Lapsed: {'; '.join(walk['lapsed_because'][:2])}"] if walk["lapsed_because"] else []
    held = [f"Reservation: {row['text']}" for row in walk["reservations"][:1]]
    return " · ".join([*because, *held])


def strip_words(strip: Model, width: int) -> str:
    """The strip: the day, the crew, what is in the way, days to the close-in, the last save.

    Where it would be wider than ``width`` cells, the crew and then the inbox are left out.
    """
    hold, saved, people, waiting = (
        strip[key] for key in ("hold_point", "saved", "people", "inbox")
    )
    parts = {
        "day": short_day(strip["date"]),
        "people": some(people, "person", "people") if people is not None else "",
        "blockers": some(strip["blockers"], "blocker"),
        "shortages": some(strip["shortages"], "shortage"),
        "reservations": some(count, "reservation") if (count := strip["reservations"]) else "",
        "inbox": some(waiting, "line to sort", "lines to sort") if waiting else "",
        "days": f"{hold} {days_words(strip['days'])}" if strip["days"] is not None else "",
        "saved": f"saved {_saved(saved, strip['date'])}" if saved else "nothing saved yet",
    }
    for least in ("people", "inbox", ""):
        text = " · ".join(part for part in parts.values() if part)
        if len(text) <= width:
            break
        parts[least] = ""
    return text


def _saved(moment: str, today: str) -> str:
    then = datetime.fromisoformat(moment)
    return then.strftime("%H:%M" if then.date().isoformat() == today else "%d %b")


def check_words(row: Model) -> tuple[str, str, str]:
    """The check in hand: its question; what happens when it is missed; its basis and answer."""
    found = [
        row["class"] or "",
        f"Limit: {row['limit']}" if row["limit"] else "",
        f"Was: {row['was']}" if row["was"] else "",
        f"Said: {row['note']}" if row["note"] else "",
        row["because"] or "",
        f"Basis: {row['basis']}",
    ]
    missed = f"If missed: {row['missed']}" if row["missed"] else ""
    return row["text"], missed, " · ".join(part for part in found if part)


def part_words(row: Model) -> tuple[str, str, str]:
    """The part in hand: its name and need; where it lies and what is to come; what it stops."""
    need = f": {amount_words(row['needed'], row['unit'])} needed" if row["needed"] else ""
    have = f"{amount_words(row['on_hand'], row['unit'])} on hand"
    coming = f"to come: {words}" if (words := coming_words(row)) else ""
    lies = " · ".join(text for text in (have, where_words(row), coming) if text)
    stops = f"It stops: {', '.join(row['stops'])}" if row["stops"] else ""
    return f"{row['title']}{need}", lies, stops


def blocker_words(row: Model) -> tuple[str, str, str]:
    """The blocker in hand: what it is; who owes the next step; what it stops."""
    owes = [
        f"next step: {row['owes']}" if row["owes"] else "nobody owes the next step yet",
        f"expected {row['expected']}" if row["expected"] else "",
    ]
    stops = ", ".join(row["stops"]) or "nothing that is named"
    return (
        f"{row['slug']}: {row['text']}",
        " · ".join(text for text in owes if text),
        f"It stops: {stops}",
    )


def nothing_open(walk: Model | None) -> str:
    """What the empty list of checks says."""
    if walk is None:
        return "Press p to take up phases."
    hold = walk["hold_point"]["slug"]
    if not walk["points"]["total"]:
        return f"{hold} covers nothing yet: add bays, runs and holes ('closein item add')."
    if not walk["points"]["open"] + walk["points"]["bad"]:
        return f"Nothing is open before {hold}: two people can release it with R."
    return "No check fits the filter; / changes it, Esc clears it."
