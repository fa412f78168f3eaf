"""A few items to tell things of, and one act that tells them."""

from __future__ import annotations

from typing import Any

from tracker.act import Act, act_id
from tracker.app.views.words.acts import Words
from tracker.build.fold import fold
from tracker.build.item import add
from tracker.build.names import Names

AT = "2027-03-02T14:30:00+01:00"
LIMIT = {"min": 0.35, "unit": "m"}


def act(number: int, *facts: dict[str, Any], by: str = "Ida") -> Act:
    """An act, numbered in the order of doing."""
    return Act(act_id(1000 + number, "aaaabbbb", number), AT, by, tuple(facts))


SCENE = act(
    1,
    add("vehicle", "vehicle", {"length_m": 7.6}, "vehicle"),
    add("bay", "B1", {}, "bay1"),
    add("zone", "port", {"bay": ["bay1"]}, "zone1"),
    *(add("run", f"L{number}", {"bay": ["bay1"]}, f"run{number}") for number in range(1, 6)),
    add("holdpoint", "pre-foam", {"buries": ["run"]}, "hold1"),
    add("check", "label", {"each": "run", "before": "hold1"}, "check1"),
    add("check", "lead", {"each": "run", "before": "hold1", "limit": LIMIT}, "check2"),
    add("task", "mask", {}, "task1"),
    add("part", "spool", {"unit": "m"}, "part1"),
    add("blocker", "crew", {"title": "ill"}, "stuck1"),
)


def told(*facts: dict[str, Any], by: str = "Ida") -> list[str]:
    """What an act of these facts says, done after the scene."""
    said = act(2, *facts, by=by)
    build = fold([SCENE, said])
    return Words(build, Names(build)).act(said)


def answer(subject: str, result: str, check: str = "check1", **more: Any) -> dict[str, Any]:
    return {
        "f": "point.answered", "check": check, "subject": subject, "result": result, **more,
    }  # fmt: skip
