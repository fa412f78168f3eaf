from __future__ import annotations

import json

import pytest

from tests.cli.yard import Yard


def test_the_margin_is_worked_out_and_shown(yard: Yard) -> None:
    out = yard.saved("condition", "--surface", "14C", "--air", "18 C", "--humidity", "60%")
    assert "over the dew point 3.88 K" in out and "Magnus formula" in out
    saved = json.loads(yard.run("condition", "--margin", "4.5F", "--json").out)
    assert saved["margin_k"] == 2.5


def test_frost_is_a_reading_and_no_option(yard: Yard) -> None:
    assert yard.run("condition", "--air", "-2C", "--dry").status == 0

    assert yard.session.build.conditions[0].air_c == -2.0


def test_a_surface_too_cold_is_said_to_void_what_weather_voids(yard: Yard) -> None:
    said = yard.run("condition", "--surface", "4C", "--zone", "roof")

    assert said.status == 0
    assert "below 10 C; answers to pre-foam" in said.err
    assert "product's own sheet" in said.err
    assert yard.run("condition", "--surface", "12C", "--zone", "roof").err == ""


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ((), "needs a reading"),
        (("--surface", "8"), "needs a unit"),
        (("--humidity", "170%"), "outside 0 to 100"),
        (("--rain", "--dry"), "not allowed with"),
        (("--air", "5C", "--zone", "rof"), "did you mean roof?"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    yard: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in yard.refused("condition", *words)


@pytest.mark.parametrize("reading", ["--air", "--surface"])
def test_what_no_instrument_in_a_yard_reads_is_refused(yard: Yard, reading: str) -> None:
    assert "500 is outside" in yard.refused("condition", reading, "500C")
