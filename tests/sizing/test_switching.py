"""Switched circuits beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.result import OutOfRange
from tracker.sizing.switching import switching


@pytest.mark.parametrize("places", [1, 2, 3])
def test_two_travellers_lie_between_each_two_switches(places: int) -> None:
    assert switching(places)["travellers"] == 2 * (places - 1)


@pytest.mark.parametrize("places", [1, 2, 3])
def test_without_a_return_along_each_segment_has_one_conductor_less(places: int) -> None:
    along, chassis = switching(places), switching(places, return_path="chassis")

    for number in range(1, places + 2):
        name = f"conductors_{number}"
        assert along.number(name) == chassis.number(name) + 1


def test_the_metres_are_those_of_every_segment() -> None:
    found = switching(3, ("2m", "3m", "4m", "1m"), return_path="straight", straight_m=5.0)

    assert found["wire_m"] == pytest.approx(2 * 1 + 3 * 2 + 4 * 2 + 1 * 1 + 5)
    assert found["traveller_m"] == pytest.approx(14.0)
    assert found["loop_m"] == pytest.approx(15.0)


def test_the_current_passes_one_traveller_and_comes_back() -> None:
    assert switching(2, ("2m", "3m", "4m"))["loop_m"] == pytest.approx(18.0)
    assert switching(2, ("2m", "3m", "4m"), return_path="chassis")["loop_m"] == pytest.approx(9.0)


def test_spare_conductors_lie_in_every_segment() -> None:
    assert switching(2, ("1m", "1m", "1m"), spare=2)["wire_m"] == pytest.approx(7 + 6)


@pytest.mark.parametrize(
    "given",
    [
        {"places": 2, "segment": ("2m", "3m")},
        {"places": 2, "segment": ("2", "3m", "4m")},
        {"places": 2, "segment": ("2m", "3m", "400m")},
        {"places": 1, "segment": ("2m", "3m"), "return_path": "straight"},
        {"places": 1, "straight_m": 3.0},
        {"places": 4},
        {"places": 1.5},
    ],
)
def test_what_does_not_go_together_is_refused(given: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        switching(**given)


def test_more_places_than_three_name_the_range() -> None:
    with pytest.raises(OutOfRange, match=r"--places 4 is outside 1 to 3"):
        switching(4)


def _make(rng: random.Random) -> dict[str, Any]:
    places = rng.randint(1, 3)
    way = rng.choice(("along", "straight", "chassis"))
    lengths = tuple(f"{rng.uniform(0.06, 199):.3f} m" for _ in range(places + 1))
    straight = within(input_named("switching", "straight_m"), rng)
    return {
        "places": places,
        "segment": lengths if rng.random() < 0.8 else (),
        "return_path": way,
        "straight_m": straight if way == "straight" else None,
        "spare": rng.randint(0, 10),
    }


def test_random_inputs_in_range_are_answered() -> None:
    assert answered_share("switching", _make) >= 0.95


def test_random_inputs_out_of_range_are_refused() -> None:
    assert unrefused("switching", _make) == []
