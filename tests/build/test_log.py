"""What is written down as it happens."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard
from tracker.act import Fact
from tracker.build import log
from tracker.errors import BadInput, Refused

YESTERDAY = "2027-02-28T17:00:00+00:00"


def test_a_note_is_kept_with_who_when_and_what_it_is_about() -> None:
    yard = Yard()
    done = yard.do(log.note(" swept the floor ", ("run:L1",)), by="Ola", when=YESTERDAY)

    assert yard.build.notes == [
        log.Note(done.ref(0), YESTERDAY, "Ola", "swept the floor", ("run:L1",))
    ]


def test_a_line_waits_in_the_inbox_until_somebody_sorts_it_once() -> None:
    yard = Yard()
    ref = yard.do(log.to_inbox("twelve ok")).ref(0)
    assert yard.build.inbox[ref].sorted is None

    yard.do(log.sort_inbox(yard.build, ref, "note"))
    assert yard.build.inbox[ref].sorted == "note"

    with pytest.raises(BadInput, match="waits in the inbox"):
        log.sort_inbox(yard.build, ref, "note")


def test_a_line_nobody_put_there_can_not_be_sorted() -> None:
    with pytest.raises(BadInput, match="no line 'x/0' waits"):
        log.sort_inbox(Yard().build, "x/0", "note")


def test_sorting_a_line_whose_writing_was_undone_changes_nothing() -> None:
    yard = Yard()
    put = yard.do(log.to_inbox("twelve ok"))
    yard.do(log.sort_inbox(yard.build, put.ref(0), "note"))
    yard.do({"f": "undo", "acts": [put.id]})

    assert yard.build.inbox == {}


def test_conditions_keep_what_was_read_and_where() -> None:
    yard = Yard()
    done = yard.do(log.condition("zone:A", surface_c=12.0, humidity_pct=60.0, rain=False))

    assert yard.build.conditions == [
        log.Condition(done.ref(0), done.at, "Ida", "zone:A", 12.0, None, 60.0, None, False)
    ]


@pytest.mark.parametrize(
    ("readings", "problem"),
    [
        ({}, "a condition needs a reading"),
        ({"humidity_pct": 101.0}, "humidity 101 is outside 0 to 100 percent"),
    ],
)
def test_a_condition_without_a_reading_or_out_of_range_is_refused(
    readings: dict[str, Any], problem: str
) -> None:
    with pytest.raises(BadInput, match=problem):
        log.condition(**readings)


def test_a_day_begins_with_people_hours_and_weather() -> None:
    yard = Yard()
    done = yard.do(log.day(3, 8.0, 16.5, True, 6.0))

    assert yard.build.days == [log.Day(done.ref(0), done.at, "Ida", 3, 8.0, 16.5, True, 6.0)]


@pytest.mark.parametrize(
    ("people", "hours", "problem"),
    [
        (-1, (8.0, 16.0), "-1 people"),
        (100, (None, None), "100 people"),
        (2, (8.0, 25.0), "hour 25"),
    ],
)
def test_a_day_out_of_range_is_refused(
    people: int, hours: tuple[float | None, float | None], problem: str
) -> None:
    with pytest.raises(BadInput, match=problem):
        log.day(people, *hours)


def test_a_reservation_is_accepted_by_name_with_a_reason() -> None:
    yard = Yard()
    done = yard.do(log.accept("gap-12", " the card was lost "), by="Ola")

    assert yard.build.accepted == {
        "gap-12": log.Accepted(done.ref(0), done.at, "Ola", "the card was lost")
    }


def test_empty_words_are_refused() -> None:
    with pytest.raises(BadInput, match="a note needs words"):
        log.note("  ")
    with pytest.raises(Refused, match="needs a reason; add --why"):
        log.accept("gap-12", " ")


@pytest.mark.parametrize(
    "fact",
    [
        {"f": "note.written", "text": 12},
        {"f": "note.written", "text": "swept", "on": "run:L1"},
        {"f": "inbox.put"},
        {"f": "condition.logged", "surface_c": "cold"},
        {"f": "condition.logged", "rain": "yes"},
        {"f": "day.started", "people": "two"},
        {"f": "day.started", "people": 1e999},
        {"f": "reservation.accepted", "key": "gap-12"},
    ],
)
def test_what_can_not_be_read_is_not_taken(fact: Fact) -> None:
    yard = Yard(fact)
    build = yard.build

    assert (build.notes, build.inbox, build.conditions, build.days, build.accepted) == (
        [],
        {},
        [],
        [],
        {},
    )
    assert len(build.unknown) == 1
