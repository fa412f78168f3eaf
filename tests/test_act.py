"""Acts and their names."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tracker.act import Act, act_id, short_id, stamp_of

MOMENT = "2027-03-01T08:00:00+00:00"
stamps = st.integers(0, 0xEFFF_FFFF_FFFF)


@given(stamps, stamps)
def test_ids_sort_as_their_stamps_do(one: int, other: int) -> None:
    first, second = act_id(one, "aaaaaaaa", 10), act_id(other, "bbbbbbbb", 9)

    assert (first < second) == (one <= other)


@given(stamps, st.integers(1, 10**9))
def test_the_stamp_can_be_read_back(stamp_ms: int, sequence: int) -> None:
    assert stamp_of(act_id(stamp_ms, "k7wqabcd", sequence)) == stamp_ms


def test_people_type_the_start_of_the_writer_and_the_number() -> None:
    assert short_id(act_id(1_800_000_000_000, "k7wqabcd", 12)) == "k7wq-12"


def test_a_fact_is_known_by_its_act_and_its_place_in_it() -> None:
    act = Act(act_id(5, "aaaaaaaa", 1), MOMENT, "Ida", ({"f": "a"}, {"f": "b"}))

    assert act.ref(1) == f"{act.id}/1"


def test_an_act_happened_when_it_says_and_else_when_it_was_typed() -> None:
    typed = Act("id", MOMENT, "Ida", ())
    earlier = typed._replace(when="2027-02-27T17:00:00+00:00")

    assert typed.happened == MOMENT
    assert earlier.happened == "2027-02-27T17:00:00+00:00"
