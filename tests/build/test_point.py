"""Answers: what takes the place of what."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, check, run
from tracker.build.point import RESULTS, answer

ANSWERED = {
    "f": "point.answered",
    "check": "check:label",
    "subject": "run:L1",
    "result": "good",
}
POINT = ("check:label", "run:L1")


def _yard() -> Yard:
    return Yard(run("L1"), check("label"))


def test_an_answer_names_every_answer_that_stands_and_takes_their_place() -> None:
    yard = _yard()
    one, other = yard.do(ANSWERED), yard.do(ANSWERED | {"result": "bad"}, writer="bbbbbbbb")
    assert len(yard.build.answers[POINT]) == 2

    fact = answer(yard.build, *POINT, "good", {})
    assert fact["over"] == [one.ref(0), other.ref(0)]

    settled = yard.do(fact)
    assert [head.ref for head in yard.build.answers[POINT]] == [settled.ref(0)]


def test_an_answer_given_in_knowledge_of_one_of_two_leaves_the_other_against_it() -> None:
    yard = _yard()
    one = yard.do(ANSWERED)
    other = yard.do(ANSWERED | {"result": "bad"})
    last = yard.do(ANSWERED | {"over": [one.ref(0)]})

    assert [head.ref for head in yard.build.answers[POINT]] == [other.ref(0), last.ref(0)]


def test_details_that_are_not_given_are_left_out() -> None:
    fact = answer(_yard().build, *POINT, "good", {}, second=None, by="Ola")

    assert fact == ANSWERED | {"by": "Ola"}


def test_who_answered_is_who_is_named_else_who_typed_it() -> None:
    yard = _yard()
    yard.do(ANSWERED | {"by": "Ola"}, by="Ida")
    assert yard.build.answers[POINT][0].by == "Ola"

    yard = _yard()
    yard.do(ANSWERED, by="Ida", when="2027-02-27T17:00:00+00:00")
    (found,) = yard.build.answers[POINT]
    assert (found.by, found.when) == ("Ida", "2027-02-27T17:00:00+00:00")
    assert (found.value, found.second, found.why) == (None, None, None)


def test_what_an_answer_says_besides_can_be_read() -> None:
    yard = _yard()
    said = {"result": "measured", "value": 2, "second": "Ola", "why": "tight bend"}
    yard.do(ANSWERED | said)

    (found,) = yard.build.answers[POINT]

    assert (found.value, found.second, found.why) == (2.0, "Ola", "tight bend")


@pytest.mark.parametrize("result", RESULTS)
def test_every_result_is_taken(result: str) -> None:
    yard = _yard()
    yard.do(ANSWERED | {"result": result})

    assert yard.build.answers[POINT][0].result == result


@pytest.mark.parametrize(
    "said",
    [
        {"result": "fine"},
        {"result": None},
        {"result": "measured", "value": "long"},
        {"value": None},
        {"second": 3},
        {"why": None},
        {"saw": ["to"]},
        {"over": 5},
    ],
)
def test_an_answer_that_can_not_be_read_is_not_taken(said: dict[str, Any]) -> None:
    yard = _yard()
    yard.do(ANSWERED | said)

    assert yard.build.answers == {}
    assert len(yard.build.unknown) == 1
