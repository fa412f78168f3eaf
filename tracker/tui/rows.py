"""From view models to the lines of the lists."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from tracker.app.views.parts import amount_words, coming_words, where_words
from tracker.tui.columns import Column, Line
from tracker.tui.marks import mark

SETTLED = ("good", "waived", "na")

CHECK_COLUMNS = (
    Column("state", 10),
    Column("check", 26),
    Column("subject", 13),
    Column("how", 13),
    Column("limit, or found"),
)
PART_COLUMNS = (
    Column("state", 9),
    Column("part", 20),
    Column("on hand", 9),
    Column("needed", 8, from_width=54),
    Column("where", from_width=54),
    Column("to come", from_width=70),
)
BLOCKER_COLUMNS = (
    Column("kind", 13),
    Column("what is in the way"),
    Column("owes", 10, from_width=54),
    Column("expected", 10),
    Column("stops", from_width=70),
)
INBOX_COLUMNS = (Column("when", 11), Column("by", 10), Column("what was said"))
LOG_COLUMNS = (Column("at", 5), Column("by", 8), Column("what"))
PART_SIGNS = {
    "out": ("✗ out", "bad"),
    "short": ("✗ short", "bad"),
    "low": ("! low", "stale"),
    "unknown": ("? unknown", "quiet"),
}
"""For each state of a part its sign and word, and how it looks; any other is enough."""


def holds_words(cells: Sequence[str], words: str) -> bool:
    """Does a line hold all words of a filter, in any order and case?"""
    text = " ".join(cells).casefold()
    return all(word in text for word in words.casefold().split())


def check_lines(places: Sequence[dict[str, Any]], words: str, only_open: bool) -> list[Line]:
    """The checks by place, each place under its heading."""
    lines: list[Line] = []
    for place in places:
        found = [
            line
            for row in place["points"]
            if not (only_open and row["state"] in SETTLED)
            and holds_words((*(line := check_line(row)).cells, row["text"], place["name"]), words)
        ]
        if found:
            lines += [Line("", (place_heading(place),), "heading"), *found]
    return lines


def place_heading(place: dict[str, Any]) -> str:
    """A place in words, such as ' B3  left 1.2 to 1.8 m  5 open of 12'."""
    total = len(place["points"])
    number = f"{place['open']} open of {total}" if place["open"] else f"all {total} settled"
    where = f"  {place['where']}" if place["where"] else ""
    return f" {place['name']}{where}  {number}"


def check_line(row: dict[str, Any]) -> Line:
    """One check of one subject."""
    state = row["state"]
    if state in ("stale", "conflict"):
        found = row["because"] or row["was"] or ""
    elif state == "open":
        found = row["limit"] or row["because"] or ""
    else:
        found = (row["was"] or "").partition(" ")[2]  # the state says the result already
    how = "measure" if row["measured"] else row["how"] or ""
    cells = (mark(state), row["check"], row["subject"], how, found)
    return Line(f"{row['check']} {row['subject']}", cells, state, row)


def part_lines(parts: Sequence[dict[str, Any]], words: str) -> list[Line]:
    """The parts, as the view model orders them."""
    return [line for row in parts if holds_words((line := part_line(row)).cells, words)]


def part_line(row: dict[str, Any]) -> Line:
    """One part."""
    unit, have = row["unit"], row["on_hand"]
    state = str(have) if have in ("out", "low", "unknown") else "short" if row["short"] else ""
    sign, look = PART_SIGNS.get(state, ("✓ enough", "good"))
    cells = (
        sign,
        row["part"],
        amount_words(have, unit),
        amount_words(row["needed"], unit) if row["needed"] is not None else "",
        where_words(row),
        coming_words(row),
    )
    return Line(row["part"], cells, look, row)


def blocker_lines(blockers: Sequence[dict[str, Any]], words: str) -> list[Line]:
    """The uncleared blockers; those that stop the hold point shown come first."""
    lines = []
    for row in blockers:
        sign = "✗" if row["stops_this"] else "·"
        cells = (
            f"{sign} {row['kind'] or ''}",
            row["text"],
            row["owes"] or "",
            row["expected"] or "",
            ", ".join(row["stops"]),
        )
        if holds_words((*cells, row["slug"]), words):
            look = "bad" if row["stops_this"] else "plain"
            lines.append(Line(row["slug"], cells, look, row))
    return lines


def log_lines(acts: Sequence[dict[str, Any]], words: str) -> list[Line]:
    """The log by day, as it is given; what was undone says so."""
    lines: list[Line] = []
    day = ""
    for row in acts:
        for number, said in enumerate(row["words"]):
            undone = "undone: " if row["undone"] and not number else ""
            cells = (
                row["when"][11:16] if not number else "",
                row["by"] if not number else "",
                undone + said,
            )
            if not holds_words((*cells, row["by"], row["when"][:10]), words):
                continue
            if row["when"][:10] != day:
                day = row["when"][:10]
                lines.append(Line("", (f" {day_words(day)}",), "heading"))
            look = "quiet" if row["undone"] else "plain"
            lines.append(Line(f"{row['id']}/{number}", cells, look, row))
    return lines


def inbox_lines(rows: Sequence[dict[str, Any]], words: str) -> list[Line]:
    """The lines that wait to be sorted, oldest first."""
    lines = []
    for row in rows:
        cells = (row["when"][5:16].replace("T", " "), row["by"], row["text"])
        if holds_words(cells, words):
            lines.append(Line(row["ref"], cells, "plain", row))
    return lines


def day_words(day: str) -> str:
    """A day as people read it, such as 'Wed 25 Nov 2026'."""
    return date.fromisoformat(day).strftime("%a %d %b %Y")
