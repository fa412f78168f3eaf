"""Water beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.water import water


@given(st.integers(1, 20), st.integers(1, 20), st.floats(0.5, 500), st.floats(1, 5000))
def test_more_people_never_last_longer(one: int, other: int, each_l: float, tank_l: float) -> None:
    few, many = sorted((one, other))

    assert water(many, each_l, tank_l).number("days") <= water(few, each_l, tank_l).number("days")


@given(st.floats(0.05, 30), st.floats(0.05, 30), st.sampled_from(("irc", "ipc")))
def test_a_longer_drain_never_falls_less(one: float, other: float, rules: str) -> None:
    short, long = (water(pipe_m=each, rules=rules) for each in sorted((one, other)))

    assert short.number("least_fall_mm") <= long.number("least_fall_mm")


@given(st.floats(10, 250))
def test_the_default_code_is_never_the_easier_one(pipe_mm: float) -> None:
    irc, ipc = (water(pipe_m=1, pipe_mm=pipe_mm, rules=each) for each in ("irc", "ipc"))

    assert irc.number("least_fall_mm") >= ipc.number("least_fall_mm")


def test_it_says_which_tank_ends_first() -> None:
    assert "waste tank is full" in water(2, 15, 150, 120).governs
    assert "fresh tank is empty" in water(2, 15, 150, 170).governs
    assert "fresh tank is empty" in water(2, 15, 150, 120, grey_percent=60).governs


def test_a_drain_falls_enough_or_does_not() -> None:
    assert water(pipe_m=1, fall_mm=21)["passes"] is True
    assert water(pipe_m=1, fall_mm=20)["passes"] is False


def test_less_than_people_need_is_warned_of() -> None:
    assert "below what people need" in water(2, 3, 100).cautions[0]
    assert "below what people need" not in water(2, 4, 100).cautions[0]


@pytest.mark.parametrize(
    "inputs",
    [{}, {"people": 2}, {"each_l": 10.0}, {"fall_mm": 20.0}, {"pump_l_min": 10.0},
     {"people": 2, "each_l": 10.0, "pump_w": 60.0}],
)  # fmt: skip
def test_what_says_too_little_is_refused(inputs: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        water(**inputs)


def _inputs(rng: random.Random) -> dict[str, Any]:
    drawn: dict[str, Any] = {
        name: within(input_named("water", name), rng)
        for name in ("people", "each_l", "tank_l", "grey_percent", "pipe_mm")
    }
    for name in ("grey_l", "pipe_m", "pump_l_min"):
        drawn[name] = rng.choice((None, within(input_named("water", name), rng)))
    if drawn["pipe_m"] is not None:
        drawn["fall_mm"] = rng.choice((None, within(input_named("water", "fall_mm"), rng)))
    if drawn["pump_l_min"] is not None:
        drawn["pump_w"] = rng.choice((None, within(input_named("water", "pump_w"), rng)))
    return {**drawn, "rules": rng.choice(("irc", "ipc"))}


def test_random_tanks_give_a_result() -> None:
    assert answered_share("water", _inputs) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("water", _inputs) == []
