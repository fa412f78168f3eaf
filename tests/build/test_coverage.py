"""What a hold point covers, in which zone."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, added, check, ground, hold, run
from tracker.act import Fact
from tracker.build.coverage import WHOLE


def _covered(yard: Yard, zone: str) -> list[str]:
    key = f"zone:{zone}" if zone else WHOLE
    return [subject.slug for _, subject in yard.cover.points(yard.item("foam"), key)]


@pytest.mark.parametrize(
    ("fields", "bays"),
    [
        ({"bay": ["bay:B3", "bay:B1"]}, ["bay:B1", "bay:B3"]),
        ({"bay": "bay:B2"}, ["bay:B2"]),
        ({"face": "left", "station_m": 0.0}, ["bay:B1"]),
        ({"face": "left", "station_m": 1.0}, ["bay:B2"]),
        ({"face": "left", "station_m": 3.999}, ["bay:B4"]),
        ({"face": "left", "station_m": 4.0}, []),
        ({"face": "right", "station_m": 1.0}, []),
        ({"station_m": 1.0}, []),
        ({"bay": ["bay:B1"], "face": "left", "station_m": 3.0}, ["bay:B1"]),
        ({"bay": ["bay:gone"]}, []),
        ({}, []),
    ],
)
def test_an_item_lies_in_the_bays_it_states_else_in_the_one_at_its_station(
    fields: dict[str, Any], bays: list[str]
) -> None:
    yard = Yard(*ground(), added("hole", "H1", **fields))

    assert yard.cover.bays_of(yard.item("H1")) == bays


def test_a_run_over_two_zones_is_covered_in_both() -> None:
    yard = Yard(*ground(), check("label"), added("run", "L1", bay=["bay:B2", "bay:B3"]))

    assert _covered(yard, "A") == _covered(yard, "B") == ["L1"]


def test_a_run_in_one_zone_is_covered_there_alone() -> None:
    yard = Yard(*ground(), check("label"), run("L1", "B1"), run("L2", "B4"))

    assert (_covered(yard, "A"), _covered(yard, "B")) == (["L1"], ["L2"])
    assert _covered(yard, "") == ["L1", "L2"]


def test_an_item_nobody_has_placed_is_covered_in_every_zone() -> None:
    yard = Yard(*ground(), check("label"), run("L1"))

    assert _covered(yard, "A") == _covered(yard, "B") == ["L1"]


def test_a_bay_of_no_zone_and_what_lies_in_it_is_covered_in_every_zone() -> None:
    yard = Yard(
        *ground(),
        added("bay", "B5", face="left", station_m=4.0, to_m=5.0),
        check("label"),
        check("clean", each="bay"),
        run("L1", "B5"),
    )

    for zone in ("A", "B"):
        assert {"L1", "B5"} <= set(_covered(yard, zone))


def test_a_check_held_once_is_held_against_the_vehicle_in_every_zone() -> None:
    yard = Yard(*ground(), check("dry", each="once"))

    assert _covered(yard, "A") == _covered(yard, "B") == ["vehicle"]


def test_a_check_of_each_zone_is_held_against_that_zone_and_without_zones_the_vehicle() -> None:
    yard = Yard(*ground(), check("walk", each="zone"))
    assert (_covered(yard, "A"), _covered(yard, "B")) == (["A"], ["B"])

    for zone in ("A", "B"):
        yard.remove(zone)
    assert _covered(yard, "") == ["vehicle"]


def test_removed_items_and_checks_are_not_covered() -> None:
    yard = Yard(*ground(), check("label"), check("lead"), run("L1"), run("L2"))
    yard.remove("lead")
    yard.remove("L1")

    assert [(c.slug, s.slug) for c, s in yard.cover.points(yard.item("foam"))] == [("label", "L2")]
    assert yard.cover.keys(yard.item("foam")) == [("check:label", "run:L2")]


def test_a_hold_point_that_buries_something_is_released_zone_by_zone() -> None:
    yard = Yard(*ground(), hold("roof", buries=[]))
    assert yard.cover.zone_keys(yard.item("foam")) == ["zone:A", "zone:B"]
    assert yard.cover.zone_keys(yard.item("roof")) == [WHOLE]

    yard = Yard(hold())
    assert yard.cover.zone_keys(yard.item("foam")) == [WHOLE]


def test_hold_points_come_in_the_order_of_their_phases() -> None:
    yard = Yard(
        added("phase", "lining", order=9),
        added("phase", "insulation", order=8),
        hold("lined", phase="phase:lining"),
        hold("foam"),
        hold("somewhere", phase="phase:gone"),
    )

    assert [each.slug for each in yard.cover.holds] == ["foam", "lined", "somewhere"]


@pytest.mark.parametrize(
    ("fact", "buried"),
    [
        (run("L1"), "holdpoint:foam"),
        (run("L1", covered_by="holdpoint:lined"), "holdpoint:lined"),
        (run("L1", covered_by="none"), "none"),
        (added("appliance", "L1"), None),
        (added("appliance", "L1", covered_by="holdpoint:foam"), "holdpoint:foam"),
    ],
)
def test_an_item_is_buried_by_what_it_states_else_by_the_first_that_buries_its_kind(
    fact: Fact, buried: str | None
) -> None:
    later = hold("lined", phase="phase:lining")
    yard = Yard(*ground(), added("phase", "lining", order=9), later, fact)

    assert yard.cover.buried_at(yard.item("L1")) == buried


def test_what_states_that_a_hold_point_buries_it_is_covered_whatever_its_kind() -> None:
    yard = Yard(
        *ground(),
        run("L1", "B1"),
        run("L2", "B3"),
        run("L3", "B1", covered_by="none"),
        added("appliance", "E1", covered_by="holdpoint:foam"),
    )

    found = yard.cover.covered_items(yard.item("foam"), "zone:A")

    assert [each.slug for each in found] == ["L1", "E1"]
