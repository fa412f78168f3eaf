"""The dew point beyond the published values: its order, its ends, and what is refused."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.dewpoint import dew_point_c, dewpoint, margin_k
from tracker.sizing.result import as_json


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


@given(st.floats(-40, 50), st.floats(0.1, 100), st.floats(0.1, 100))
def test_damper_air_never_has_a_lower_dew_point(air_c: float, one: float, other: float) -> None:
    drier, damper = sorted((one, other))

    assert dew_point_c(air_c, drier) <= dew_point_c(air_c, damper) + 1e-9


@given(st.floats(-40, 50), st.floats(-40, 50), st.floats(0.1, 100))
def test_warmer_air_of_the_same_humidity_never_has_a_lower_dew_point(
    one: float, other: float, humidity_pct: float
) -> None:
    colder, warmer = sorted((one, other))

    assert dew_point_c(colder, humidity_pct) <= dew_point_c(warmer, humidity_pct) + 1e-9


def test_saturated_air_is_at_its_dew_point() -> None:
    assert dew_point_c(12.5, 100.0) == pytest.approx(12.5)
    assert dew_point_c(-12.5, 100.0) == pytest.approx(-12.5)


def test_a_surface_colder_than_the_dew_point_has_a_margin_below_nothing() -> None:
    assert margin_k(7.0, 18.0, 60.0) == pytest.approx(-3.1, abs=0.06)


@pytest.mark.parametrize(
    ("air_c", "humidity_pct"), [(-40.1, 50.0), (50.1, 50.0), (20.0, 0.0), (20.0, 100.1)]
)
def test_readings_outside_the_source_are_refused(air_c: float, humidity_pct: float) -> None:
    with pytest.raises(BadInput, match="outside"):
        dew_point_c(air_c, humidity_pct)


def test_below_freezing_it_says_frost_and_above_it_says_dew() -> None:
    assert dewpoint(-5, 70)["kind"] == "frost"
    assert dewpoint(20, 60)["kind"] == "dew"


def test_without_a_surface_there_is_neither_margin_nor_pass() -> None:
    result = dewpoint(20, 60)

    assert (result["margin_c"], result["passes"]) == (None, None)


def test_its_json_says_point_margin_and_pass() -> None:
    said = as_json(dewpoint(20, 60, 15.1))

    assert said["dew_point_c"] == pytest.approx(12.0, abs=0.05)
    assert said["margin_c"] == pytest.approx(3.1, abs=0.05)
    assert said["passes"] is True


def test_the_sheet_of_a_product_asks_for_more_than_the_rule() -> None:
    assert dewpoint(20, 60, 15.1)["passes"] is True
    assert dewpoint(20, 60, 15.1, asked_k=5.0)["passes"] is False


def test_the_two_rules_stand_side_by_side_where_they_differ() -> None:
    result = dewpoint(20, 60, 12.0 + 2.9)

    assert result["passes"] is False
    assert ("by the 5 F rule", "met") in result.others


def _inputs(rng: random.Random) -> dict[str, Any]:
    names = ("air_c", "humidity_percent", "surface_c", "asked_k")
    drawn = {name: within(input_named("dewpoint", name), rng) for name in names}
    drawn["surface_c"] = rng.choice((None, drawn["surface_c"]))
    drawn["asked_k"] = rng.choice((None, drawn["asked_k"]))
    return {**drawn, "rules": rng.choice(("3c", "5f"))}


def test_random_readings_give_a_result() -> None:
    signed = ("dew_point_c", "margin_c", "least_surface_c")

    assert answered_share("dewpoint", _inputs, signed) >= 0.95


def test_random_readings_outside_are_refused() -> None:
    assert unrefused("dewpoint", _inputs) == []
