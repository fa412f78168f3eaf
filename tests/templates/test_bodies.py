"""What falls away for a vehicle that does not have it."""

from __future__ import annotations

import re

import pytest

from tracker.act import Act
from tracker.build import item
from tracker.build.coverage import Coverage
from tracker.build.fold import fold
from tracker.build.item import Item
from tracker.templates.facts import facts_of
from tracker.templates.load import read, shipped

ONLY_METAL = {"rib", "ribs", "bow", "bows", "rust", "rusty", "rusted", "galvanised"}
ONLY_DRIVEN = {"engine", "starter"}


def adopted(**known: object) -> Coverage:
    """A build of every shipped template, of which no more than this is known."""
    vehicle = item.add("vehicle", "vehicle", known, "vehicle")
    facts = (vehicle, *(facts_of(read(name)) for name in shipped()))
    act = Act("000000000001-aaaaaaaa-1", "2027-03-01T08:00:00+00:00", "Ida", facts)
    return Coverage(fold([act]))


def asked(cover: Coverage) -> list[Item]:
    return [*cover.by_kind["check"], *cover.by_kind["task"]]


def saying(cover: Coverage, words: set[str]) -> list[str]:
    return [
        one.slug for one in asked(cover) if words & set(re.findall(r"\w+", one.title.casefold()))
    ]


def test_a_sandwich_panel_trailer_is_asked_nothing_of_ribs_rust_or_an_engine() -> None:
    bus, trailer = adopted(body="bus"), adopted(body="sandwich panel", engine=False, gas=False)

    assert saying(bus, ONLY_METAL) != [] and saying(bus, ONLY_DRIVEN) != []
    assert saying(trailer, ONLY_METAL) == []
    assert saying(trailer, ONLY_DRIVEN) == []
    gone = {one.slug for one in asked(bus)} - {one.slug for one in asked(trailer)}
    assert {"rust-graded", "structure-sound", "thermal-break", "tape-bows", "foot-on-bow"} <= gone
    assert {"still-starts", "close-coolant", "gas-gauge", "run-gas"} <= gone
    assert {"rot-graded", "mend-core"} <= {one.slug for one in asked(trailer)}
    assert {"rot-graded", "mend-core"}.isdisjoint(one.slug for one in asked(bus))


@pytest.mark.parametrize("body", ["trailer", "sandwich panel", "wood stud", "bus"])
def test_every_hold_point_of_every_body_still_has_something_to_hold(body: str) -> None:
    cover = adopted(body=body)
    assert [hold.slug for hold in cover.holds if not cover.checks(hold)] == []


def test_a_trailer_has_no_engine_even_where_nobody_said_so() -> None:
    slugs = {one.slug for one in asked(adopted(body="trailer"))}
    assert "still-starts" not in slugs and "road-lights" in slugs and "rust-graded" in slugs


def test_while_nothing_is_known_of_the_vehicle_everything_is_asked() -> None:
    cover = adopted()
    phases = [read(name) for name in shipped()]
    assert len(cover.by_kind["check"]) == sum(len(phase.checks) for phase in phases)
    assert len(cover.by_kind["task"]) == sum(len(phase.tasks) for phase in phases)


def test_no_chain_of_needs_breaks_where_a_task_falls_away() -> None:
    cover = adopted(body="sandwich panel", engine=False, gas=False)
    tasks = {task.id: task for task in cover.by_kind["task"]}
    for task in tasks.values():
        assert [need for need in cover.needs(task) if need not in tasks] == [], task.slug

    def before(identifier: str) -> set[str]:
        found: set[str] = set()
        todo = [identifier]
        while todo:
            for need in cover.needs(tasks[todo.pop()]):
                if need not in found:
                    found.add(need)
                    todo.append(need)
        return found

    assert "task:strip-out/wash-shell" in before("task:subfloor/bed-board")
    assert "task:shell/plug-holes" in before("task:subfloor/dry-shell")
