"""Sheets beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.cutlist import cutlist
from tracker.sizing.result import OutOfRange


@given(st.floats(0.001, 10000), st.floats(0.001, 10000), st.floats(0, 100))
def test_a_larger_area_never_takes_fewer_sheets(one: float, other: float, waste: float) -> None:
    small, large = (
        cutlist(area_m2=(each,), waste_percent=waste).number("sheets")
        for each in sorted((one, other))
    )

    assert small <= large


@given(st.floats(0.01, 2.4), st.floats(0.01, 1.2), st.integers(1, 50), st.integers(1, 50))
def test_more_pieces_never_take_fewer_sheets(
    long: float, wide: float, one: int, other: int
) -> None:
    few, many = (
        cutlist((f"{count} x {long:.3f}m x {wide:.3f}m",)).number("sheets")
        for count in sorted((one, other))
    )

    assert few <= many


@given(st.floats(0.01, 2.4), st.floats(0.01, 1.2), st.integers(1, 50))
def test_the_sheets_hold_the_pieces_by_area(long: float, wide: float, count: int) -> None:
    result = cutlist((f"{count} x {long:.3f}m x {wide:.3f}m",), waste_percent=0)
    sheet_m2 = 8 * 4 * 0.3048**2

    assert result.number("sheets") * sheet_m2 >= count * round(long, 3) * round(wide, 3) - 1e-6


@given(st.floats(0.01, 1.2), st.floats(0.01, 1.2), st.integers(1, 50))
def test_pieces_that_may_not_be_turned_never_take_fewer_sheets(
    long: float, wide: float, count: int
) -> None:
    piece = (f"{count} x {long:.3f}m x {wide:.3f}m",)

    assert cutlist(piece).number("sheets") <= cutlist(piece, grain=True).number("sheets")


@pytest.mark.parametrize(
    ("text", "area_m2"),
    [
        ("4 x 600mm x 400mm", 0.96),
        ("shelf 2ft x 16in", 0.24774),
        ("600x400mm", 0.24),
        ("bench top: 3 x 1m x 0.5m", 1.5),
    ],
)
def test_a_piece_is_read_as_people_write_it(text: str, area_m2: float) -> None:
    assert cutlist((text,), kerf_mm=0)["area_m2"] == pytest.approx(area_m2, rel=1e-3)


@pytest.mark.parametrize("text", ["", "shelf", "600mm", "a x b", "600 x 400", "0 x 1m x 1m"])
def test_a_piece_that_can_not_be_read_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        cutlist((text,))


@pytest.mark.parametrize("text", ["1001 x 1m x 1m", "1mm x 1m", "13m x 1m"])
def test_a_piece_out_of_range_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange):
        cutlist((text,))


def test_a_piece_larger_than_the_sheet_is_refused_by_name() -> None:
    with pytest.raises(BadInput, match="table top"):
        cutlist(("table top 1.3m x 1.3m",))
    with pytest.raises(BadInput, match="without turning"):
        cutlist(("door 1m x 2m",), grain=True)


def test_openings_may_not_take_more_than_there_is() -> None:
    assert cutlist(area_m2=(10.0,), less_m2=(2.0,))["area_m2"] == pytest.approx(8.0)
    with pytest.raises(BadInput, match="--less"):
        cutlist(area_m2=(2.0,), less_m2=(2.0,))


@given(st.text(max_size=40))
def test_any_text_is_a_piece_or_is_refused(text: str) -> None:
    try:
        result = cutlist((text,))
    except BadInput:
        return
    assert result.number("sheets") >= 1


def _inputs(rng: random.Random) -> dict[str, Any]:
    drawn: dict[str, Any] = {
        name: rng.choice((None, within(input_named("cutlist", name), rng)))
        for name in ("waste_percent", "kerf_mm", "thick_mm")
    }
    drawn["long_m"], drawn["wide_m"] = rng.uniform(1, 12), rng.uniform(0.5, 3)
    drawn["piece"] = tuple(
        f"{rng.randint(1, 40)} x {rng.uniform(0.01, 1):.3f}m x {rng.uniform(0.01, 0.5):.3f}m"
        for _ in range(rng.randint(0, 3))
    )
    drawn["area_m2"] = (rng.uniform(1, 100),)
    drawn["less_m2"] = tuple(rng.uniform(0.001, 0.5) for _ in range(rng.randint(0, 1)))
    return {
        **drawn,
        "layout": rng.choice(("simple", "complex")),
        "grain": rng.random() < 0.3,
        "material": rng.choice(("plywood", "steel", "aluminium")),
    }


def test_random_lists_give_a_result() -> None:
    assert answered_share("cutlist", _inputs) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("cutlist", _inputs) == []
