"""Limits: what number is good, and where it comes from."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.build.item import Item
from tracker.build.limit import TAIL_M, Limit, judge, lead_from_rib, limit_of


def _item(kind: str, **fields: Any) -> Item:
    return Item(f"{kind}:x", kind, "L1" if kind == "run" else kind, fields, "")


VEHICLE = _item("vehicle", furring_m=0.04, panel_m=0.01)
LEAD = {"function": "lead_from_rib", "unit": "m"}


def _limit(stated: dict[str, Any], subject: Item | None = None, **fields: Any) -> Limit:
    check = _item("check", limit=stated, **fields)
    found = limit_of(check, subject or _item("run"), VEHICLE)
    assert found is not None
    return found


def test_a_check_that_asks_for_no_number_has_no_limit() -> None:
    assert limit_of(_item("check"), _item("run"), VEHICLE) is None


@pytest.mark.parametrize(
    ("stated", "words"),
    [
        ({"min": 0.35, "unit": "m"}, "at least 0.35 m"),
        ({"max": 3.0, "unit": "%"}, "at most 3 %"),
        ({"min": 1, "max": 2, "unit": "V"}, "at least 1 V and at most 2 V"),
        (
            {"min": 1.0, "sign_min": 0.5, "unit": "Mohm"},
            "at least 1 Mohm (from 0.5 with a second name and a reason)",
        ),
        (
            LEAD,
            f"at least {0.05 + TAIL_M:g} m = furring 0.04 + panel 0.01 + cabinet 0 "
            f"+ tail {TAIL_M:g}",
        ),
    ],
)
def test_people_read_a_limit_with_its_unit_and_working(stated: dict[str, Any], words: str) -> None:
    assert str(_limit(stated)) == words


def test_the_lead_is_what_stands_between_the_rib_and_the_finished_face_and_a_tail() -> None:
    subject = _item("run", cabinet_m=0.6, tail_m=0.15)

    assert lead_from_rib(subject, VEHICLE)[0] == pytest.approx(0.04 + 0.01 + 0.6 + 0.15)


@pytest.mark.parametrize(
    ("vehicle", "missing"),
    [
        (None, "furring_m of the vehicle"),
        (_item("vehicle", panel_m=0.01), "furring_m of the vehicle"),
        (_item("vehicle", furring_m=0.04), "panel_m of the vehicle"),
    ],
)
def test_the_lead_can_not_be_told_before_its_depths_are_known(
    vehicle: Item | None, missing: str
) -> None:
    limit = limit_of(_item("check", limit=LEAD), _item("run"), vehicle)

    assert limit is not None
    assert str(limit) == f"unknown until {missing} is known"
    assert judge(limit, 9.0, None, None) == "unknown"


@pytest.mark.parametrize(("key", "bound"), [("max_field", "high"), ("min_field", "low")])
def test_a_limit_may_be_read_from_a_field_of_its_subject(key: str, bound: str) -> None:
    stated = {key: "depth_m", "unit": "m"}

    assert getattr(_limit(stated, _item("run", depth_m=0.2)), bound) == 0.2
    assert _limit(stated, _item("run")).missing == "depth_m of L1"


def test_a_field_nobody_stated_gives_the_default_of_its_kind_where_there_is_one() -> None:
    assert _limit({"max_field": "drop_max_pct", "unit": "%"}, _item("run")).high == 10.0


def test_a_checks_own_figures_go_before_those_of_its_template() -> None:
    limit = _limit({"min": 1.0, "max": 2.0, "unit": "V"}, limit_min=1.2, limit_max=1.8)

    assert (limit.low, limit.high) == (1.2, 1.8)


def test_a_figure_of_its_own_makes_up_for_what_is_unknown_on_that_side_alone() -> None:
    unknown = _item("check", limit=LEAD, limit_max=2.0)
    known = _item("check", limit=LEAD, limit_min=0.3)
    bare = _item("vehicle")

    still = limit_of(unknown, _item("run"), bare)
    told = limit_of(known, _item("run"), bare)

    assert still is not None and judge(still, 0.01, None, None) == "unknown"
    assert told is not None and str(told) == "at least 0.3 m"


def test_the_numbers_alone_are_remembered() -> None:
    assert _limit({"min": 1.0, "sign_min": 0.5, "unit": "V"}).seen() == [1.0, None, 0.5]


@pytest.mark.parametrize(
    ("value", "second", "why", "verdict"),
    [
        (1.0, None, None, "good"),
        (0.999, None, None, "bad"),
        (0.999, "Ola", "tight bend", "good"),
        (0.5, "Ola", "tight bend", "good"),
        (0.499, "Ola", "tight bend", "bad"),
        (0.6, "Ola", None, "bad"),
        (0.6, None, "tight bend", "bad"),
        (0.6, " ", "tight bend", "bad"),
        (0.6, "Ola", "", "bad"),
        (2.0, None, None, "good"),
        (2.001, "Ola", "tight bend", "bad"),
    ],
)
def test_the_number_decides_and_only_the_sign_off_band_takes_a_second_name(
    value: float, second: str | None, why: str | None, verdict: str
) -> None:
    assert judge(Limit("m", 1.0, 2.0, 0.5), value, second, why) == verdict


bounds = st.floats(-9, 9) | st.none()


@given(bounds, bounds, st.floats(-9, 9))
def test_a_value_is_good_exactly_between_the_bounds(
    low: float | None, high: float | None, value: float
) -> None:
    inside = (low is None or value >= low) and (high is None or value <= high)

    assert judge(Limit("m", low, high), value, None, None) == ("good" if inside else "bad")


PROFILE = {"max_profile": "gas_loss_pa", "unit": "Pa"}


def test_a_limit_of_the_profile_is_unknown_until_the_vehicle_states_it_and_shows_who_differs() -> (
    None
):
    limit = _limit(PROFILE)

    assert limit.high is None and judge(limit, 0.0, None, None) == "unknown"
    assert str(limit) == "unknown until gas_loss_pa of the vehicle is known"
    said = " ".join(limit.sources)
    assert "EN 1949" in said and "WAC 296-150V-1450" in said


def test_a_limit_of_the_profile_is_the_vehicles_own_and_a_check_may_still_have_its_own() -> None:
    vehicle = _item("vehicle", gas_loss_pa=690.0, can_low_c=21.0, can_high_c=27.0)
    loss = limit_of(_item("check", limit=PROFILE), _item("gas-line"), vehicle)
    assert loss is not None
    assert str(loss) == "at most 690 Pa = gas_loss_pa of the vehicle"
    assert [judge(loss, value, None, None) for value in (690.0, 691.0)] == ["good", "bad"]

    own = limit_of(_item("check", limit=PROFILE, limit_max=500.0), _item("gas-line"), vehicle)
    assert own is not None and str(own) == "at most 500 Pa"

    both = {"min_profile": "can_low_c", "max_profile": "can_high_c", "unit": "C"}
    cans = limit_of(_item("check", limit=both), vehicle, vehicle)
    assert cans is not None and (cans.low, cans.high) == (21.0, 27.0)
    half = limit_of(_item("check", limit=both, limit_min=20.0), vehicle, None)
    assert half is not None and half.missing == "can_high_c of the vehicle"
