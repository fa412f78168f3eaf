"""One small state of a build to decide wants on, and a stand-in for the session that asks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from tracker.act import Act, act_id
from tracker.app.session import Reservation
from tracker.build.fold import fold
from tracker.build.item import add
from tracker.build.state import Build

NOW = datetime.fromisoformat("2027-03-02T14:30:00+01:00")
LIMIT = {"min": 0.35, "unit": "m"}


def check(key: str, each: str, how: str = "look", **more: Any) -> dict[str, Any]:
    """The fact that adds a check before the hold point."""
    fields = {"class": "hold", "each": each, "before": "hold", "how": how, **more}
    return add("check", key, fields, f"check-{key}")


FACTS = (
    add("vehicle", "vehicle", {"length_m": 7.6}, "vehicle"),
    add("bay", "B1", {}, "bay1"),
    add("bay", "B2", {}, "bay2"),
    add("zone", "port", {"bay": ["bay1"]}, "port"),
    add("zone", "roof", {"bay": ["bay2"]}, "roof"),
    add("run", "L1", {"bay": ["bay1"], "length_m": 5.0}, "run1"),
    add("run", "L2", {"bay": ["bay1"]}, "run2"),
    add("run", "L3", {"bay": ["bay2"]}, "run3"),
    add("holdpoint", "pre-foam", {"buries": ["run"], "closed_by": "task"}, "hold"),
    add("holdpoint", "road", {}, "road"),
    add("task", "mask", {}, "task"),
    check("label", "run", say="tag"),
    check("lead", "run", "measure", limit=LIMIT),
    check("moisture", "once", "measure", limit={"max": 20.0, "unit": "%"}),
    check("gas", "once", "air", waive=False),
    check("dry", "zone"),
)


def acts(*more: tuple[str, dict[str, Any]]) -> list[Act]:
    """The scene as an act, then one act for each (name, fact)."""
    at = "2027-03-01T10:00:00+01:00"
    made = [Act(act_id(1000, "aaaabbbb", 1), at, "Ida", FACTS)]
    for number, (by, fact) in enumerate(more, 2):
        made.append(Act(act_id(1000 + number, "aaaabbbb", number), at, by, (fact,)))
    return made


def scene(*more: tuple[str, dict[str, Any]]) -> Build:
    """The state after the scene and one act for each (name, fact)."""
    return fold(acts(*more))


@dataclass
class Asking:
    """What a want asks a session for: the time, and what stands against a release."""

    reservations: tuple[Reservation, ...] = ()

    def now(self) -> datetime:
        return NOW
