"""From the plan of the day to the lines of its list, and what is told of the one in hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tracker.app.views.words.today import (
    SHOWN,
    clock,
    day_words,
    hands_words,
    holds_words,
    level_words,
    load_words,
    slot_notes,
)
from tracker.tui.columns import Column, Line
from tracker.tui.rows import day_words as date_words
from tracker.tui.rows import holds_words as fits

Model = dict[str, Any]

TODAY_COLUMNS = (
    Column("when, why", 11),
    Column("what", 20),
    Column("with", 9),
    Column("in words"),
)
TIMES = "times run from the start of the day, with 15 min to set up and pack away"
CAUSES = {
    "part": "✗ part",
    "blocked": "✗ blocked",
    "hold": "◈ held",
    "cure": "… curing",
    "people": "! people",
    "skill": "! skill",
    "tool": "! tool",
    "power": "! power",
    "dry": "! wet",
    "cold": "! cold",
    "dark": "! dark",
    "closed": "■ closed",
}
"""For each kind of cause its sign and word."""


def today_lines(view: Model | None, words: str) -> list[Line]:
    """The plan first, then what to bring, and what is not possible, what holds up most first."""
    if view is None:
        return []
    lines: list[Line] = []
    for title, rows in (
        (_plan_title(view), [_slot(row, "plan") for row in view["plan"]]),
        ("Ready too, but no room for it today", [_slot(r, "more") for r in view["runners_up"]]),
        ("Bring", [*map(_load, view["load"]), *_tools(view["tools"])]),
        ("Look before you rely on it", [*map(_doubt, view["not_counted"]), *_robs(view["robs"])]),
        ("Not possible, what holds up most first", [*map(_cause, view["not_possible"])]),
        ("Waiting for other work alone", [*map(_waits, view["waiting"])]),
    ):
        found = [row for row in rows if fits((*row.cells, *row.row["said"]), words)]
        if found or (title == _plan_title(view) and not words):
            lines += [Line("", (f" {title}",), "heading"), *found]
    return lines


def today_told(view: Model | None) -> tuple[str, str]:
    """What the line of views says of the day, at length and in short."""
    if view is None:
        return "", ""
    many = len(view["plan"])
    return f"{many} to do", str(many)


def day_line(view: Model) -> str:
    """The day the plan is for, in words."""
    as_on = f"; what was not said is as on {view['day']['as_on']}" if view["day"]["as_on"] else ""
    return f"{date_words(view['date'])}: {day_words(view['day'])}{as_on}"


def _plan_title(view: Model) -> str:
    if not view["plan"]:
        return "Nothing can be done with these people today"
    crew = view["day"]["crew_hours"]
    return f"Do, {view['used']:g} of {crew:g} crew-hours: {day_words(view['day'])}"


def _line(kind: str, cells: Sequence[str], said: Sequence[str], look: str, **row: Any) -> Line:
    """One line; ``said`` is what is told of it in full, the first in bold."""
    return Line(f"{kind} {cells[1]} {cells[2]}", tuple(cells), look, {**row, "said": list(said)})


def _slot(row: Model, kind: str) -> Line:
    notes = slot_notes(row)
    when = f"{clock(row['start_h'])}-{clock(row['end_h'])}"
    long = f"{row['hours']:.1f} h"
    cells = (
        when if kind == "plan" else long,
        row["task"],
        hands_words(row["people"]),
        "; ".join([row["title"], *notes]),
    )
    said = (f"{row['task']}: {row['title']}", "; ".join(notes), TIMES if kind == "plan" else "")
    return _line(kind, cells, said, "plain" if kind == "plan" else "quiet", task=row["task"])


def _load(row: Model) -> Line:
    text = f"from {row['place']}, for {', '.join(row['tasks'])}"
    said = (f"bring {load_words(row)} {row['part']}", text)
    return _line(
        "load", ("bring", row["part"], load_words(row), text), said, "plain", part=row["part"]
    )


def _tools(rows: Sequence[Model]) -> list[Line]:
    """All tools on one line; what each is for is told in full."""
    if not rows:
        return []
    cells = ("tools", f"{len(rows)} of them", "", ", ".join(row["tool"] for row in rows))
    each = "; ".join(f"{row['tool']} for {', '.join(row['tasks'])}" for row in rows)
    return [_line("tools", cells, ("Tools of the tasks above", each), "plain")]


def _doubt(row: Model) -> Line:
    said = level_words(row["level"])
    cells = ("? count it", row["part"], "", f"{said}: {', '.join(row['tasks'])}")
    full = (f"{row['part']} {said}", f"for {', '.join(row['tasks'])}")
    return _line("doubt", cells, full, "stale", part=row["part"])


def _robs(rows: Sequence[Model]) -> list[Line]:
    return [
        _line(
            "robs",
            ("! takes", row["task"], "", f"takes what {', '.join(row['robs'])} lacks then"),
            (f"{row['task']} takes what {', '.join(row['robs'])} lacks then",),
            "stale",
            task=row["task"],
        )
        for row in rows
    ]


def _cause(row: Model) -> Line:
    sign = CAUSES.get(row["kind"], f"✗ {row['kind']}")
    run = row["shop_run"]
    trip = (
        "a shop run costs about {costs:g} crew-hours and frees {frees:g}".format(**run)
        if run
        else ""
    )
    cells = (sign, row["cause"] or row["kind"], f"{row['crew_hours']:g} h", row["words"])
    said = (row["words"], holds_words(row), trip)
    look = "bad" if row["next_hold"] else "stale"
    return _line(f"cause {row['kind']}", cells, said, look)


def _waits(row: Model) -> Line:
    after = row["for"][:SHOWN]
    more = f" and {len(row['for']) - SHOWN} more" if len(row["for"]) > SHOWN else ""
    text = f"after {', '.join(after)}{more}"
    near = "it is needed for the next hold point" if row["next_hold"] else ""
    said = (f"{row['task']} waits", text, near)
    return _line("waits", ("… waits", row["task"], "", text), said, "quiet", task=row["task"])
