"""Raceways beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.raceway import lot_of, raceway

SIZES = ("14AWG", "12AWG", "2.5mm2", "4 mm2", "5.1mm", "8mm", "14SAE")


@settings(max_examples=100)
@given(st.floats(10, 200), st.floats(10, 200), st.integers(1, 20), st.sampled_from(SIZES))
def test_a_wider_tube_never_takes_fewer(one: float, other: float, count: int, size: str) -> None:
    narrow, wide = (
        raceway(wire=(f"{count}x{size}",), inside_mm=inside) for inside in sorted((one, other))
    )

    assert not (narrow["passes"] == "yes" and wide["passes"] == "no")
    label = lot_of(size).label
    assert narrow.number(f"more_{label}") <= wide.number(f"more_{label}")


@settings(max_examples=100)
@given(st.floats(15, 80), st.integers(1, 20), st.sampled_from(SIZES), st.integers(1, 9))
def test_what_it_says_would_fit_does_fit_and_one_more_does_not(
    inside: float, count: int, size: str, others: int
) -> None:
    given_wires = (f"{count}x{size}", f"{others}x3.3mm")
    label = lot_of(size).label
    found = raceway(wire=given_wires, inside_mm=inside)
    if found["passes"] == "no":
        return

    more = int(found.number(f"more_{label}"))

    full = raceway(wire=(f"{count + more}x{size}", f"{others}x3.3mm"), inside_mm=inside)
    over = raceway(wire=(f"{count + more + 1}x{size}", f"{others}x3.3mm"), inside_mm=inside)
    assert (full["passes"], over["passes"]) == ("yes", "no")


def test_a_chase_goes_by_the_stricter_rule_and_shows_the_other() -> None:
    found = raceway(wire=("10x14AWG",), width_mm=20, height_mm=10)

    assert found["allowed_percent"] == 20.0
    assert found["passes"] == "no"
    assert dict(found.others)["by the rule for round tube (table 1)"] == "within 40 %"


def test_a_wire_wider_than_the_tube_never_passes() -> None:
    assert raceway(wire=("20mm",), inside_mm=18)["passes"] == "no"


def test_three_wires_that_can_jam_are_warned_of() -> None:
    assert any("jam" in caution for caution in raceway(wire=("3x10mm",), inside_mm=30).cautions)
    assert "jam_ratio" not in {
        figure.name for figure in raceway(wire=("4x10mm",), inside_mm=30).figures
    }


def test_a_size_without_a_row_takes_the_next_larger_one() -> None:
    assert lot_of("2.5mm2").outside_mm == lot_of("12AWG").outside_mm
    assert lot_of("16AWG").outside_mm == lot_of("14AWG").outside_mm


def test_the_table_s_diameters_are_marked_as_building_wire() -> None:
    assert any("THHN" in caution for caution in raceway(wire=("12AWG",), inside_mm=20).cautions)
    assert not any("THHN" in caution for caution in raceway(wire=("3mm",), inside_mm=20).cautions)


@pytest.mark.parametrize(
    "given",
    [
        {"wire": ()},
        {"wire": ("12AWG",)},
        {"wire": ("12AWG",), "inside_mm": 20, "tube": "1"},
        {"wire": ("12AWG",), "width_mm": 20},
        {"wire": ("0x12AWG",), "inside_mm": 20},
        {"wire": ("12",), "inside_mm": 20},
        {"wire": ("x12AWG",), "inside_mm": 20},
        {"wire": ("900x12AWG",), "inside_mm": 20},
        {"wire": ("300mm",), "inside_mm": 20},
        {"wire": ("120mm2",), "inside_mm": 20},
    ],
)
def test_what_can_t_be_meant_is_refused(given: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        raceway(**given)


def _make(rng: random.Random) -> dict[str, Any]:
    def one(name: str) -> float | int:
        return within(input_named("raceway", name), rng)

    inside: dict[str, Any] = {"inside_mm": one("inside_mm")}
    if rng.random() < 0.3:
        inside = {"width_mm": one("width_mm"), "height_mm": one("height_mm")}
    lots = tuple(f"{rng.randint(1, 40)}x{rng.choice(SIZES)}" for _ in range(rng.randint(1, 4)))
    return {"wire": lots, "length_mm": one("length_mm") if rng.random() < 0.3 else None, **inside}


def test_random_inputs_in_range_are_answered() -> None:
    assert answered_share("raceway", _make) >= 0.95


def test_random_inputs_out_of_range_are_refused() -> None:
    assert unrefused("raceway", _make) == []
