"""Acts for the measurements: a build of the size of a long conversion, always the same."""

from __future__ import annotations

from random import Random
from typing import Any

from tracker.act import Act, act_id
from tracker.build import fold as folding

WRITERS = ("aaaaaaaa", "bbbbbbbb", "cccccccc")
BEGAN_MS = 1_700_000_000_000
RUNS, PARTS, TASKS, CHECKS = 400, 80, 60, 60


def _ground() -> list[dict[str, Any]]:
    """The facts that add every item the later acts speak of."""
    kinds = [("run", RUNS), ("part", PARTS), ("task", TASKS), ("check", CHECKS)]
    return [
        {
            "f": "item.added",
            "id": f"{kind}:{number}",
            "kind": kind,
            "slug": f"{kind}{number}",
            "fields": {"title": f"{kind} number {number}", "note": "as measured on the day"},
        }
        for kind, count in kinds
        for number in range(count)
    ]


def _daily(random: Random) -> dict[str, Any]:
    """One fact of a working day; the shares are those of a build with many checks."""
    kind = random.choices(("answer", "move", "work", "set", "note"), (60, 12, 8, 12, 8))[0]
    if kind == "answer":
        return {
            "f": "point.answered",
            "check": f"check:{random.randrange(CHECKS)}",
            "subject": f"run:{random.randrange(RUNS)}",
            "result": "good",
            "saw": {"length_m": 4.2, "to": "lamp over the bench"},
        }
    if kind == "move":
        part = f"part:{random.randrange(PARTS)}"
        return {
            "f": "stock.moved",
            "part": part,
            "place": "shelf 2",
            "quantity": -1.0,
            "why": "use",
        }
    if kind == "work":
        task = f"task:{random.randrange(TASKS)}"
        return {"f": "task.worked", "task": task, "fraction": 0.5, "hours": 1.5, "next": "clips"}
    if kind == "set":
        run = f"run:{random.randrange(RUNS)}"
        return {"f": "item.set", "id": run, "set": {"length_m": random.randrange(10, 90) / 10}}
    return {"f": "note.written", "text": "moved the ladder; the second bay is dry again", "on": []}


def many_acts(count: int) -> list[Act]:
    """``count`` acts by three writers; the first holds the whole import, the others a fact each."""
    random = Random(20)
    facts: list[tuple[dict[str, Any], ...]] = [tuple(_ground())]
    facts += [(_daily(random),) for _ in range(count - 1)]
    return [
        Act(
            act_id(BEGAN_MS + 60_000 * number, WRITERS[number % 3], number // 3 + 1),
            "2026-03-14T09:26:53+01:00",
            "Mara Lindqvist",
            said,
        )
        for number, said in enumerate(facts)
    ]


def unread(acts: list[Act]) -> int:
    """How many of the acts' facts the build could not take: 0, or the measurement is worthless."""
    build = folding.fold(acts)
    return len(build.unknown) + sum(len(waiting) for waiting in build.orphans.values())
