"""Axle loads beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.axle import Loads
from tracker.sizing.mass import Mass, mass_of
from tracker.sizing.result import OutOfRange
from tracker.sizing.weight import weight

EMPTY: dict[str, Any] = {"wheelbase_m": 4.0, "front_kg": 1900.0, "rear_kg": 2400.0}
THINGS = st.builds(
    Mass,
    st.just("thing"),
    st.floats(0, 1000),
    st.floats(-3, 12),
    st.sampled_from(("left", "right", "centre")),
)


@given(st.lists(THINGS, max_size=8), st.floats(1, 15), st.floats(-2, 2))
def test_nothing_is_lost_between_the_axles_nor_between_the_sides(
    things: list[Mass], wheelbase_m: float, front_axle_m: float
) -> None:
    loads = Loads(1900, 2400, 2150).carrying(things, front_axle_m, wheelbase_m, 1.7)
    mirrored = [
        Mass(each.name, each.mass_kg, each.station_m, {"left": "right", "right": "left"}.get(
            each.side, each.side))
        for each in things
    ]  # fmt: skip
    other = Loads(1900, 2400, 2150).carrying(mirrored, front_axle_m, wheelbase_m, 1.7)

    assert loads.total_kg == pytest.approx(4300 + sum(each.mass_kg for each in things))
    assert loads.left_kg + other.left_kg == pytest.approx(loads.total_kg)


@given(st.floats(0, 4), st.floats(0, 4), st.floats(1, 500))
def test_what_lies_further_back_never_loads_the_rear_less(
    one: float, other: float, mass_kg: float
) -> None:
    ahead, behind = (
        weight(**EMPTY, item=(f"x {mass_kg:.3f}kg {each:.3f}m",)) for each in sorted((one, other))
    )

    assert ahead.number("now_rear_kg") <= behind.number("now_rear_kg") + 1e-6


@given(st.floats(0, 500), st.floats(0, 500))
def test_more_aboard_never_leaves_a_larger_margin(one: float, other: float) -> None:
    light, heavy = (
        weight(**EMPTY, item=(f"x {each:.3f}kg 2m",), gross_rating_kg=7000)
        for each in sorted((one, other))
    )

    assert light.number("gross_margin_kg") >= heavy.number("gross_margin_kg") - 1e-6


@pytest.mark.parametrize(
    ("text", "mass_kg", "station_m", "side"),
    [
        ("stove 18kg 3.2m left", 18, 3.2, "left"),
        ("people 2x75kg 1m", 150, 1.0, "centre"),
        ("wood stove: 40lb 10ft right", 18.1437, 3.048, "right"),
        ("water 150l 4m", 150, 4.0, "centre"),
        ("bumper 20kg -0.5m", 20, -0.5, "centre"),
    ],
)
def test_a_thing_is_read_as_people_write_it(
    text: str, mass_kg: float, station_m: float, side: str
) -> None:
    found = mass_of(text)

    assert (found.mass_kg, found.station_m) == pytest.approx((mass_kg, station_m), rel=1e-4)
    assert found.side == side


@pytest.mark.parametrize("text", ["stove", "stove 18kg", "18 3m", "stove 3m 18kg", "x 1kg 1m 1m"])
def test_a_thing_that_can_not_be_read_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        mass_of(text)


@pytest.mark.parametrize("text", ["x 21000kg 1m", "x 1kg 31m", "x 1kg 1m 2m left"])
def test_a_thing_out_of_range_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange):
        mass_of(text)


@given(st.text(max_size=50))
def test_any_text_is_a_thing_or_is_refused(text: str) -> None:
    try:
        found = mass_of(text)
    except BadInput:
        return
    assert found.mass_kg >= 0


def test_as_it_stands_and_as_planned_are_told_apart() -> None:
    result = weight(**EMPTY, item=("a 100kg 2m",), planned=("b 200kg 2m",))

    assert result["now_total_kg"] == pytest.approx(4400)
    assert result["planned_total_kg"] == pytest.approx(4600)


def test_ratings_are_judged_as_planned() -> None:
    over = weight(**EMPTY, planned=("b 200kg 4m",), rear_rating_kg=2500)

    assert over["passes"] is False
    assert over["rear_margin_kg"] == pytest.approx(-100)
    assert "over its rating" in over.title


def test_a_weigh_slip_says_how_far_the_estimate_is_off() -> None:
    result = weight(**EMPTY, item=("a 100kg 2m",), slip_front_kg=1980, slip_rear_kg=2500)

    assert result["slip_front_off_kg"] == pytest.approx(30)
    assert result["slip_rear_off_kg"] == pytest.approx(50)
    assert result["slip_off_percent"] == pytest.approx(100 * 80 / 4400)


def test_a_slip_of_the_whole_vehicle_alone_says_how_far_off_that_is() -> None:
    result = weight(**EMPTY, item=("a 100kg 2m left",), slip_total_kg=4300, slip_left_kg=2200)

    assert result["slip_total_off_kg"] == pytest.approx(-100)
    assert result["slip_left_off_kg"] == pytest.approx(2200 - 2150 - 100)
    assert result.others[0] == (
        "the weigh slip, against the estimate", "100 kg less in all, 2.3 %"
    )  # fmt: skip


def test_a_slip_of_one_axle_speaks_of_that_axle() -> None:
    result = weight(**EMPTY, slip_front_kg=1910)

    assert result.others[0][1] == "10 kg more on the front axle"
    assert "slip_off_percent" not in [figure.name for figure in result.figures]


def test_stations_that_run_forward_load_the_other_axle() -> None:
    things = ("a 100kg 7m left", "b 50kg 2m")
    forward = weight(**EMPTY, front_axle_m=6.0, stations="forward", item=things)
    rearward = weight(**EMPTY, item=("a 100kg -1m left", "b 50kg 4m"))

    for name in ("now_front_kg", "now_rear_kg", "now_left_percent"):
        assert forward[name] == pytest.approx(rearward.number(name))
    assert forward["now_rear_kg"] == pytest.approx(2400 - 25 + 50)


def test_an_axle_lifted_off_the_ground_never_passes() -> None:
    result = weight(**EMPTY, item=("anvil 20000kg 10m",), gross_rating_kg=60000)

    assert result["passes"] is False
    assert "lifted" in result.governs


@pytest.mark.parametrize(
    "inputs",
    [{"front_kg": 0.0, "rear_kg": 0.0}, {"left_kg": 5000.0}, {"item": ("x 1kg 1m 0.5m left",)}],
)
def test_what_does_not_go_together_is_refused(inputs: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        weight(**{**EMPTY, **inputs})


def test_a_track_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange):
        weight(**EMPTY, track_m=0.5)


def _inputs(rng: random.Random) -> dict[str, Any]:
    drawn: dict[str, Any] = {
        name: within(input_named("weight", name), rng) for name in ("wheelbase_m", "front_axle_m")
    }
    drawn["front_kg"], drawn["rear_kg"] = rng.uniform(1, 20000), rng.uniform(0, 20000)
    for name in ("track_m", "front_rating_kg", "rear_rating_kg", "gross_rating_kg",
                 "slip_front_kg", "slip_rear_kg", "slip_total_kg", "slip_left_kg"):  # fmt: skip
        drawn[name] = rng.choice((None, within(input_named("weight", name), rng)))
    drawn["stations"] = rng.choice(("rearward", "forward"))
    drawn["item"] = tuple(_thing(rng) for _ in range(rng.randint(0, 3)))
    drawn["planned"] = tuple(_thing(rng) for _ in range(rng.randint(0, 1)))
    return drawn


def _thing(rng: random.Random) -> str:
    side = rng.choice(("", " left", " right"))
    mass = f"{rng.uniform(0, 2000):.1f}{rng.choice(('kg', 'l', 'lb'))}"
    return f"x {mass} {rng.uniform(0, 15):.2f}m{side}"


def test_random_loads_give_a_result() -> None:
    signed = (
        "now_front_kg", "now_rear_kg", "planned_front_kg", "planned_rear_kg", "front_margin_kg",
        "rear_margin_kg", "gross_margin_kg", "slip_front_off_kg", "slip_rear_off_kg",
        "slip_off_percent", "slip_total_off_kg", "slip_left_off_kg",
    )  # fmt: skip

    assert answered_share("weight", _inputs, signed) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("weight", _inputs) == []


def test_a_scale_that_showed_more_than_a_rating_outweighs_the_estimate() -> None:
    found = weight(**EMPTY, rear_rating_kg=2420, slip_rear_kg=2500)

    assert found["passes"] is False
    assert "by the weigh slip rear is 80 kg over its rating" in found.title
    assert any("80 kg more than the rear rating" in each for each in found.cautions)


def test_a_scale_that_showed_more_than_was_reckoned_takes_it_off_what_is_free() -> None:
    found = weight(**EMPTY, rear_rating_kg=2600, slip_rear_kg=2500)

    assert found["passes"] is True
    assert any("100 kg more (rear) than was reckoned" in each for each in found.cautions)
    quiet = weight(**EMPTY, rear_rating_kg=2600, slip_rear_kg=2300)
    assert not any("than was reckoned" in each for each in quiet.cautions)


def test_sides_that_nobody_weighed_are_said_to_be_taken_as_even() -> None:
    assert any("left wheels were not weighed" in each for each in weight(**EMPTY).working)
    told = weight(**EMPTY, left_kg=2100)
    assert not any("not weighed" in each for each in told.working)
