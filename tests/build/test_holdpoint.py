"""The states of a hold point: every cell of the table, and what is recorded."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.build.making import Yard, ground, hold
from tracker.act import Fact
from tracker.build import holdpoint
from tracker.build.fold import APPLIERS
from tracker.build.holdpoint import MOVES, STATES, TABLE, pack_basis, state_of, unpack_basis

RECORDS = ("nothing", "withdrawn", "released", "closed", "reopened")
YES_NO = (False, True)


@pytest.mark.parametrize(
    ("record", "holds", "ready", "begun"), list(product(RECORDS, YES_NO, YES_NO, YES_NO))
)
def test_exactly_one_row_fits_every_cell(
    record: str, holds: bool, ready: bool, begun: bool
) -> None:
    rows = [
        row
        for row in TABLE
        if row[0] == record
        and all(
            want in (None, have) for want, have in zip(row[1:4], (holds, ready, begun), strict=True)
        )
    ]

    assert len(rows) == 1
    assert state_of(record, holds, ready, begun) == rows[0][4]


def test_every_row_of_the_table_gives_a_known_state_and_every_state_has_a_row() -> None:
    assert {row[4] for row in TABLE} == set(STATES)


def test_the_records_are_nothing_and_the_facts_of_a_hold_point() -> None:
    recorded = {kind.removeprefix("hold.") for kind in APPLIERS if kind.startswith("hold.")}

    assert {row[0] for row in TABLE} == set(RECORDS) == recorded | {"nothing"}


def test_what_was_never_recorded_is_no_row() -> None:
    with pytest.raises(KeyError):
        state_of("painted", True, True, True)


def test_the_table_in_the_docstring_is_the_table() -> None:
    words = {"any": None, "yes": True, "no": False}
    lines = (holdpoint.__doc__ or "").split("==========\n")[2].splitlines()
    rows = [line.split(maxsplit=4) for line in lines if len(line.split()) >= 5 and "=" not in line]

    written = [
        (record, words[holds], words[ready], words[begun], state)
        for record, holds, ready, begun, state in rows
    ]

    assert written == list(TABLE)


def test_the_moves_cover_every_state_and_name_only_what_can_be_done() -> None:
    assert set(MOVES) == set(STATES)
    assert {move for moves in MOVES.values() for move in moves} == {
        "release",
        "withdraw",
        "close",
        "reopen",
    }


@given(st.sets(st.tuples(st.sampled_from(["a-b-1", "a-b-2", "x"]), st.integers(0, 30))))
def test_a_signed_basis_is_unpacked_as_it_was_packed(pairs: set[tuple[str, int]]) -> None:
    refs = {f"{act}/{index}" for act, index in pairs}

    packed = pack_basis(refs)

    assert unpack_basis(packed) == refs
    assert all(numbers == sorted(numbers) for numbers in packed.values())


def test_what_is_recorded_is_kept_zone_by_zone_in_order() -> None:
    yard = Yard(*ground())
    yard.do({"f": "hold.withdrawn", "hold": "holdpoint:foam", "zone": "zone:A", "why": "rain"})
    yard.do(
        {"f": "hold.reopened", "hold": "holdpoint:foam", "zone": "zone:A", "why": "wire"},
        when="2027-03-01T07:00:00+00:00",
        by="Ola",
    )

    events = yard.build.holds["holdpoint:foam", "zone:A"]

    assert [(event.kind, event.by) for event in events] == [
        ("withdrawn", "Ida"),
        ("reopened", "Ola"),
    ]
    assert events[1].when == "2027-03-01T07:00:00+00:00"
    assert holdpoint.recorded(events) == "reopened"
    assert holdpoint.recorded(()) == "nothing"


def test_a_release_of_a_zone_that_is_not_here_waits_for_it() -> None:
    yard = Yard(hold())
    yard.do({"f": "hold.reopened", "hold": "holdpoint:foam", "zone": "zone:A", "why": "wire"})

    assert list(yard.build.orphans) == ["zone:A"]


@pytest.mark.parametrize(
    "fact",
    [
        {"f": "hold.released", "hold": "holdpoint:foam", "basis": [1]},
        {"f": "hold.released", "hold": "holdpoint:foam"},
        {"f": "hold.released", "hold": "holdpoint:foam", "basis": {}, "open": [["c"]]},
        {"f": "hold.closed", "hold": "holdpoint:foam", "covered": "all"},
        {"f": "hold.reopened", "hold": "holdpoint:foam", "why": 3},
        {"f": "hold.reopened", "hold": "holdpoint:foam", "zone": None},
    ],
)
def test_what_can_not_be_read_of_a_hold_point_is_not_recorded(fact: Fact) -> None:
    yard = Yard(hold(), fact)

    assert yard.build.holds == {}
    assert len(yard.build.unknown) == 1
