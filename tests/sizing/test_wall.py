"""Walls beyond the published values: order, ends, and what is refused."""

from __future__ import annotations

import random
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.layer import layer_of, paths
from tracker.sizing.result import OutOfRange
from tracker.sizing.wall import wall

R = st.floats(0.01, 10)


@given(st.lists(R, min_size=1, max_size=5), st.data())
def test_both_limits_lie_between_the_rib_and_the_clear_field(
    layers: list[float], data: st.DataObject
) -> None:
    bridged = data.draw(st.integers(0, len(layers) - 1))
    rib = data.draw(st.floats(1e-4, layers[bridged]))
    found = paths(layers, bridged, rib, data.draw(st.floats(0, 0.9)), 0.13, 0.04)

    assert found.rib - 1e-9 <= found.lower <= found.upper + 1e-9 <= found.clear + 2e-9


@given(st.floats(1, 300), st.floats(1, 300), st.floats(-40, 10))
def test_thicker_foam_never_loses_more_heat_nor_has_a_colder_face(
    one_mm: float, other_mm: float, outside_c: float
) -> None:
    thin, thick = (wall((f"foam {each:.3f}mm",), outside_c) for each in sorted((one_mm, other_mm)))

    assert thick.number("heat_loss_w") <= thin.number("heat_loss_w") + 1e-9
    assert thick.number("keep_c") >= thin.number("keep_c") - 1e-9


@given(st.floats(1, 100), st.floats(1, 100), st.floats(-40, 10))
def test_damper_air_never_needs_thinner_foam(one: float, other: float, outside_c: float) -> None:
    least = [
        wall(("foam 50mm",), outside_c, humidity_percent=each)["least_mm"]
        for each in sorted((one, other))
    ]

    if None not in least:
        assert float(least[0] or 0) <= float(least[1] or 0) + 1e-6


@given(st.floats(-40, 15), st.floats(5, 95))
def test_the_least_thickness_is_where_dry_begins(outside_c: float, humidity: float) -> None:
    least = wall(("foam 50mm",), outside_c, 20, humidity).number("least_mm")

    if 0.3 < least < 590:
        wet = wall((f"foam {least - 0.1:.6f}mm",), outside_c, 20, humidity)
        dry = wall((f"foam {least + 0.1:.6f}mm",), outside_c, 20, humidity)
        assert (wet["passes"], dry["passes"]) == (False, True)


def test_faces_grow_warmer_inward() -> None:
    result = wall(("steel 1mm", "foam 50mm", "plywood 6mm"), -10)
    faces = [result.number(f"face_{n}_c") for n in range(4)]

    assert all(outer < inner for outer, inner in pairwise(faces))


def test_tape_and_strapping_take_off_part_of_what_ribs_cost() -> None:
    ribs = {"rib": "steel", "rib_mm": 1.2, "rib_spacing_mm": 400.0}
    bare = wall(("foam 50mm",), -10, **ribs)  # type: ignore[arg-type]
    taped = wall(("foam 50mm",), -10, tape_mm=6, **ribs)  # type: ignore[arg-type]
    strapped = wall(("foam 50mm", "softwood 19mm"), -10, **ribs)  # type: ignore[arg-type]

    assert bare.number("u_w_m2k") > taped.number("u_w_m2k")
    assert bare.number("u_w_m2k") > strapped.number("u_w_m2k")
    assert bare.number("rib_penalty_percent") > taped.number("rib_penalty_percent")


def test_metal_ribs_take_the_lower_limit_and_wood_the_mean() -> None:
    steel = wall(("foam 50mm",), -10, rib="steel", rib_mm=1.2, rib_spacing_mm=400)
    wood = wall(("foam 50mm",), -10, rib="softwood", rib_mm=38, rib_spacing_mm=400)

    assert steel["resistance_m2k_w"] == steel["lower_m2k_w"]
    assert wood.number("resistance_m2k_w") == pytest.approx(
        (wood.number("upper_m2k_w") + wood.number("lower_m2k_w")) / 2
    )
    assert any("can't be put in one number" in caution for caution in steel.cautions)


def test_saturated_air_has_no_least_thickness() -> None:
    result = wall(("foam 50mm",), -10, humidity_percent=100)

    assert (result["least_mm"], result["passes"]) == (None, False)


@pytest.mark.parametrize(
    "text", ["", "foam", "50mm", "cheese 10mm", "foam 50", "foam 1/0mm", "foam 50mm x"]
)
def test_a_layer_that_can_not_be_read_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        layer_of(text)


@pytest.mark.parametrize("text", ["foam 5m", "foam 50mm 0.001", "gap R21", "x 0.01mm 0.1"])
def test_a_layer_out_of_range_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange):
        layer_of(text)


@given(st.text(max_size=50))
def test_any_text_is_a_layer_or_is_refused(text: str) -> None:
    try:
        layer = layer_of(text)
    except BadInput:
        return
    assert layer.resistance_m2k_w >= 0


@pytest.mark.parametrize(
    "inputs",
    [
        {"outside_c": 25.0},
        {"rib": "steel"},
        {"rib_mm": 2.0},
        {"rib": "steel", "rib_mm": 60.0, "rib_spacing_mm": 50.0},
        {"keep": "plywood"},
        {"layer": ("cavity R1",), "rib": "steel", "rib_mm": 2.0, "rib_spacing_mm": 400.0},
        {"layer": ("cavity R0",)},
        {"layer": ()},
    ],
)
def test_what_does_not_go_together_is_refused(inputs: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        wall(**{"layer": ("foam 50mm",), "outside_c": -10.0, **inputs})


def _inputs(rng: random.Random) -> dict[str, Any]:
    names = ("outside_c", "inside_c", "humidity_percent", "area_m2", "tape_w_mk")
    drawn: dict[str, Any] = {name: within(input_named("wall", name), rng) for name in names}
    drawn["inside_c"] = rng.uniform(max(-10.0, drawn["outside_c"] + 0.01), 45.0)
    layers = [f"foam {rng.uniform(1, 300):.1f}mm", f"board {rng.uniform(1, 50):.1f}mm 0.2"]
    drawn["layer"] = tuple(layers[: rng.randint(1, 2)])
    if rng.random() < 0.5:
        drawn["rib"] = rng.choice(("steel", "stainless", "aluminium", "softwood"))
        drawn["rib_spacing_mm"] = within(input_named("wall", "rib_spacing_mm"), rng)
        drawn["rib_mm"] = rng.uniform(0.3, min(150.0, 0.9 * drawn["rib_spacing_mm"]))
        drawn["tape_mm"] = rng.choice((None, within(input_named("wall", "tape_mm"), rng)))
    return {**drawn, "flow": rng.choice(("up", "horizontal", "down"))}


def test_random_walls_give_a_result() -> None:
    signed = (
        "dew_point_c", "keep_c", "rib_face_c", "face_0_c", "face_1_c", "face_2_c",
        "rib_penalty_percent",
    )  # fmt: skip

    assert answered_share("wall", _inputs, signed) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("wall", _inputs) == []


def test_a_dry_face_does_not_hide_a_rib_below_the_dew_point() -> None:
    ribbed: dict[str, Any] = {"rib": "steel", "rib_mm": 1.2, "rib_spacing_mm": 400.0}
    dry: dict[str, Any] = {"outside_c": 0.0, "layer": ("foam 50mm",)}

    assert "over a rib" in wall(**dry, **ribbed).title
    assert "over a rib" not in wall(**dry).title
