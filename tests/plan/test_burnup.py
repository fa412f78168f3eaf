"""What was done so far."""

from __future__ import annotations

from datetime import date

from tests.plan.workshop import Yard, added, check, run, shop, takes, task
from tracker.act import Fact
from tracker.build import item, undo, work
from tracker.plan.burnup import Money, Week, burn_up, lost_hours, money
from tracker.plan.demand import demand


def _done(yard: Yard, slug: str, fraction: float, hours: float, day: str) -> None:
    when = f"{day}T10:00:00+00:00"
    yard.do(work.worked(yard.item(slug), fraction, hours), when=when)


def test_hours_and_points_grow_week_by_week_over_empty_weeks_too() -> None:
    yard = shop(
        task("a", likely=4.0, crew=2), task("b", likely=2.0), check("tight"), run("L1"), run("L2")
    )
    _done(yard, "a", 0.5, 6.0, "2027-02-10")
    _done(yard, "a", 1.0, 5.0, "2027-02-23")
    yard.mark("tight", "L1")

    found = burn_up(yard.cover, 7.5)

    assert (found.hours, found.points) == (10.0, 2)
    assert found.weeks == (
        Week(date(2027, 2, 8), 6.0, 4.0, 0),
        Week(date(2027, 2, 15), 6.0, 4.0, 0),
        Week(date(2027, 2, 22), 11.0, 8.0, 0),
        Week(date(2027, 3, 1), 11.0, 8.0, 1),
    )


def test_what_was_taken_back_never_was_and_a_bad_answer_settles_nothing() -> None:
    yard = shop(task("a", likely=4.0), check("tight"), run("L1"))
    yard.mark("tight", "L1", "bad")
    _done(yard, "a", 1.0, 6.0, "2027-02-10")
    yard.do(*undo.undo(yard.build, "", yard.build.acts[-1].id))

    assert burn_up(yard.cover, 7.5).weeks == ()


def test_money_is_what_was_paid_by_currency_and_what_open_tasks_still_take() -> None:
    yard = shop(
        added("part", "film", unit="each", unit_cost=2.5),
        task("mask", parts=[takes("film", 4.0)]),
        added("receipt", "r1", amount=30.0, currency="EUR", phase="phase:wiring"),
        added("receipt", "r2", amount=-5.0, currency="EUR", phase="phase:wiring"),
        added("receipt", "r3", amount=7.0),
    )

    assert money(yard.cover, demand(yard.cover)) == [
        Money("phase:wiring", {"EUR": 25.0}, 10.0),
        Money("", {"": 7.0}, 0.0),
    ]


def _blocker(slug: str, kind: str, **fields: float) -> Fact:
    return item.add("blocker", slug, {"kind": kind, "title": slug, **fields})


def test_lost_hours_are_by_kind_of_blocker_worst_first() -> None:
    yard = shop(
        _blocker("b1", "part", lost_h=2.0),
        _blocker("b2", "weather", lost_h=6.0),
        _blocker("b3", "part", lost_h=1.5),
        _blocker("b4", "part"),
    )

    found = lost_hours(yard.cover)

    assert list(found) == ["weather", "part"]
    assert found["part"] == (3.5, 3)
