"""The pages that ``closein part cuts`` and ``closein part buy`` print."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tracker.app.views.words.buying import (
    cost_words,
    late_words,
    quantity_words,
    total_words,
    when_words,
    why_words,
)
from tracker.app.views.words.cuts import bar_words, plan_notes
from tracker.cli.desk import Desk

Row = Mapping[str, Any]


def print_cuts(desk: Desk, rows: Sequence[Row]) -> None:
    """Each part, its spools, and what is short."""
    if not rows:
        desk.say("nothing is to be cut: no open run takes a length of wire that somebody stated")
    for number, row in enumerate(rows):
        if number:
            desk.say()
        desk.wrapped(row["part"], head=True)
        for bar in row["cuts"]:
            desk.wrapped(bar_words(bar), indent="    ", first="  ")
        for note in plan_notes(row):
            desk.wrapped(note, indent="    ", first="  ")


def print_buying(desk: Desk, view: Row) -> None:
    """What must be ordered today, then each supplier, then what is late or has to be counted."""
    if view["order_today"]:
        desk.wrapped(f"order today, {view['date']}", head=True)
        for row in view["order_today"]:
            supplier = row["supplier"] or "no supplier named"
            desk.wrapped(
                f"{row['part']}: {quantity_words(row)}, {supplier}; {when_words(row)}",
                indent="    ",
                first="  ",
            )
    for group in view["suppliers"]:
        _gap(desk, view, group)
        name = group["supplier"] or "no supplier named"
        desk.wrapped(f"{name}: {total_words(group)}", head=True)
        for row in group["parts"]:
            mark = "today: " if row["order_now"] else ""
            desk.wrapped(
                f"{mark}{row['part']}: {quantity_words(row)}, {cost_words(row)}; "
                f"{why_words(row)}; {when_words(row)}",
                indent="    ",
                first="  ",
            )
    if view["suppliers"]:
        desk.say()
        desk.say(f"all together: {total_words(view)}")
    else:
        desk.say("nothing is to be bought")
    _section(desk, "on order, but late", [late_words(row, view["date"]) for row in view["late"]])
    counting = [
        f"{row['part']}: {'low' if row['level'] == 'low' else 'not counted'}; {why_words(row)}"
        for row in view["count_first"]
    ]
    _section(desk, "to be counted first: 'closein part count PART N --at PLACE'", counting)
    if view["no_part"]:
        _section(
            desk,
            "taken by tasks, but no parts of this build: 'closein part add NAME' adds one",
            [", ".join(view["no_part"])],
        )


def _gap(desk: Desk, view: Row, group: Row) -> None:
    if view["order_today"] or group is not view["suppliers"][0]:
        desk.say()


def _section(desk: Desk, title: str, texts: Sequence[str]) -> None:
    if not texts:
        return
    desk.say()
    desk.wrapped(title, head=True)
    for text in texts:
        desk.wrapped(text, indent="    ", first="  ")
