"""``closein size HELPER --from-build``: what a build gives, and what could not be counted."""

from __future__ import annotations

import json
import shlex
from typing import Any

import pytest

from tests.cli.yard import Yard
from tracker.app.views.gathered import GATHERED
from tracker.cli.size_from_build import OFFERED
from tracker.sizing.spec import HELPERS, helper

WEIGHED = "state=stripped weighed=2027-02-01 front=1900kg rear=2400kg"


@pytest.fixture
def rolling(yard: Yard) -> Yard:
    """The yard with axles, a first weighing, a few things aboard, loads and sizes of bays."""
    add, change = ("item", "add"), ("item", "change")
    yard.saved(*change, "vehicle", "front_axle_station=1m", "rear_axle_station=5m", "width=2.2m",
               "gross_rating=5500kg")  # fmt: skip
    yard.saved(*add, "weigh-slip", "S1", *WEIGHED.split())
    yard.saved(*add, "appliance", "stove", "mass=40kg", "station=3m", "face=left", "on_hand=yes")
    yard.saved(*add, "appliance", "fridge", "mass=30kg", "station=5m", "face=right")
    yard.saved(*add, "appliance", "lathe", "station=5m")
    yard.saved(*change, "L1", "load=0.8A", "volts=12V", "hours=5h", "to=reading lamp")
    yard.saved(*change, "L2", "load=2A", "volts=12V")
    yard.saved(*change, "B1,B2", "station=0m", "to=1.5m", "height=2m", "foam=50mm")
    yard.saved(*change, "B3", "station=0m", "to=2m", "foam=75mm")
    return yard


def _json(yard: Yard, *words: str) -> dict[str, Any]:
    said = yard.run("size", *words, "--from-build", "--json")
    assert said.status == 0, said
    found: dict[str, Any] = json.loads(said.out)
    return found


def test_weight_is_counted_as_it_stands_and_as_planned(rolling: Yard) -> None:
    said = _json(rolling, "weight")

    assert (said["now_front_kg"], said["now_rear_kg"]) == (1920, 2420)
    assert (said["planned_front_kg"], said["planned_rear_kg"]) == (1920, 2450)
    assert said["gross_margin_kg"] == 5500 - 4370
    assert said["from_build"]["not_counted"] == [{"name": "lathe", "why": "no mass"}]


def test_it_says_how_far_the_estimate_is_off_the_last_weigh_slip(rolling: Yard) -> None:
    rolling.saved("item", "add", "weigh-slip", "S2", "state=closed in", "weighed=2027-03-01",
                  "total=4400kg", "front=1930kg", "aboard=two people")  # fmt: skip

    said = _json(rolling, "weight")

    assert said["slip_front_off_kg"] == 10
    assert said["slip_rear_off_kg"] == 50
    assert said["slip_off_percent"] == pytest.approx(100 * 60 / 4340)
    notes = " ".join(said["from_build"]["notes"])
    assert "held against weigh slip S2 (2027-03-01, closed in); aboard then: two people" in notes
    assert "60 kg more in all" in rolling.run("size", "weight", "--from-build").out


def test_what_is_typed_goes_before_the_build_or_is_added_to_it(rolling: Yard) -> None:
    more = ("--rear", "2500kg", "--planned", "driver 80kg 1m")

    said = _json(rolling, "weight", *more)

    assert said["now_rear_kg"] == 2520
    assert said["planned_front_kg"] == 2000


def test_the_loads_of_a_day_come_from_the_runs_and_unknown_hours_are_named(rolling: Yard) -> None:
    said = _json(rolling, "energy")

    assert said["day_wh"] == pytest.approx(0.8 * 12 * 5)
    missing = {row["name"]: row["why"] for row in said["from_build"]["not_counted"]}
    assert missing["L2"] == "hours a day unknown"
    assert missing["L3"] == "current, voltage, hours a day unknown"


def test_foam_comes_from_the_bays_each_with_its_depth(rolling: Yard) -> None:
    said = _json(rolling, "foam")

    assert said["net_area_m2"] == pytest.approx(2 * 1.5 * 2 + 2 * 2.2)
    assert said["foam_l"] == pytest.approx(6 * 50 + 4.4 * 75)


def test_foam_of_one_zone_is_that_of_its_bays(rolling: Yard) -> None:
    assert _json(rolling, "foam", "--zone", "roof")["foam_l"] == pytest.approx(330)


def test_people_read_what_was_counted_and_what_was_not(rolling: Yard) -> None:
    said = rolling.run("size", "weight", "--from-build").out

    assert "from the build: 2 counted, 1 not" in said
    assert "not counted, no mass: lathe" in said
    assert "note: begun from weigh slip S1 (2027-02-01, stripped)" in said


def test_kits_are_written_into_a_part_with_what_they_were_counted_from(rolling: Yard) -> None:
    rolling.saved("item", "add", "part", "foam-kit", "unit=each")

    rolling.saved("size", "foam", "--from-build", "--kit", "100bdft", "--to", "foam-kit")

    part = rolling.session.names.find("foam-kit").fields
    assert part["needed"] == 3
    assert part["sized"]["inputs"]["area_m2"] == ["6m2", "4.4m2"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("weight",), "where the axles are is unknown"),
        (("energy",), "no run has its load_a, volts_v and hours_h known"),
        (("foam",), "no bay has its size and foam_m known"),
        (("foam", "--zone", "attic"), "attic"),
    ],
)
def test_a_build_that_says_too_little_is_told_what_to_add(
    yard: Yard, words: tuple[str, ...], said: str
) -> None:
    assert said in yard.refused("size", *words, "--from-build")


def test_a_zone_without_the_build_is_refused(yard: Yard) -> None:
    said = yard.refused("size", "foam", "--area", "1m2", "--thick", "50mm", "--zone", "roof")

    assert "--zone goes with --from-build" in said


def test_other_helpers_take_nothing_from_a_build(yard: Yard) -> None:
    assert "no option" in yard.refused("size", "wall", "--from-build")
    assert set(OFFERED) == set(GATHERED) <= set(HELPERS)


@pytest.mark.parametrize("name", GATHERED)
def test_every_example_that_needs_a_build_is_answered(rolling: Yard, name: str) -> None:
    lines = [line for line in helper(name).examples.splitlines() if "--from-build" in line]

    assert lines
    for line in lines:
        assert rolling.run(*shlex.split(line)[1:]).status == 0


def test_travellers_are_written_into_a_run_and_fill_into_a_chase(yard: Yard) -> None:
    yard.saved("size", "switching", "--places", "3", "--to", "L1")
    yard.saved("item", "add", "chase", "C1", "inside=25mm")
    yard.saved("size", "raceway", "--inside", "25mm", "--wire", "3x12AWG", "--to", "C1")

    assert yard.session.names.find("L1").fields["conductors"] == 3
    assert yard.session.names.find("C1").fields["fill_pct"] == pytest.approx(5.24, abs=0.01)


def test_a_slip_whose_axles_make_another_weight_than_its_total_is_named(rolling: Yard) -> None:
    def notes() -> str:
        return " ".join(_json(rolling, "weight")["from_build"]["notes"])

    slip = ("item", "add", "weigh-slip")
    rolling.saved(*slip, "S2", "weighed=2027-03-01", "front=1900kg", "rear=2400kg", "total=4320kg")
    assert "look at the slip again" not in notes()

    rolling.saved(*slip, "S3", "weighed=2027-03-02", "front=1900kg", "rear=2400kg", "total=6000kg")
    assert "the axles of weigh slip S3 make 4300 kg, but its total is 6000 kg" in notes()
