"""A small build with tasks, parts and people, for tests of the day."""

from __future__ import annotations

from typing import Any

from tests.build.making import Yard, added, check, ground, run
from tracker.act import Fact
from tracker.build import stock
from tracker.plan.day import Day
from tracker.plan.readiness import Readiness


def task(slug: str, needs: str = "", likely: float = 1.0, **fields: Any) -> Fact:
    """A task before the foam; ``needs`` are names with blanks between them."""
    fields = {
        "phase": "phase:wiring",
        "hours": {"low": [likely, 0], "likely": [likely, 0], "high": [likely, 0]},
        **fields,
    }
    return added("task", slug, needs=[f"task:{need}" for need in needs.split()], **fields)


def takes(part: str, quantity: float, per: str = "once", unit: str = "each") -> dict[str, Any]:
    """A row of a task's parts."""
    return {"part": part, "per": per, "qty": quantity, "unit": unit}


def shop(*facts: Fact) -> Yard:
    """A build with a phase of wiring before the foam, and what else is said."""
    return Yard(*ground(), added("phase", "wiring", order=6), *facts)


def day(yard: Yard, *stays: float, **more: Any) -> Day:
    """A day of two people for eight hours, unless other stays are said."""
    return Day(yard.now, stays or (8.0, 8.0), **more)


def ready(yard: Yard, *stays: float, **more: Any) -> Readiness:
    """How everything stands on such a day."""
    return Readiness(yard.cover, day(yard, *stays, **more))


def reasons(found: Readiness, slug: str) -> list[tuple[str, str]]:
    """What stands in the way of a task."""
    return [reason.cause for reason in found.tasks[f"task:{slug}"].reasons]


def count(yard: Yard, part: str, place: str = "bin", **answer: Any) -> None:
    """Count a part."""
    yard.do(stock.count(yard.build, yard.item(part), place, **answer))


__all__ = [
    "Yard",
    "added",
    "check",
    "count",
    "day",
    "ready",
    "reasons",
    "run",
    "shop",
    "takes",
    "task",
]
