"""From the dates to the lines of their list, and what is told and drawn of the one in hand."""

from __future__ import annotations

from typing import Any

from tracker.app.views.words.dates import (
    booked_words,
    days_worked_words,
    driver_words,
    near_day,
    rests_words,
    so_far_words,
)
from tracker.app.views.words.spread import spread_chart
from tracker.tui.columns import Column, Line
from tracker.tui.rows import holds_words as fits

Model = dict[str, Any]

DATE_COLUMNS = (
    Column("before", 18),
    Column("50 in 100", 9),
    Column("80 in 100", 9),
    Column("95 in 100", 9),
    Column("booked, and its chance"),
)
RECKONING = "Reckoning..."
LIKELY, EVEN = 80, 50
BELOW = 3
"""Lines of a chart below its bars."""


def date_lines(view: Model | None, words: str, stale: bool) -> list[Line]:
    """Each hold point and the end, then what the dates rest on, then what was done so far.

    Parameters
    ----------
    stale: did something change since, so that other dates are on their way?
    """
    if view is None:
        return []
    people = "1 person" if view["crew"] == 1 else f"{view['crew']} people"
    few = "; few tasks are logged, so they are wide" if view["rests_on"]["few"] else ""
    head = f"With {people}, {view['hours']:g} h a day{few}"
    if stale:
        head = f"{RECKONING} these are the dates before the last change"
    rows = [_date(row, view["date"]) for row in view["dates"]]
    lines = [Line("", (f" {head}",), "heading")]
    lines += [line for line in rows if fits((*line.cells, line.row["title"]), words)]
    for title, first, sentences in (
        ("What they rest on", "rests on", [f"days: {days_worked_words(view)}", *rests_words(view)]),
        ("So far", "so far", so_far_words(view["so_far"])),
    ):
        told = [
            Line(f"{first} {number}", (f"· {first}", text), "quiet", {"said": [text]})
            for number, text in enumerate(sentences)
            if fits((first, text), words)
        ]
        if told:
            lines += [Line("", (f" {title}",), "heading"), *told]
    return lines


def dates_told(view: Model | None, stale: bool) -> tuple[str, str]:
    """What the line of views says of the dates, at length and in short."""
    if stale:
        return "reckoning", ""
    booked = [row for row in view["dates"] if row["booked"]] if view else []
    if not booked:
        return "", ""
    if booked[0]["booked_past"]:
        return f"{booked[0]['hold_point']} past", "past"
    chance = booked[0]["booked_chance"]
    return f"{booked[0]['hold_point']} {chance} in 100", f"{chance}%"


def _date(row: Model, today: str) -> Line:
    name = row["hold_point"] or row["title"]
    sign, look = _verdict(row)
    days = (near_day(row[f"chances_{chances}"], today) for chances in (50, 80, 95))
    booked = booked_words(row, near_day(row["booked"], today) if row["booked"] else "")
    return Line(f"date {name}", (f"{sign} {name}", *days, booked or "not booked"), look, row)


def _verdict(row: Model) -> tuple[str, str]:
    """The sign and look of a date, by the chance of the booked day."""
    chance = row["booked_chance"]
    if chance is None:
        return "·", "plain"
    if chance < EVEN:
        return "✗", "bad"
    return ("✓", "good") if chance >= LIKELY else ("!", "stale")


def date_detail(row: Model, today: str, width: int, height: int) -> list[str | tuple[str, str]]:
    """What is known of the date in hand, and the chart of how wide it is.

    Parameters
    ----------
    width: cells. height: lines there are, 7 or more.
    """
    name = row["hold_point"] or row["title"]
    title = f": {row['title']}" if row["hold_point"] else ""
    drivers = ", ".join(map(driver_words, row["drivers"]))
    driven = f"Driven by: {drivers}" if drivers else "Nothing drives it more than another"
    chart = spread_chart(row, today, width, max(2, height - BELOW - 2))
    return [
        (f"{_cut(name + title, width)}\n", "bold"),
        (f"{_cut(driven, width)}\n", "$accent"),
        "\n".join(line[:width] for line in chart),
    ]


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: max(0, width - 1)]}…"
