"""From the buy list to its lines, what must be ordered today on top."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tracker.app.views.words.buying import (
    cost_words,
    late_words,
    quantity_words,
    total_words,
    when_words,
    why_words,
)
from tracker.app.views.words.dates import near_day
from tracker.tui.columns import Column, Line
from tracker.tui.rows import holds_words as fits

Model = dict[str, Any]

BUY_COLUMNS = (
    Column("order by", 9),
    Column("part", 18),
    Column("buy"),
    Column("cost", 9, from_width=54),
    Column("from", 18, from_width=70),
)
BUYING = "buying"
"""The buy list, which takes the place of the parts while it is shown."""
NOBODY = "no supplier named"


def buy_lines(view: Model | None, words: str, stale: bool = False) -> list[Line]:
    """What to order today, then each supplier, then what comes late or has to be counted.

    Parameters
    ----------
    stale: did something change since, so that another list is on its way?
    """
    if view is None:
        return []
    today = view["date"]
    buying = [
        (f"{group['supplier'] or NOBODY}: {total_words(group)}", "buy", group["parts"])
        for group in view["suppliers"]
    ]
    sections: list[tuple[str, list[Line]]] = [
        ("Order today", [_buy("today", row, today) for row in view["order_today"]]),
        *((title, [_buy(kind, row, today) for row in rows]) for title, kind, rows in buying),
        ("On order, but late", [_late(row, today) for row in view["late"]]),
        ("Count these first", [_count(row) for row in view["count_first"]]),
        ("Taken by tasks, but no parts of this build", [_none(name) for name in view["no_part"]]),
    ]
    old = " Reckoning... this list is from before the last change"
    lines = [Line("", (old,), "heading")] if stale else []
    for title, rows in sections:
        found = [line for line in rows if fits((*line.cells, *line.row["said"]), words)]
        if found:
            lines += [Line("", (f" {title}",), "heading"), *found]
    return lines


def buying_told(view: Model | None, stale: bool) -> tuple[str, str]:
    """What the line of views says while the buy list is shown, at length and in short."""
    if stale or view is None:
        return "to buy, reckoning", "to buy"
    today = len(view["order_today"])
    return (f"to buy, {today} today" if today else "to buy"), "to buy"


def _line(kind: str, part: str, cells: Sequence[str], look: str, *said: str) -> Line:
    return Line(f"{kind} {part}", tuple(cells), look, {"part": part, "said": list(said)})


def _buy(kind: str, row: Model, today: str) -> Line:
    supplier = row["supplier"] or NOBODY
    if row["order_now"]:
        when, look = "! today", "bad"
    elif row["order_by"]:
        when, look = f"· {near_day(row['order_by'], today)}", "plain"
    else:
        when, look = "· no day", "quiet"
    cells = (when, row["part"], quantity_words(row), cost_words(row), supplier)
    said = f"{row['part']}: {quantity_words(row)}, {cost_words(row)}, {supplier}"
    return _line(kind, row["part"], cells, look, said, f"{why_words(row)}\n{when_words(row)}")


def _late(row: Model, today: str) -> Line:
    told = late_words(row, today)
    text = told.removeprefix(f"{row['part']}: ")
    return _line("late", row["part"], ("! late", row["part"], text), "stale", told)


def _count(row: Model) -> Line:
    level = "low" if row["level"] == "low" else "not counted"
    why = why_words(row)
    cells = ("? count", row["part"], f"{level}; {why}")
    return _line("count", row["part"], cells, "stale", f"{row['part']}: {level}", why)


def _none(name: str) -> Line:
    cells = ("? add", name, "'closein part add' adds it")
    return _line("none", name, cells, "quiet", f"{name} is no part of this build")
