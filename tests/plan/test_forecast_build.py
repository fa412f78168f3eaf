"""The dates of a build."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random
from typing import Any

import pytest

from tests.plan.workshop import Yard, added, count, shop, takes, task
from tracker.build import log, stock, work
from tracker.plan.burnup import burn_up
from tracker.plan.estimate import Estimate
from tracker.plan.forecast import Forecast, Outlook, forecast
from tracker.plan.record import estimate_of
from tracker.plan.scheduling import Week
from tracker.plan.slips import slips
from tracker.plan.worked import days_worked, habit

DAILY = Week(dict.fromkeys(range(7), 1.0))
MONDAY = date(2027, 3, 1)


def _forecast(yard: Yard, crew: int = 1, **more: Any) -> Forecast:
    return forecast(yard.cover, yard.now, crew, more.pop("week", DAILY), Random(1), 200, **more)


def _foam(yard: Yard, **more: Any) -> Outlook:
    return _forecast(yard, **more).outlooks[0]


def _dates(outlook: Outlook) -> list[int]:
    """Days from the first Monday."""
    return [(day - MONDAY).days for _, day in outlook.dates]


def _foaming(*facts: Any) -> Yard:
    yard = shop(*facts, task("spray", likely=8.0, phase="phase:insulation"))
    yard.change("foam", closed_by="task:spray")
    return yard


def test_one_person_needs_the_days_of_all_the_work_before_the_hold_point() -> None:
    yard = _foaming(*(task(f"t{number}", likely=8.0) for number in range(10)))

    alone, two = _foam(yard), _foam(yard, crew=2)

    assert alone.tasks == 10 and alone.hold is not None and alone.hold.slug == "foam"
    assert 9 <= _dates(alone)[0] <= 11 and _dates(alone) == sorted(_dates(alone))
    assert _dates(two)[0] <= 6


def test_what_the_hold_point_holds_comes_after_all_that_comes_before_it() -> None:
    yard = _foaming(task("mask", likely=24.0))

    foam, end = _forecast(yard).outlooks

    assert end.hold is None and end.tasks == 2
    assert end.odds.at(50) > foam.odds.at(50)


def test_a_booked_date_has_the_chance_that_the_dates_say() -> None:
    yard = _foaming(*(task(f"t{number}", likely=8.0) for number in range(6)))
    held = dict(_foam(yard).dates)[80]

    yard.change("foam", booked=held.isoformat())
    foam, end = _forecast(yard).outlooks
    assert foam.booked == held.isoformat() and foam.chance is not None
    assert 80.0 <= foam.chance < 100.0
    assert min(end.odds.hours) >= (held - MONDAY).days * 24 + 8, "foam on its booked day"

    yard.change("foam", booked="2027-02-20")
    assert _foam(yard).chance == 0.0


def test_a_part_that_comes_late_drives_the_date_and_one_to_order_takes_its_lead_time() -> None:
    yard = _foaming(
        added("part", "film", unit="each"),
        added("part", "tape", unit="each", lead_days=40),
        task("mask", parts=[takes("film", 2.0)]),
    )
    yard.do(stock.order(yard.item("film"), 2.0, "2027-03-21"))

    foam = _foam(yard)
    assert 20 < _dates(foam)[0] <= 31
    assert foam.odds.drivers[0].name == "part:film" and foam.odds.drivers[0].share > 0.9

    count(yard, "tape", number=0.0)
    yard.change("mask", parts=[takes("film", 2.0), takes("tape", 1.0)])
    assert _dates(_foam(yard))[0] > 40


def test_orders_that_came_late_make_those_to_come_later() -> None:
    yard = _foaming(added("part", "film"), added("part", "tape"), task("mask"))
    assert slips(yard.build) == (0, 0.5)

    yard.do(stock.order(yard.item("film"), 2.0, "2027-02-11"), when="2027-02-01T08:00:00+00:00")
    yard.do(stock.order(yard.item("film"), 1.0, "2027-02-11"), when="2027-02-01T08:00:00+00:00")
    yard.do(stock.order(yard.item("tape"), 2.0), when="2027-02-01T08:00:00+00:00")
    for part in ("film", "tape"):
        yard.do(
            stock.move(yard.item(part), "bin", 2.0, "received"), when="2027-02-21T08:00:00+00:00"
        )

    assert slips(yard.build) == (1, (3 * 10 / 10 + 4 * 0.5) / 5)
    assert _forecast(yard).slips.orders == 1


def test_what_nobody_knows_is_told_and_not_guessed() -> None:
    yard = _foaming(
        added("part", "film", unit="each"),
        added("part", "glue", unit="each"),
        task("mask", parts=[takes("film", 2.0), takes("glue", 1.0)], crew=3),
        added("task", "odd", phase="phase:wiring"),
        added("blocker", "rain", stops=["task:odd"], text="the roof leaks"),
    )
    count(yard, "film", number=0.0)

    found = _forecast(yard)

    assert set(found.unknown) == {("task:mask", "part:film"), ("task:odd", "blocker:rain")}
    assert found.unstated == ("task:odd",) and found.few_hands == ("task:mask",)
    assert found.uncounted == ("glue",)
    assert found.circle == () and found.record.general.count == 0


def test_a_blocker_holds_its_task_until_the_day_it_should_be_gone() -> None:
    yard = _foaming(
        task("mask"), added("blocker", "rain", stops=["task:mask"], expected="2027-03-15")
    )

    assert _dates(_foam(yard))[0] >= 15


def test_tasks_in_a_circle_are_told_and_left_out() -> None:
    yard = _foaming(task("a", "b"), task("b", "a"), task("c"))

    assert set(_forecast(yard).circle) == {"task:a", "task:b"}


def test_a_cure_that_still_runs_is_waited_for() -> None:
    yard = _foaming(task("seal", cure_h=200.0), task("test", "seal"))
    before = _foam(yard).odds.at(50)
    yard.do(work.worked(yard.item("seal"), 1.0, 1.0))

    assert 200.0 < _foam(yard).odds.hours[0] <= before


def test_a_builder_who_took_twice_as_long_is_forecast_to_go_on_so() -> None:
    tasks = [task(f"t{number}", likely=8.0) for number in range(10)]
    done = [task(f"d{number}", likely=2.0) for number in range(16)]
    yard = _foaming(*tasks, *done)
    yard.do(*(work.worked(yard.item(f"d{number}"), 1.0, 4.0) for number in range(16)))

    found = _forecast(yard)

    assert found.record.general.count == 16
    assert found.record.general.factor == pytest.approx(2 ** (16 / 20))
    assert _dates(found.outlooks[0])[0] >= 16


def test_a_build_with_nothing_still_to_do_is_done_today() -> None:
    yard = shop()

    assert [set(_dates(each)) for each in _forecast(yard).outlooks] == [{0}, {0}]


def test_days_are_those_worked_so_far_and_the_weekend_where_little_was_logged() -> None:
    today = date(2027, 3, 29)
    saturdays = [date(2027, 3, 1) + timedelta(days=5 + 7 * week) for week in range(4)]

    assert habit([], today).chances == {5: 1.0, 6: 1.0}
    assert habit([], today, [0]) == ({0: 1.0}, 0, True)
    assert set(habit(saturdays, today).chances) == {5}
    promised = habit(saturdays, today, [5, 6]).chances
    assert promised[5] == 1.0 and promised[6] == pytest.approx(4 / (23 / 7 + 4))


def test_a_day_counts_as_worked_where_work_was_logged_or_a_day_began() -> None:
    yard = shop(task("a"))
    yard.do(work.worked(yard.item("a"), 0.5, 1.0), when="2027-02-20T10:00:00+00:00")
    yard.do(log.day(2, 8.0, 14.0, True, 6.0), when="2027-02-27T08:00:00+00:00")
    yard.do(log.note("rain"), when="2027-02-28T08:00:00+00:00")

    assert days_worked(yard.build) == {date(2027, 2, 20), date(2027, 2, 27)}


def test_an_estimate_that_says_only_what_is_likely_is_taken_as_certain() -> None:
    yard = _foaming(added("task", "mask", phase="phase:wiring", hours={"likely": [1.0, 0.5]}))

    assert estimate_of(yard.item("mask"), 8.0) == Estimate(5.0, 5.0, 5.0)
    assert _foam(yard).tasks == 1


def test_facts_that_make_no_sense_break_no_date() -> None:
    yard = _foaming(added("part", "film", unit="each"), task("mask", parts=[takes("film", 2.0)]))
    yard.do({"f": "task.worked", "task": "task:mask", "fraction": "x", "hours": [1]})
    yard.do({"f": "task.worked", "task": ["task:mask"]})
    yard.do({"f": "stock.ordered", "part": "part:film", "quantity": 2.0, "due": "soon"})
    count(yard, "film", number=0.0)

    assert _forecast(yard).unknown == (("task:mask", "part:film"),)
    assert burn_up(yard.cover, 7.5).weeks == ()
