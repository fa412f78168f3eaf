"""How wide a date is, drawn with characters alone: the chance to be done by each day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from tracker.app.views.words.dates import near_day

Row = Mapping[str, Any]

BARS = " ▁▂▃▄▅▆▇█"
MOST_CELLS_A_DAY = 8
AXIS_CELLS = 5
"""Cells left of the bars: the number of chances, a space and the axis."""
BOOKED = "booked"


def spread_chart(row: Row, today: str, width: int, height: int) -> list[str]:
    """The chance in 100 that all is done by each day, rising from left to right.

    Below it stand the days with 50, 80 and 95 chances and the booked one, then the first and the
    last day drawn.

    Parameters
    ----------
    row: one of the dates of ``dates_view``.
    today: ISO date.
    width: cells, 24 or more. height: lines of bars, 2 or more; three more stand below them.
    """
    spread = [(chances, date.fromisoformat(day)) for chances, day in row["spread"]]
    booked = date.fromisoformat(row["booked"]) if row["booked"] else None
    shown = [day for _, day in spread] + ([booked] if booked else [])
    first, last = min(shown), max(shown)
    days = (last - first).days + 1
    room = max(1, width - AXIS_CELLS)
    cells = days * min(MOST_CELLS_A_DAY, room // days) if days <= room else room

    def cell(day: date) -> int:
        return (day - first).days * cells // days

    by = [
        _by(spread, first + timedelta(days=((number + 1) * days - 1) // cells))
        for number in range(cells)
    ]
    marks = [(cell(date.fromisoformat(row[f"chances_{n}"])), str(n)) for n in (50, 80, 95)]
    marks += [(cell(booked), BOOKED)] if booked else []
    ticks = {at for at, _ in marks}
    axis = "".join("┴" if number in ticks else "─" for number in range(cells))
    ends = near_day(first.isoformat(), today), near_day(last.isoformat(), today)
    gap = max(1, cells - len(ends[0]) - len(ends[1]))
    return [
        *_bars(by, height),
        f"  0 └{axis}",
        " " * AXIS_CELLS + _labels(sorted(marks), room),
        " " * AXIS_CELLS + (f"{ends[0]}{' ' * gap}{ends[1]}" if days > 1 else ends[0]),
    ]


def _by(spread: Sequence[tuple[int, date]], day: date) -> int:
    """At least so many chances in 100 that it is done by a day."""
    return max((chances for chances, then in spread if then <= day), default=0)


def _bars(by: Sequence[int], height: int) -> list[str]:
    """The bars, the top line first; the axis tells 100 and 50."""
    steps = len(BARS) - 1
    lines = []
    for level in reversed(range(height)):
        full = [round(chances / 100 * height * steps) - level * steps for chances in by]
        bar = "".join(BARS[min(steps, max(0, eighths))] for eighths in full)
        number = {height - 1: "100", (height - 1) // 2: " 50"}.get(level, "   ")
        lines.append(f"{number} │{bar}")
    return lines


def _labels(marks: Sequence[tuple[int, str]], room: int) -> str:
    """Each label below its mark, or as near to the right of it as there is room."""
    line = ""
    for at, label in marks:
        start = max(at, len(line) + 1 if line else 0)
        line = line.ljust(start) + label
    if len(line) <= room:
        return line
    told = " ".join(label for _, label in marks)
    return told.rjust(room)[-room:]
