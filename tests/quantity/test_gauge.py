"""The wire gauge against printed tables.

The printed values are those of Kuphaldt, Lessons in Electric Circuits: volume V, chapter 3 for
diameters (in) and circular mils, volume I, chapter 12 for square inches; printed to four figures.
"""

from __future__ import annotations

import pytest

from tracker.errors import BadInput
from tracker.quantity import awg_area_mm2, awg_diameter_mm, awg_name, parse


@pytest.mark.parametrize(("number", "inches"), [(-3, 0.4600), (36, 0.005000), (10, 0.1019)])
def test_diameters_agree_with_the_printed_table(number: int, inches: float) -> None:
    assert awg_diameter_mm(number) == pytest.approx(inches * 25.4, rel=5e-4)


def test_the_area_of_14_awg_agrees_with_the_printed_circular_mils() -> None:
    assert awg_area_mm2(14) == pytest.approx(parse("4.107 kcmil", "mm2"), rel=5e-4)


def test_the_area_of_10_awg_agrees_with_the_printed_square_inches() -> None:
    assert awg_area_mm2(10) == pytest.approx(0.008155 * 25.4**2, rel=5e-4)


@pytest.mark.parametrize("number", range(-3, 41))
def test_a_gauge_is_read_back_from_its_area_and_its_name(number: int) -> None:
    name = awg_name(awg_area_mm2(number))

    assert name is not None
    assert parse(name, "mm2") == pytest.approx(awg_area_mm2(number), rel=1e-12)


@pytest.mark.parametrize("typed", ["2/0AWG", "2/0", "00 AWG", "AWG 2/0", "awg2/0", "#2/0"])
def test_two_aught_is_taken_however_it_is_written(typed: str) -> None:
    assert parse(typed, "mm2") == awg_area_mm2(-1)


@pytest.mark.parametrize("typed", ["41 AWG", "5/0", "0/0", "014AWG", "14.5AWG", "-14AWG"])
def test_a_gauge_that_does_not_exist_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        parse(typed, "mm2")


@pytest.mark.parametrize("number", [-4, 41])
def test_a_number_outside_the_gauge_is_an_error(number: int) -> None:
    with pytest.raises(ValueError, match="outside"):
        awg_diameter_mm(number)


def test_a_metric_size_between_gauges_has_no_gauge_name() -> None:
    assert awg_name(2.5) is None
