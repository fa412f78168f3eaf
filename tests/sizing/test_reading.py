"""Expected test readings beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tests.sizing.test_drop import SIZES
from tracker.errors import BadInput
from tracker.sizing.drop import drop
from tracker.sizing.reading import reading


@given(st.sampled_from(SIZES), st.floats(0.1, 200), st.floats(-40, 80), st.floats(-40, 80))
def test_warmer_copper_never_reads_less(size: str, length: float, one: float, other: float) -> None:
    cold, warm = (reading(size, length, copper_c=at_c) for at_c in sorted((one, other)))

    assert cold.number("loop_ohm") <= warm.number("loop_ohm") * (1 + 1e-12)


@given(st.sampled_from(SIZES), st.floats(0.1, 200), st.floats(0.01, 200))
def test_the_band_holds_what_is_expected(size: str, length: float, test_a: float) -> None:
    found = reading(size, length, test_a=test_a)

    assert found.number("low_ohm") < found.number("loop_ohm") < found.number("high_ohm")
    assert found.number("low_v") < found.number("drop_v") < found.number("high_v")


def test_the_drop_at_the_test_load_is_that_of_the_drop_helper() -> None:
    expected = drop("2.5mm2", 5, 6, volts_v=12, copper_c=20)["drop_v"]

    assert reading("2.5mm2", 6, test_a=5)["drop_v"] == pytest.approx(expected)


def test_too_little_for_an_ordinary_meter_is_said() -> None:
    assert any("ordinary meter" in caution for caution in reading("6AWG", 3).cautions)
    assert not any("ordinary meter" in caution for caution in reading("18AWG", 20).cautions)


def test_the_least_voltage_at_the_load_is_never_negative() -> None:
    assert reading("18AWG", 100, test_a=100, volts_v=12)["least_at_load_v"] == 0.0


def test_a_length_is_needed() -> None:
    with pytest.raises(BadInput, match="--one-way or --round-trip"):
        reading("14AWG")


def _make(rng: random.Random) -> dict[str, Any]:
    def one(name: str) -> float | int:
        return within(input_named("reading", name), rng)

    length = rng.choice(("one_way_m", "round_trip_m"))
    return {
        "size": rng.choice(SIZES),
        length: one(length),
        "copper_c": one("copper_c"),
        "test_a": one("test_a") if rng.random() < 0.5 else None,
        "volts_v": one("volts_v") if rng.random() < 0.5 else None,
    }


def test_random_inputs_in_range_are_answered() -> None:
    assert answered_share("reading", _make) >= 0.95


def test_random_inputs_out_of_range_are_refused() -> None:
    assert unrefused("reading", _make) == []
