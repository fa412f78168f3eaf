from __future__ import annotations

import json

import pytest

from tests.cli.yard import Yard


def booked(yard: Yard, *words: str) -> str | None:
    return json.loads(yard.run("todo", "--json", *words).out)["hold_point"]["booked"]


def test_a_close_in_is_booked_and_the_booking_dropped(yard: Yard) -> None:
    assert "pre-foam: booked for 2027-04-18" in yard.saved("book", "pre-foam", "2027-04-18")
    assert booked(yard) == "2027-04-18"
    assert "booking dropped" in yard.saved("book", "pre-foam", "none")
    assert booked(yard) is None


def test_one_zone_has_a_day_of_its_own(yard: Yard) -> None:
    yard.saved("book", "pre-foam", "2027-04-18")
    out = yard.saved("book", "pre-foam", "2027-04-24", "--zone", "roof")

    assert "booked in roof for 2027-04-24" in out
    assert booked(yard, "--zone", "roof") == "2027-04-24"
    assert booked(yard, "--zone", "port") == "2027-04-18"


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("pre-foam", "18.4.27"), "is no date; write it like 2027-04-18"),
        (("pre-foam", "2027-02-30"), "is no date"),
        (("pre-foam", "none"), "pre-foam is not booked"),
        (("prefoam", "2027-04-18"), "did you mean pre-foam?"),
        (("pre-foam", "2027-04-18", "--zone", "rooof"), "did you mean roof?"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    yard: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in yard.refused("book", *words)


def test_booking_the_same_day_again_is_refused(yard: Yard) -> None:
    yard.saved("book", "pre-foam", "2027-04-18")

    assert "is booked for 2027-04-18 already" in yard.refused("book", "pre-foam", "2027-04-18")


def test_a_day_that_is_past_is_booked_with_a_word_about_it(yard: Yard) -> None:
    said = yard.run("book", "pre-foam", "1999-01-01")

    assert said.status == 0
    assert "past already" in said.err
