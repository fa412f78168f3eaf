"""Parts there are too few of, and what each one stops."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, added, check, ground
from tracker.act import Fact
from tracker.build import stock
from tracker.build.work import worked
from tracker.plan.shortage import Shortage, shortage_of, shortages


def _part(**fields: Any) -> Yard:
    return Yard(*ground(), added("part", "furring", unit="m", **fields))


def _short(yard: Yard) -> Shortage | None:
    return shortage_of(yard.cover, yard.item("furring"))


def _move(yard: Yard, quantity: float, why: str, place: str = "rack") -> Fact:
    return stock.move(yard.item("furring"), place, quantity, why)


def _counted(yard: Yard, place: str = "rack", **answer: Any) -> None:
    yard.do(stock.count(yard.build, yard.item("furring"), place, **answer))


@pytest.mark.parametrize(
    ("fields", "answer", "missing"),
    [
        ({"needed": 60.0}, {"number": 59.0}, 1.0),
        ({"needed": 60.0}, {"lengths": [20.0, 25.0]}, 15.0),
        ({"needed": 60.0}, {"level": "out"}, 60.0),
        ({"needed": 60.0}, {"level": "low"}, None),
        ({"minimum": 5.0}, {"number": 4.0}, 1.0),
        ({"needed": 3.0, "minimum": 5.0}, {"number": 4.0}, 1.0),
        ({}, {"level": "out"}, None),
        ({}, {"level": "low"}, None),
    ],
)
def test_a_part_is_short_when_less_is_there_than_is_needed_or_it_is_low_or_out(
    fields: dict[str, Any], answer: dict[str, Any], missing: float | None
) -> None:
    yard = _part(**fields)
    _counted(yard, **answer)

    found = _short(yard)

    assert found is not None
    assert found.missing == missing


@pytest.mark.parametrize(
    ("fields", "answer"),
    [
        ({"needed": 60.0}, {"number": 60.0}),
        ({"needed": 60.0}, {"level": "plenty"}),
        ({"needed": 60.0}, {"level": "unknown"}),
        ({"needed": 60.0}, None),
        ({"minimum": 5.0}, {"number": 5.0}),
        ({}, {"number": 0.0}),
    ],
)
def test_enough_plenty_and_what_nobody_counted_are_not_short(
    fields: dict[str, Any], answer: dict[str, Any] | None
) -> None:
    yard = _part(**fields)
    if answer is not None:
        _counted(yard, **answer)

    assert _short(yard) is None


def test_a_part_used_up_on_the_build_is_not_short() -> None:
    yard = _part(needed=60.0)
    yard.do(_move(yard, 60.0, "received"), _move(yard, -60.0, "used"))

    assert _short(yard) is None


def test_what_is_still_needed_is_short_by_what_was_neither_used_nor_is_there() -> None:
    yard = _part(needed=60.0)
    yard.do(_move(yard, 45.0, "received"), _move(yard, -40.0, "used"))

    found = _short(yard)

    assert found is not None
    assert (found.on_hand, found.needed, found.missing) == (5.0, 20.0, 15.0)


def test_taking_a_part_elsewhere_is_no_use_of_it() -> None:
    yard = _part(needed=60.0)
    yard.do(_move(yard, 60.0, "received"), _move(yard, -60.0, "moved"))

    found = _short(yard)

    assert found is not None and found.missing == 60.0


def test_a_shortage_says_where_the_rest_lies_and_what_is_coming_when() -> None:
    yard = _part(needed=60.0)
    _counted(yard, "rack", number=10)
    _counted(yard, "helper's home", number=5)
    _counted(yard, "van", number=0)
    for quantity, due in ((20, "2027-03-09"), (25, "2027-03-20"), (1, None)):
        yard.do(stock.order(yard.item("furring"), quantity, due))

    found = _short(yard)

    assert found is not None
    assert found.places == ("helper's home", "rack")
    assert (found.on_order, found.due) == (46.0, "2027-03-20")


def test_a_shortage_names_the_open_tasks_and_the_checks_it_stops() -> None:
    yard = _part(needed=60.0, stops=["check:label", "task:done"])
    yard.do(
        check("label"),
        added("task", "fur", parts=[{"part": "furring", "qty": 1.0}]),
        added("task", "other", parts=[{"part": "glands", "qty": 1.0}]),
        added("task", "done", parts=[{"part": "furring", "qty": 1.0}]),
    )
    yard.do(worked(yard.item("done"), 1.0))
    _counted(yard, number=1)

    found = _short(yard)

    assert found is not None
    assert [item.slug for item in found.stops] == ["fur", "label"]


def test_what_stops_most_comes_first_and_then_by_name() -> None:
    yard = Yard(
        *(added("part", slug, needed=1.0) for slug in ("b", "a")),
        added("part", "c", needed=1.0, stops=["check:label"]),
        check("label"),
    )
    for slug in ("a", "b", "c"):
        yard.do(stock.count(yard.build, yard.item(slug), "rack", level="out"))

    assert [row.part.slug for row in shortages(yard.cover)] == ["c", "a", "b"]
    assert {row.on_hand for row in shortages(yard.cover)} == {"out"}


def test_a_part_is_out_only_when_it_is_out_everywhere() -> None:
    yard = _part(needed=60.0)
    _counted(yard, "rack", level="out")
    _counted(yard, "van", number=5)

    found = _short(yard)

    assert found is not None
    assert (found.on_hand, found.missing, found.places) == (5.0, 55.0, ("van",))
