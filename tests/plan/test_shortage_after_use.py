"""What was built in is no longer needed from the shelf."""

from __future__ import annotations

from tracker.act import Act
from tracker.build import item, stock
from tracker.build.coverage import Coverage
from tracker.build.fold import EMPTY, fold
from tracker.build.item import Item
from tracker.build.state import Build
from tracker.plan.shortage import shortages

FURRING = Item("part:furring", "part", "furring", {"needed": 60.0}, "")


def _after(build: Build, number: int, *facts: object) -> Build:
    identifier = f"{number:012x}-aaaaaaaa-{number}"
    return fold([Act(identifier, "2027-03-01T08:00:00+00:00", "Ida", facts)], build)  # type: ignore[arg-type]


def _with_furring(came: float) -> Build:
    added = item.add("part", "furring", {"needed": 60.0}, FURRING.id)
    return _after(EMPTY, 1, added, stock.move(FURRING, "rack", came, "received"))


def test_a_part_used_up_on_the_build_is_not_short() -> None:
    build = _after(_with_furring(60.0), 2, stock.move(FURRING, "rack", -60.0, "used"))

    assert shortages(Coverage(build)) == []


def test_what_is_still_needed_is_short_by_what_was_neither_used_nor_is_there() -> None:
    build = _after(_with_furring(45.0), 2, stock.move(FURRING, "rack", -40.0, "used"))

    rows = [(row.on_hand, row.needed, row.missing) for row in shortages(Coverage(build))]
    assert rows == [(5.0, 20.0, 15.0)]


def test_taking_a_part_elsewhere_is_no_use_of_it() -> None:
    build = _after(_with_furring(60.0), 2, stock.move(FURRING, "rack", -60.0, "moved"))

    assert [row.missing for row in shortages(Coverage(build))] == [60.0]
