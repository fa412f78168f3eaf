"""Conductors of switched circuits, as published."""

from __future__ import annotations

from tests.sizing.checking import Check, equal
from tracker.sizing.switching import switching

TABLES = ("switching",)
BINARY = "exploringbinary.com on 4-way switch circuits"
GUIDE = "parts2k.com on four-way switches"
FORUM = "a car owners' forum on three-way switches, without its ground"
BUILDER = "a newspaper's builder column"


def checks() -> list[Check]:
    """All of them."""
    return [
        equal("switching", "two travellers between two switches", BINARY,
              lambda: switching(2)["travellers"], 2),
        equal("switching", "states of two switches", BINARY, lambda: switching(2)["positions"], 4),
        equal("switching", "states of three switches", BINARY,
              lambda: switching(3)["positions"], 8),
        equal("switching", "one intermediate switch for a third place", BINARY,
              lambda: switching(3)["middle_switches"], 1),
        equal("switching", "a pair of travellers between each two", BINARY,
              lambda: switching(3)["travellers"], 4),
        equal("switching", "two end switches for two places", BUILDER,
              lambda: switching(2)["end_switches"], 2),
        equal("switching", "no intermediate switch for two places", BUILDER,
              lambda: switching(2)["middle_switches"], 0),
        equal("switching", "one wire more between the switches than to them", BUILDER,
              lambda: (int(str(switching(2)["conductors_2"]))
                       - int(str(switching(2)["conductors_1"]))), 1),
        equal("switching", "two travellers and the neutral between switches", FORUM,
              lambda: switching(2)["conductors_2"], 3),
        equal("switching", "constant hot and neutral to the first switch", FORUM,
              lambda: switching(2)["conductors_1"], 2),
        equal("switching", "travellers and neutral on both sides of the crossover", GUIDE,
              lambda: (switching(3)["conductors_2"], switching(3)["conductors_3"]), (3, 3)),
        equal("switching", "one place: there and back", "common practice, no source",
              lambda: switching(1)["most_conductors"], 2),
        equal("switching", "metres for 2, 3 and 4 m with two places", "own check by hand",
              lambda: switching(2, ("2m", "3m", "4m"))["wire_m"], 2 * 2 + 3 * 3 + 4 * 2),
    ]  # fmt: skip
