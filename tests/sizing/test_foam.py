"""Foam beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.foam import foam
from tracker.sizing.spec import helper

AREAS = st.floats(0.01, 1000)
THICK = st.floats(5, 400)


@given(AREAS, THICK, THICK)
def test_thicker_foam_never_takes_less_nor_insulates_less(
    area_m2: float, one_mm: float, other_mm: float
) -> None:
    thin, thick = (foam((area_m2,), each) for each in sorted((one_mm, other_mm)))

    for name in ("buy_l", "mass_kg", "lifts", "waiting_h", "resistance_m2k_w"):
        assert thin.number(name) <= thick.number(name)


@given(AREAS, st.floats(-20, 60), st.booleans())
def test_loss_never_makes_it_less_to_buy(area_m2: float, surface_c: float, rough: bool) -> None:
    result = foam((area_m2,), 50, rough=rough, surface_c=surface_c)

    assert result.number("buy_l") >= result.number("foam_l")


@given(AREAS, st.floats(1, 20000))
def test_the_kits_hold_what_is_to_be_bought(area_m2: float, kit_l: float) -> None:
    result = foam((area_m2,), 50, kit_l=kit_l)
    kits, buy_l = result.number("kits"), result.number("buy_l")

    assert (kits - 1) * kit_l < buy_l <= kits * kit_l * (1 + 1e-6)


def test_areas_are_added_up_and_openings_taken_off() -> None:
    assert foam((10.0, 5.0), 50, less_m2=(1.0, 2.0))["net_area_m2"] == pytest.approx(12.0)


def test_openings_larger_than_the_area_are_refused() -> None:
    with pytest.raises(BadInput, match="--less takes away"):
        foam((2.0,), 50, less_m2=(2.0,))


@given(st.lists(st.tuples(AREAS, THICK), min_size=2, max_size=5), st.floats(0, 60))
def test_areas_of_several_depths_take_what_they_take_one_by_one(
    bays: list[tuple[float, float]], framing: float
) -> None:
    areas, depths = zip(*bays, strict=True)
    all_of_it = foam(areas, depths, framing_percent=framing)
    each = [foam((area,), depth, framing_percent=framing) for area, depth in bays]

    for name in ("net_area_m2", "foam_l", "buy_l", "mass_kg"):
        assert all_of_it.number(name) == pytest.approx(sum(one.number(name) for one in each))
    assert all_of_it["lifts"] == max(one["lifts"] for one in each)
    thinnest = min(one.number("resistance_m2k_w") for one in each)
    assert all_of_it["resistance_m2k_w"] == pytest.approx(thinnest)


@pytest.mark.parametrize(
    ("inputs", "said"),
    [
        (((1.0, 2.0, 3.0), (50.0, 60.0)), "2 times for 3 areas"),
        (((1.0, 2.0), (50.0, 60.0), (0.5,)), "--less goes with one"),
        (((1.0,), ()), "--thick is missing"),
    ],
)
def test_depths_that_belong_to_no_area_are_refused(inputs: tuple[Any, ...], said: str) -> None:
    with pytest.raises(BadInput, match=said):
        foam(*inputs)


def test_bays_are_typed_as_people_count_them() -> None:
    result = helper("foam").answer({"area_m2": ["12x16in*6ft"], "thickness_mm": "2in"})

    assert result["board_feet"] == pytest.approx(192.0)


def test_generic_lifts_are_said_to_be_generic_and_the_sheet_overrules_them() -> None:
    assert "generic" in " ".join(foam((1.0,), 60).cautions)
    by_sheet = foam((1.0,), 60, lift_mm=30, wait_h=1.0, density_kg_m3=40)
    assert "generic" not in " ".join(by_sheet.cautions)
    assert (by_sheet["lifts"], by_sheet["waiting_h"]) == (2, 1.0)
    assert by_sheet["mass_kg"] == pytest.approx(2.4)


def _inputs(rng: random.Random) -> dict[str, Any]:
    names = ("thickness_mm", "framing_percent")
    optional = ("loss_percent", "surface_c", "kit_l", "lift_mm", "wait_h", "density_kg_m3")
    drawn: dict[str, Any] = {name: within(input_named("foam", name), rng) for name in names}
    for name in optional:
        drawn[name] = rng.choice((None, within(input_named("foam", name), rng)))
    area = input_named("foam", "area_m2")
    drawn["area_m2"] = tuple(within(area, rng) for _ in range(rng.randint(1, 4)))
    if rng.random() < 0.3:
        thick = input_named("foam", "thickness_mm")
        depths = tuple(within(thick, rng) for _ in drawn["area_m2"])
        return {**drawn, "thickness_mm": depths}
    drawn["less_m2"] = tuple(rng.uniform(0.001, 0.01) for _ in range(rng.randint(0, 2)))
    return {**drawn, "kind": rng.choice(("closed", "open")), "rough": rng.random() < 0.5}


def test_random_areas_give_a_result() -> None:
    assert answered_share("foam", _inputs) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("foam", _inputs) == []
