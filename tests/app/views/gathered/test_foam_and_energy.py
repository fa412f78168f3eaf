"""What bays give for the foam, and runs for the energy of a day."""

from __future__ import annotations

from typing import Any

import pytest

from tracker.app.session import Session
from tracker.app.views.gathered import Gathered, gather
from tracker.app.wants import items
from tracker.errors import BadInput
from tracker.sizing.result import Result
from tracker.sizing.spec import helper


def _answer(session: Session, name: str, **typed: Any) -> tuple[Gathered, Result]:
    zone = typed.pop("zone", None)
    found = gather(session, name, typed, zone=zone)
    return found, helper(name).answer(found.typed)


def _bay(session: Session, name: str, **fields: str) -> None:
    session.do(items.change(name, fields))


@pytest.mark.parametrize(
    ("fields", "area_m2"),
    [
        ({"face": "left", "station": "1 m", "to": "3 m", "height": "2 m"}, 4.0),
        ({"face": "ceiling", "station": "1 m", "to": "3 m", "height": "50 mm"}, 4.4),
        ({"face": "roof", "station": "1 m", "to": "3 m", "width": "1 m"}, 2.0),
        ({"face": "front", "station": "7 m", "height": "2 m"}, 4.4),
    ],
)
def test_the_area_of_a_bay_goes_by_its_face(
    heron: Session, fields: dict[str, str], area_m2: float
) -> None:
    heron.do(items.change("vehicle", {"width": "2.2 m", "foam": "50 mm"}))
    _bay(heron, "B1", **fields)

    assert _answer(heron, "foam")[1]["net_area_m2"] == pytest.approx(area_m2)


def test_openings_are_taken_off_their_bays_and_those_of_unknown_size_are_named(
    heron: Session,
) -> None:
    for name in ("B1", "B2"):
        _bay(heron, name, face="left", station="0 m", to="2 m", height="2 m", foam="50 mm")
    window = {"width_mm": "500 mm", "height_mm": "400 mm", "bay": "B1,B2"}
    heron.do(items.add("opening", "O1", window))
    heron.do(items.add("opening", "O2", {"bay": "B1"}))
    heron.do(items.add("opening", "O3", {"bay": "B3"}))

    found, result = _answer(heron, "foam", zone="front")

    assert result["net_area_m2"] == pytest.approx(8 - 0.2)
    assert found.notes == ("O2 is of unknown size, so it is not taken off",)


def test_bays_that_say_too_little_or_take_no_foam_are_named(heron: Session) -> None:
    _bay(heron, "B1", face="left", station="0 m", to="2 m", height="2 m", foam="50 mm")
    _bay(heron, "B2", face="left", station="0 m", to="2 m", height="2 m", foam="0 mm")
    _bay(heron, "B3", face="left", height="2 m")

    found, _ = _answer(heron, "foam")

    assert dict(found.uncounted) == {
        "B2": "no foam in it",
        "B3": "station_m and to_m, foam_m unknown",
        "B4": "face, foam_m unknown",
    }


def test_a_depth_that_is_typed_holds_for_every_bay_and_an_area_is_added(heron: Session) -> None:
    _bay(heron, "B1", face="left", station="0 m", to="2 m", height="2 m", foam="50 mm")
    _bay(heron, "B2", face="left", station="0 m", to="2 m", height="2 m")

    thick = _answer(heron, "foam", thickness_mm=["2 in"])[1]
    more = _answer(heron, "foam", area_m2=["1 m2"], thickness_mm=["30 mm"])[1]

    assert thick["foam_l"] == pytest.approx(8 * 50.8)
    assert more["foam_l"] == pytest.approx(4 * 50 + 30)
    with pytest.raises(BadInput, match="needs its --thick"):
        gather(heron, "foam", {"area_m2": ["1 m2"]})


def test_the_lift_of_the_product_sheet_is_the_vehicles(heron: Session) -> None:
    heron.do(items.change("vehicle", {"lift": "25 mm"}))
    _bay(heron, "B1", face="left", station="0 m", to="2 m", height="2 m", foam="50 mm")

    assert _answer(heron, "foam")[1]["lifts"] == 2
    assert _answer(heron, "foam", lift_mm="60 mm")[1]["lifts"] == 1


def test_a_load_goes_through_the_inverter_where_its_run_is_ac(heron: Session) -> None:
    heron.do(items.change("L1", {"load": "2 A", "volts": "230 V", "hours": "1 h", "system": "ac"}))
    heron.do(items.change("L2", {"load": "1 A", "volts": "24 V", "hours": "10 h"}))

    _, result = _answer(heron, "energy")

    assert (result["ac_wh"], result["dc_wh"]) == (460, 240)


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({"volts": "12 V", "hours": "5 h"}, "current unknown"),
        ({"load": "2 A", "hours": "5 h"}, "voltage unknown"),
        ({"load": "2 A", "volts": "12 V"}, "hours a day unknown"),
        ({"load": "2 A", "volts": "12 V", "hours": "0 h"}, "0 hours a day"),
        ({"load": "0 A", "volts": "12 V", "hours": "5 h"}, "no current"),
        ({"load": "9 A", "volts": "12 V", "hours": "5 h", "system": "solar"}, "brings current"),
    ],
)
def test_a_run_that_is_no_load_or_says_too_little_is_named_and_not_guessed(
    heron: Session, fields: dict[str, str], why: str
) -> None:
    heron.do(items.change("L1", fields))

    found, result = _answer(heron, "energy", load=["fan 30W*8h"])

    assert why in dict(found.uncounted)["L1"]
    assert result["day_wh"] == pytest.approx(240)
    assert found.counted == ()


def test_a_helper_that_no_build_feeds_is_refused(heron: Session) -> None:
    with pytest.raises(BadInput, match="takes nothing from a build"):
        gather(heron, "wall", {})
