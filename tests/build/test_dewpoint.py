"""The dew point against values worked out elsewhere."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.build.dewpoint import dew_point_c, margin_k
from tracker.errors import BadInput


@pytest.mark.parametrize(
    ("air_c", "humidity_pct", "dew_c"), [(18.0, 60.0, 10.1), (25.0, 50.0, 13.9), (10.0, 85.0, 7.6)]
)
def test_the_dew_point_is_that_of_the_worked_examples(
    air_c: float, humidity_pct: float, dew_c: float
) -> None:
    assert round(dew_point_c(air_c, humidity_pct), 1) == dew_c


@given(st.floats(-40, 50), st.floats(0.1, 100))
def test_the_dew_point_never_lies_above_the_air(air_c: float, humidity_pct: float) -> None:
    assert dew_point_c(air_c, humidity_pct) <= air_c + 1e-9


def test_saturated_air_is_at_its_dew_point() -> None:
    assert dew_point_c(12.5, 100.0) == pytest.approx(12.5)


def test_a_surface_colder_than_the_dew_point_has_a_margin_below_nothing() -> None:
    assert margin_k(7.0, 18.0, 60.0) == pytest.approx(-3.1, abs=0.06)


@pytest.mark.parametrize(
    ("air_c", "humidity_pct"), [(-40.1, 50.0), (50.1, 50.0), (20.0, 0.0), (20.0, 100.1)]
)
def test_readings_outside_the_source_are_refused(air_c: float, humidity_pct: float) -> None:
    with pytest.raises(BadInput, match="outside"):
        dew_point_c(air_c, humidity_pct)
