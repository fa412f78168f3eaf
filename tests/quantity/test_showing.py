"""What people read is what was kept, and can be typed again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.quantity import parse, show
from tracker.quantity.units import TAKEN

SHOWN = [
    (5.4864, "m", "us", "18 ft"),
    (1.0668, "m", "us", "3' 6\""),
    (1.0795, "m", "us", "3' 6 1/2\""),
    (-0.2286, "m", "us", "-9 in"),
    (0.0, "m", "us", "0 in"),
    (12.7, "mm", "us", "1/2 in"),
    (5.5, "m", "metric", "5.5 m"),
    (0.2286, "m", "metric", "228.6 mm"),
    (2.0809077, "mm2", "us", "14 AWG"),
    (2.5, "mm2", "us", "2.5 mm2"),
    (16.666667, "C", "us", "62 F"),
    (16.666667, "C", "metric", "16.67 C"),
    (3.0, "K", "us", "5.4 F"),
    (3.0, "%", "metric", "3%"),
    (123456.0, "Wh", "metric", "123456 Wh"),
    (0.000012, "A", "metric", "0.000012 A"),
    (-0.0, "V", "metric", "0 V"),
    (3.0, "sheet", "us", "3 sheet"),
    (3.0, "", "us", "3"),
]


@pytest.mark.parametrize(("value", "unit", "system", "text"), SHOWN)
def test_a_value_is_shown_in_the_readers_units(
    value: float, unit: str, system: str, text: str
) -> None:
    assert show(value, unit, system) == text


@given(
    value=st.floats(-250, 100_000),
    unit=st.sampled_from(list(TAKEN)),
    system=st.sampled_from(["metric", "us"]),
)
def test_what_is_shown_reads_back_within_its_own_rounding(
    value: float, unit: str, system: str
) -> None:
    tape = {"m": 0.0254 / 32, "mm": 25.4 / 32}.get(unit, 0.0) if system == "us" else 0.0

    again = parse(show(value, unit, system), unit)

    gauge_or_rounding = 6e-3 if unit == "mm2" else 6e-4
    zero_of_fahrenheit = 0.02 if unit == "C" else 0.0
    allowed = abs(value) * gauge_or_rounding + tape + zero_of_fahrenheit + 1e-9
    assert abs(again - value) <= allowed
