"""The plan of the day in words, the same on paper and on the screen."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Row = Mapping[str, Any]

SHOWN = 6
"""Tasks named in one line; --json names them all."""

IF_WORDS = {
    "dry": "if it stays dry",
    "cold": "if it is warm enough",
    "skill": "if somebody who may do it is there",
}

LEVELS = {"low": "is low", "unknown": "was never counted"}


def slot_notes(row: Row) -> list[str]:
    """What is to be said of a task of the plan beyond its hours."""
    notes = []
    if row["subjects"]:
        where = f" in {', '.join(row['bays'])}" if row["bays"] else ""
        notes.append(f"in part: {', '.join(row['subjects'])}{where}")
    elif row["why_not_all"]:
        notes.append(f"in part, about {row['part'] * 100:.0f} in 100 of what is still to do")
    if row["why_not_all"]:
        notes.append(f"not all: {'; '.join(row['why_not_all'])}")
    if row["begun"]:
        notes.append(f"only begun: about {row['part'] * 100:.0f} in 100, the day is too short")
    if row["follows"]:
        notes.append("once the work above is done")
    notes += [IF_WORDS[each] for each in row["only_if"]]
    if row["next_step"]:
        notes.append(f"next step: {row['next_step']}")
    if not row["hours_stated"]:
        notes.append("nobody stated its hours; an hour is assumed")
    if row["moves"]:
        notes.append(f"moves {row['moves']:g} crew-hours of work toward the hold point")
    return notes


def holds_words(row: Row) -> str:
    """What a cause holds up, and what would free it."""
    told = []
    if row["tasks"]:
        held = [f"{task} (in part)" if task in row["in_part"] else task for task in row["tasks"]]
        after = f" and {row['after_them']} after" if row["after_them"] else ""
        more = f", {len(held) - SHOWN} more" if len(held) > SHOWN else ""
        names = ", ".join(held[:SHOWN]) + more
        told.append(f"holds {names}{after}, {row['crew_hours']:g} crew-hours")
    if row["points"]:
        told.append(f"{row['points']} {'answer' if row['points'] == 1 else 'answers'} open")
    if row["free_by"]:
        told.append(f"to free it: {row['free_by']}")
    return "; ".join(told)


def day_words(day: Row) -> str:
    """The facts of the day in words."""
    told = [hands_words(day["people"]), f"{day['hours']:g} h"]
    told += [{True: "dry", False: "rain", None: "nobody said whether dry"}[day["dry"]]]
    told += [f"{day['air_c']:g} C"] if day["air_c"] is not None else ["temperature unknown"]
    told += ["no power"] if day["power"] is False else []
    told += [f"without {', '.join(day['without'])}"] if day["without"] else []
    told += [f"{', '.join(day['absent'])} not there"] if day["absent"] else []
    return ", ".join(told)


def days_words(days: int) -> str:
    """How far off a day is."""
    if days == 0:
        return "today"
    many = "day" if abs(days) == 1 else "days"
    return f"in {days} {many}" if days > 0 else f"{-days} {many} ago"


def clock(hours: float) -> str:
    """Hours as ``1:45``."""
    minutes = round(hours * 60)
    return f"{minutes // 60}:{minutes % 60:02d}"


def hands_words(people: int) -> str:
    """How many people, such as '1 person'."""
    return "1 person" if people == 1 else f"{people} people"


def load_words(row: Row) -> str:
    """How much of a part to bring, such as '5 m'."""
    unit = "" if row["unit"] in (None, "each") else f" {row['unit']}"
    return f"{row['quantity']:g}{unit}"


def level_words(level: str) -> str:
    """Why a part is not to be relied on."""
    return LEVELS.get(level, "has been counted, but not measured length by length")
