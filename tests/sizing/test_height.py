"""Heights and exits beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.height import EXITS, WHERE, Opening, height
from tracker.sizing.result import OutOfRange


@given(st.floats(0.5, 5), st.floats(0, 1), st.sampled_from(WHERE))
def test_building_up_never_leaves_more_room(bus_m: float, deck_m: float, where: str) -> None:
    bare = height((f"bus {bus_m:.4f}m",), where=where)
    built = height((f"bus {bus_m:.4f}m", f"deck {deck_m:.4f}m"), where=where)

    assert built.number("margin_mm") <= bare.number("margin_mm") + 1e-6


@given(st.sampled_from(EXITS), st.floats(50, 2000), st.floats(50, 2000), st.floats(0, 500))
def test_a_larger_opening_never_fails_where_a_smaller_passes(
    kind: str, wide_mm: float, high_mm: float, more_mm: float
) -> None:
    if Opening(kind, wide_mm, high_mm).passes():
        assert Opening(kind, wide_mm + more_mm, high_mm + more_mm).passes()


def test_parts_are_read_as_people_write_them() -> None:
    result = height(("bus 10ft 6in", "roof deck: 95 mm", "45mm"))

    assert result["height_m"] == pytest.approx(3.2004 + 0.095 + 0.045)


def test_the_limit_given_goes_before_the_known_one() -> None:
    result = height(("bus 3.1m",), limit_m=3.2, where="eu")

    assert (result["limit_m"], result.governs) == (3.2, "the limit given")


def test_a_vehicle_too_wide_does_not_pass() -> None:
    assert height(("bus 3m",), width_m=2.55, where="eu")["passes"] is True
    assert height(("bus 3m",), width_m=2.56, where="eu")["passes"] is False
    assert height(width_m=2.58)["passes"] is True


def test_exits_are_read_with_one_unit_or_two() -> None:
    both = height(exit=("roof 20in x 20in", "rear-door 610x1140mm"))

    assert both["exit_1_area_cm2"] == pytest.approx(50.8 * 50.8)
    assert both["exit_2_passes"] is True


def test_one_exit_too_small_fails_the_whole() -> None:
    result = height(("bus 3m",), exit=("roof 600mm x 600mm", "bedroom 500mm x 500mm"))

    assert (result["exit_1_passes"], result["exit_2_passes"], result["passes"]) == (
        True, False, False,
    )  # fmt: skip


@pytest.mark.parametrize(
    "inputs",
    [{}, {"part": ("bus",)}, {"part": ("bus 3",)}, {"exit": ("roof",)}, {"exit": ("roof 500mm",)},
     {"exit": ("cellar 5m x 5m",)}, {"exit": ("roof 5 x 5",)}],
)  # fmt: skip
def test_what_can_not_be_read_is_refused(inputs: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        height(**inputs)


@pytest.mark.parametrize(
    "inputs",
    [{"part": ("bus 7m",)}, {"part": ("bus 5m", "tower 4m")}, {"part": ("x 0.1m",)},
     {"exit": ("roof 10mm x 10mm",)}],
)  # fmt: skip
def test_what_is_out_of_range_is_refused(inputs: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        height(**inputs)


@given(st.text(max_size=40), st.text(max_size=40))
def test_any_text_is_a_height_or_is_refused(part: str, opening: str) -> None:
    for inputs in ({"part": (part,)}, {"exit": (opening,)}):
        try:
            height(**inputs)  # type: ignore[arg-type]
        except BadInput:
            continue


def _inputs(rng: random.Random) -> dict[str, Any]:
    drawn: dict[str, Any] = {
        name: rng.choice((None, within(input_named("height", name), rng)))
        for name in ("limit_m", "spare_mm", "width_m")
    }
    parts = [f"p {rng.uniform(0, 1.2):.3f}m" for _ in range(rng.randint(0, 3))]
    drawn["part"] = ("bus 2.5m", *parts)
    drawn["exit"] = tuple(
        f"{rng.choice(EXITS)} {rng.uniform(50, 2000):.1f} x {rng.uniform(50, 2000):.1f}mm"
        for _ in range(rng.randint(0, 3))
    )
    return {**drawn, "where": rng.choice(WHERE)}


def test_random_builds_give_a_result() -> None:
    assert answered_share("height", _inputs, ("margin_mm",)) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("height", _inputs) == []
