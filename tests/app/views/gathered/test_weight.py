"""What a build gives for axle loads: places, parts, tanks, slips, which way stations run."""

from __future__ import annotations

from typing import Any

import pytest

from tracker.app.session import Session
from tracker.app.views.gathered import Gathered, gather
from tracker.app.wants import items, parts
from tracker.build.item import add
from tracker.errors import BadInput
from tracker.sizing.mass import mass_of, water_kg_per_l
from tracker.sizing.result import Result
from tracker.sizing.spec import helper


@pytest.fixture
def rolling(heron: Session) -> Session:
    """The small build with its axles and one weighing of the stripped vehicle."""
    axles = {"front_axle_station": "1 m", "rear_axle_station": "5 m"}
    heron.do(items.change("vehicle", axles))
    slip = {"state": "stripped", "weighed": "2030-04-01", "front": "1900 kg", "rear": "2400 kg"}
    heron.do(items.add("weigh-slip", "S1", slip))
    return heron


def _weighed(session: Session, **typed: Any) -> tuple[Gathered, Result]:
    found = gather(session, "weight", typed)
    return found, helper("weight").answer(found.typed)


def _put(session: Session, kind: str, name: str, **fields: str) -> None:
    session.do(items.add(kind, name, fields))


def test_what_has_no_station_of_its_own_lies_in_the_middle_of_its_bays(rolling: Session) -> None:
    bay = {"face": "left", "station": "2 m", "to": "3 m"}
    rolling.do(items.change("B1", bay))
    rolling.do(items.change("B2", bay | {"station": "3 m", "to": "5 m"}))
    _put(rolling, "appliance", "stove", mass="40 kg", bay="B1,B2", aboard="yes")

    found, result = _weighed(rolling)

    assert found.typed["item"] == ["stove 40kg 3.5m left"]
    assert result["now_rear_kg"] == pytest.approx(2400 + 40 * 2.5 / 4)


@pytest.mark.parametrize(
    ("fields", "side"),
    [
        ({"face": "right"}, "right"),
        ({"face": "floor", "side": "left"}, "left"),
        ({"face": "floor", "side": "middle"}, "centre"),
        ({"face": "floor"}, "centre"),
        ({}, "centre"),
    ],
)
def test_the_side_comes_from_the_face_or_from_the_side_of_the_middle_line(
    rolling: Session, fields: dict[str, str], side: str
) -> None:
    _put(rolling, "appliance", "stove", mass="40 kg", station="3 m", aboard="yes", **fields)

    found, _ = _weighed(rolling)

    assert mass_of(found.typed["item"][0]).side == side
    nobody_said = "side" not in fields and fields.get("face") != "right"
    assert any("in the middle" in note for note in found.notes) == nobody_said


@pytest.mark.parametrize(
    ("fields", "aboard"),
    [
        ({"aboard": "yes"}, True),
        ({"on_hand": "yes"}, True),
        ({"on_hand": "yes", "aboard": "no"}, False),
        ({}, False),
    ],
)
def test_what_is_aboard_stands_apart_from_what_is_to_come(
    rolling: Session, fields: dict[str, str], aboard: bool
) -> None:
    _put(rolling, "appliance", "stove", mass="40 kg", station="3 m", **fields)

    found, _ = _weighed(rolling)

    assert (len(found.typed["item"]), len(found.typed["planned"])) == (aboard, not aboard)


def test_what_lacks_mass_or_station_is_named_with_the_reason(rolling: Session) -> None:
    _put(rolling, "appliance", "stove", mass="40 kg")
    _put(rolling, "appliance", "fridge", station="3 m")
    _put(rolling, "tank", "fresh", capacity="100 l", holds="fresh water")

    missing = dict(_weighed(rolling)[0].uncounted)

    assert (missing["stove"], missing["fridge"]) == ("no station", "no mass")
    assert missing["fresh"] == "no station"
    assert missing["glands"] == "mass of one unknown"


def test_a_tank_counts_empty_with_what_is_in_it_and_as_planned_full(rolling: Session) -> None:
    _put(rolling, "tank", "fresh", capacity="100 l", contents="30 l", mass="8 kg", station="3 m",
         holds="fresh water", aboard="yes")  # fmt: skip

    _, result = _weighed(rolling)

    assert result["now_total_kg"] == pytest.approx(4308 + 30 * water_kg_per_l(), abs=1e-3)
    assert result["planned_total_kg"] == pytest.approx(4308 + 100 * water_kg_per_l(), abs=1e-3)


def test_a_tank_of_no_water_counts_by_what_it_holds_when_full(rolling: Session) -> None:
    _put(rolling, "tank", "gas", mass="10 kg", full="11 kg", station="3 m", holds="gas")
    _put(rolling, "tank", "fuel", mass="10 kg", capacity="80 l", station="3 m", holds="fuel")

    found, result = _weighed(rolling)

    assert result["planned_total_kg"] == pytest.approx(4331)
    assert ("fuel", "mass of what it holds unknown") in found.uncounted


def test_a_part_counts_where_it_is_used_where_it_lies_aboard_and_what_is_to_come(
    rolling: Session,
) -> None:
    rolling.do(items.change("B1", {"face": "right", "station": "1 m", "to": "2 m"}))
    _put(rolling, "part", "ply", unit="each", needed="10", mass="20 kg", station="4 m", side="left")
    rolling.do(parts.receive("ply", "4", "site"))
    rolling.do(parts.use("ply", "2", "site"))
    rolling.do(parts.receive("ply", "1", "B1"))

    found, _ = _weighed(rolling)

    assert found.typed["item"] == ["ply 20kg 1.5m right", "ply 40kg 4m left"]
    assert found.typed["planned"] == ["ply 140kg 4m left"]


def test_parts_without_a_station_are_named_with_what_they_weigh_together(rolling: Session) -> None:
    rolling.do(items.change("glands", {"mass": "0.5 kg"}))
    rolling.do(parts.receive("glands", "4", "site"))
    rolling.do(parts.use("glands", "4", "site"))

    found, _ = _weighed(rolling)

    assert ("glands", "no station") in found.uncounted
    assert any("2 kg used and 4 kg to be used" in note for note in found.notes)


def test_a_thing_that_is_an_appliance_and_a_part_counts_once(rolling: Session) -> None:
    _put(rolling, "appliance", "stove", mass="40 kg", station="3 m")
    _put(rolling, "part", "stove", mass="40 kg", station="3 m", needed="1")

    found, _ = _weighed(rolling)

    assert len(found.typed["planned"]) == 1
    assert ("part:stove", "it counts as the appliance of that name") in found.uncounted


def test_stations_that_run_forward_are_known_by_the_axles(rolling: Session) -> None:
    axles = {"front_axle_station": "6 m", "rear_axle_station": "2 m"}
    rolling.do(items.change("vehicle", axles))
    _put(rolling, "appliance", "stove", mass="40 kg", station="1 m", aboard="yes")

    _, result = _weighed(rolling)

    assert result["now_rear_kg"] == pytest.approx(2400 + 50)


def test_the_last_slip_goes_by_its_day_and_one_before_the_stripping_is_passed_over(
    rolling: Session,
) -> None:
    _put(rolling, "weigh-slip", "S3", weighed="2030-05-01", total="4500 kg", right="2200 kg")
    _put(rolling, "weigh-slip", "S2", weighed="2030-04-20", total="4400 kg")
    _put(rolling, "weigh-slip", "S0", weighed="2030-01-01", total="6000 kg")

    found, result = _weighed(rolling)

    assert (result["slip_total_off_kg"], result["slip_left_off_kg"]) == (200, 150)
    assert any("held against weigh slip S3 (2030-05-01)" in note for note in found.notes)


def test_with_the_stripped_weighing_alone_nobody_knows_how_far_off_it_is(rolling: Session) -> None:
    found, _ = _weighed(rolling)

    assert any("nobody knows how far off" in note for note in found.notes)
    assert not any(name.startswith("slip_") for name in found.typed)


def test_without_a_stripped_weighing_the_axles_must_be_given(heron: Session) -> None:
    axles = {"front_axle_station": "1 m", "rear_axle_station": "5 m"}
    heron.do(items.change("vehicle", axles))
    with pytest.raises(BadInput, match="no weigh slip gives both axles"):
        gather(heron, "weight", {})

    _, result = _weighed(heron, front_kg="1900 kg", rear_kg="2400 kg")

    assert result["now_total_kg"] == pytest.approx(4300)


def test_a_name_from_other_hands_is_still_a_line_that_can_be_read(rolling: Session) -> None:
    fields = {"mass_kg": 5.0, "station_m": 3.0}
    odd = ("5kg 2m", "x: 3l 4m left", "12", "kg", "\x1b[31m", "a 1kg 2m 3m right")
    rolling.do(lambda _: [add("appliance", name, fields) for name in odd])

    _, result = _weighed(rolling)

    assert result["planned_total_kg"] == pytest.approx(4300 + 5 * len(odd))
