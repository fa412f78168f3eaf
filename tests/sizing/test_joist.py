"""Joists beyond the published values, and against beams cut into many small ones.

The finite-element libraries in the registry pull in plotting and scientific packages, so the
check is a small stiffness method of its own, written here with numpy.
"""

from __future__ import annotations

import random
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.beam import stability_factor, uniform_deflection_m, uniform_moment_nm
from tracker.sizing.joist import joist
from tracker.sizing.result import OutOfRange
from tracker.sizing.timber import section_of

SPANS = st.floats(0.2, 8)
LOADS = st.floats(100, 20000)


def _cut_into_pieces(
    load_n_m: float, span_m: float, stiffness_nm2: float, pieces: int = 20
) -> tuple[float, float]:
    """Greatest sag (m) and moment (N m) of a beam on two supports by the stiffness method."""
    h = span_m / pieces
    part = (stiffness_nm2 / h**3) * np.array(
        [
            [12, 6 * h, -12, 6 * h],
            [6 * h, 4 * h * h, -6 * h, 2 * h * h],
            [-12, -6 * h, 12, -6 * h],
            [6 * h, 2 * h * h, -6 * h, 4 * h * h],
        ]
    )
    push = load_n_m * np.array([h / 2, h * h / 12, h / 2, -h * h / 12])
    whole, force = np.zeros((2 * pieces + 2,) * 2), np.zeros(2 * pieces + 2)
    for n in range(pieces):
        whole[2 * n : 2 * n + 4, 2 * n : 2 * n + 4] += part
        force[2 * n : 2 * n + 4] += push
    free = [n for n in range(2 * pieces + 2) if n not in (0, 2 * pieces)]
    moved = np.zeros(2 * pieces + 2)
    moved[free] = np.linalg.solve(whole[np.ix_(free, free)], force[free])
    middle = pieces // 2
    ends = part @ moved[2 * middle : 2 * middle + 4] - push
    return float(moved[2 * middle]), float(abs(ends[1]))


@settings(max_examples=200, deadline=None)
@given(LOADS, SPANS, st.floats(1e3, 1e6))
def test_moment_and_sag_are_those_of_a_beam_cut_into_pieces(
    load_n_m: float, span_m: float, stiffness_nm2: float
) -> None:
    sag, moment = _cut_into_pieces(load_n_m, span_m, stiffness_nm2)

    assert uniform_deflection_m(load_n_m, span_m, stiffness_nm2, 1.0) == pytest.approx(sag, 1e-6)
    assert uniform_moment_nm(load_n_m, span_m) == pytest.approx(moment, 1e-6)


def _depth(span_m: float, live_pa: float) -> float:
    """The depth of the smallest lumber that does; endless where none does."""
    try:
        label = str(joist(span_m, live_pa=live_pa)["section"])
    except BadInput:
        return float("inf")
    return section_of(label, "spf").depth_m


@given(SPANS, LOADS, LOADS)
def test_more_load_never_takes_a_smaller_joist(span_m: float, one: float, other: float) -> None:
    light, heavy = sorted((one, other))

    assert _depth(span_m, light) <= _depth(span_m, heavy)


@given(SPANS, SPANS, LOADS)
def test_a_longer_span_never_takes_a_smaller_joist(one: float, other: float, load: float) -> None:
    short, long = sorted((one, other))

    assert _depth(short, load) <= _depth(long, load)


@given(SPANS, LOADS, st.floats(0.1, 8))
def test_what_lowers_strength_never_lengthens_the_span(
    span_m: float, live_pa: float, unbraced_m: float
) -> None:
    plain = joist(span_m, section="2x8", live_pa=live_pa).number("longest_span_m")

    for worse in (
        {"wet": True},
        {"incised": True},
        {"alone": True},
        {"unbraced_m": unbraced_m},
        {"dead_pa": 2000.0},
    ):
        held = joist(span_m, section="2x8", live_pa=live_pa, **worse)  # type: ignore[arg-type]
        assert held.number("longest_span_m") <= plain + 1e-9


@given(SPANS, LOADS)
def test_it_passes_exactly_up_to_its_longest_span(span_m: float, live_pa: float) -> None:
    result = joist(span_m, section="2x8", live_pa=live_pa)
    longest = result.number("longest_span_m")

    if abs(longest - span_m) > 1e-6:
        assert result["passes"] is (span_m < longest)


@given(st.floats(0.1, 20), st.floats(1e6, 2e7), st.floats(1e9, 1e10))
def test_tipping_takes_a_share_between_none_and_all(
    effective_m: float, strength_pa: float, emin_pa: float
) -> None:
    assert 0 < stability_factor(effective_m, 0.038, 0.14, strength_pa, emin_pa) <= 1


@pytest.mark.parametrize(
    ("section", "material"),
    [("2x6", "steel"), ("50x50mm", "steel"), ("50x50x3mm", "spf"), ("nonsense", "spf"), ("", "df")],
)
def test_a_section_that_does_not_suit_the_material_is_refused(section: str, material: str) -> None:
    with pytest.raises(BadInput):
        joist(2.0, section=section, material=material)


@pytest.mark.parametrize(
    ("section", "material"), [("50x50x30mm", "steel"), ("38x600mm", "spf"), ("38x400mm", "spf")]
)
def test_a_section_out_of_range_is_refused(section: str, material: str) -> None:
    with pytest.raises(OutOfRange):
        joist(2.0, section=section, material=material)


def test_a_span_no_lumber_reaches_says_how_far_the_largest_goes() -> None:
    with pytest.raises(BadInput, match="2x12 reaches"):
        joist(8.0, live_pa=10000)


def test_wide_spacing_takes_each_joist_alone() -> None:
    wide = joist(2.0, spacing_m=0.7, section="2x6")

    assert wide["bending_allowed_mpa"] == joist(2.0, section="2x6", alone=True)[
        "bending_allowed_mpa"
    ]  # fmt: skip
    assert any("each is taken alone" in caution for caution in wide.cautions)


def _inputs(rng: random.Random) -> dict[str, Any]:
    drawn: dict[str, Any] = {
        name: within(input_named("joist", name), rng) for name in ("span_m", "spacing_m")
    }
    for name in ("live_pa", "dead_pa", "unbraced_m"):
        drawn[name] = rng.choice((None, within(input_named("joist", name), rng)))
    material = rng.choice(("spf", "df", "hf", "sp", "steel", "aluminium"))
    if material in ("steel", "aluminium"):
        width, depth = rng.randint(20, 100), rng.randint(20, 150)
        section: str | None = f"{width}x{depth}x{rng.uniform(1, 9):.1f}mm"
    elif rng.random() < 0.02:
        section = None
    else:
        section = rng.choice(("2x4", "2x6", "2x8", "2x10", "2x12", "45x145mm"))
    flags = {name: rng.random() < 0.5 for name in ("alone", "wet", "incised", "welded")}
    limit = rng.choice(("180", "240", "360", "480"))
    return {**drawn, **flags, "material": material, "section": section, "limit": limit}


def test_random_joists_give_a_result() -> None:
    assert answered_share("joist", _inputs) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("joist", _inputs) == []
