"""The drop of one run beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.conductor import conductor
from tracker.sizing.copper import MADE, MM2_STOCKED, ohm_per_m, stocked, wire_of
from tracker.sizing.drop import drop
from tracker.sizing.result import as_json

SIZES = [wire.label.replace(" ", "") for family in MADE for wire in stocked(family)]


@given(st.sampled_from(SIZES), st.floats(0.01, 300), st.floats(0.1, 200), st.floats(0.1, 200))
def test_a_longer_run_never_drops_less(size: str, load: float, one: float, other: float) -> None:
    near, far = sorted((one, other))

    assert drop(size, load, near, volts_v=12).number("drop_v") <= drop(
        size, load, far, volts_v=12
    ).number("drop_v") * (1 + 1e-12)


@given(st.sampled_from(SIZES), st.floats(0.01, 300), st.floats(0.01, 300))
def test_more_load_never_drops_less(size: str, one: float, other: float) -> None:
    light, heavy = sorted((one, other))

    assert drop(size, light, 5, volts_v=12).number("drop_v") <= drop(
        size, heavy, 5, volts_v=12
    ).number("drop_v") * (1 + 1e-12)


@pytest.mark.parametrize("family", MADE)
def test_a_larger_size_never_has_more_resistance(family: str) -> None:
    for made in MADE[family]:
        values = [ohm_per_m(wire, 20.0, made) for wire in stocked(family)]
        assert values == sorted(values, reverse=True), made


@pytest.mark.parametrize("area", [0.5, 0.6, 0.75, 0.9, 1.2, 2.0, 3.0, 7.5, 20.0, 94.0])
def test_a_metric_size_between_two_rows_lies_between_them_in_resistance(area: float) -> None:
    wire = wire_of(f"{area}mm2")
    rows = [wire_of(f"{key}mm2") for key in ("0.5", *MM2_STOCKED)]
    below = max((row for row in rows if row.area_mm2 <= area), key=lambda row: row.area_mm2)
    above = min((row for row in rows if row.area_mm2 >= area), key=lambda row: row.area_mm2)

    assert ohm_per_m(above, 20) <= ohm_per_m(wire, 20) * (1 + 1e-9)
    assert ohm_per_m(wire, 20) <= ohm_per_m(below, 20) * (1 + 1e-9)


def test_it_agrees_with_the_conductor_helper() -> None:
    chosen = conductor(8, 5.4864, volts_v=12, insulation="75")

    again = drop("10AWG", 8, 5.4864, volts_v=12, insulation="75")

    assert chosen["size"] == "10 AWG"
    assert again["drop_v"] == pytest.approx(chosen["drop_v"])


def test_a_load_above_what_the_wire_may_carry_is_said() -> None:
    assert any("above" in caution for caution in drop("18AWG", 40, 3, volts_v=12).cautions)


def test_a_run_that_loses_everything_leaves_no_negative_voltage() -> None:
    found = drop("18AWG", 300, 100, volts_v=12)

    assert found["at_load_v"] == 0.0
    assert found.number("drop_percent") > 100


@pytest.mark.parametrize(
    "size", ["14", "3/0AWG SAE", "200mm2", "0.1mm2", "7AWG", "24AWG", "SAE 3", "nonsense", ""]
)
def test_a_size_that_no_table_has_is_refused(size: str) -> None:
    with pytest.raises(BadInput):
        drop(size, 5, 3, volts_v=12)


@pytest.mark.parametrize(
    ("size", "label"),
    [("14AWG", "14 AWG"), ("2/0", "2/0 AWG"), ("SAE 14", "14 SAE"), ("14 sae", "14 SAE"),
     ("2.5mm2", "2.5 mm2"), ("4 mm²", "4 mm2"), ("3AWG", "3 AWG"), ("2.08 mm2", "2.08 mm2")],
)  # fmt: skip
def test_a_size_is_read_as_people_write_it(size: str, label: str) -> None:
    assert wire_of(size).label == label


def test_copper_that_a_size_is_not_made_of_is_refused() -> None:
    with pytest.raises(BadInput, match="is not made"):
        drop("14AWG", 5, 3, volts_v=12, made="class-5")


def test_one_run_needs_its_size_load_and_voltage() -> None:
    with pytest.raises(BadInput, match="--circuit FILE"):
        drop("14AWG", 5, 3)


def test_its_json_says_volts_and_percent() -> None:
    said = as_json(drop("14AWG", 5, 5.4864, volts_v=12))

    assert said["drop_percent"] == pytest.approx(100 * said["drop_v"] / 12)


def _make(rng: random.Random) -> dict[str, Any]:
    def one(name: str) -> float | int:
        return within(input_named("drop", name), rng)

    length = rng.choice(("one_way_m", "round_trip_m"))
    return {
        "size": rng.choice(SIZES),
        "load_a": one("load_a"),
        length: one(length),
        "volts_v": one("volts_v"),
        "insulation": rng.choice((None, "60", "75", "90", "105")),
        "ambient_c": one("ambient_c"),
        "copper_c": one("copper_c") if rng.random() < 0.4 else None,
    }


def test_random_inputs_in_range_are_answered() -> None:
    assert answered_share("drop", _make, signed=("working_c",)) >= 0.95


def test_random_inputs_out_of_range_are_refused() -> None:
    assert unrefused("drop", _make) == []
