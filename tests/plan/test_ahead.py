"""Days to come, each from where the plan of the one before ends."""

from __future__ import annotations

from datetime import date, timedelta

from tests.plan.workshop import Yard, added, count, run, shop, takes, task
from tracker.build import stock
from tracker.build.coverage import Coverage
from tracker.build.state import Build
from tracker.plan.ahead import DELIVERED, arrived, done, served
from tracker.plan.day import Day
from tracker.plan.readiness import Readiness
from tracker.plan.today import Plan, today
from tracker.plan.worked import next_days

SATURDAY = date(2027, 3, 6)


def planned(build: Build, yard: Yard, hours: float = 8.0, days: int = 0) -> tuple[Readiness, Plan]:
    """The plan of one person's day, so many days after the yard's now."""
    cover = Coverage(build)
    ready = Readiness(cover, Day(yard.now + timedelta(days=days), (hours,)))
    return ready, today(ready, yard.item("foam"))


def names(plan: Plan) -> list[str]:
    return [slot.task.slug for slot in plan.slots]


def test_the_next_day_goes_on_where_the_plan_ends_and_the_build_itself_stays_as_it_is() -> None:
    yard = shop(task("drill", likely=3.0), task("pull", "drill", likely=3.0))
    ready, plan = planned(yard.build, yard, 4.0)
    then = done(yard.build, plan, ready.lines)

    assert names(plan) == ["drill"]
    assert names(planned(then, yard, 4.0, 1)[1]) == ["pull"]
    assert names(planned(yard.build, yard, 4.0)[1]) == ["drill"]


def test_a_cure_begun_on_the_first_day_holds_what_comes_after_until_it_is_over() -> None:
    yard = shop(task("seal", cure_h=40.0), task("hose", "seal"))
    ready, plan = planned(yard.build, yard)
    then = done(yard.build, plan, ready.lines)

    assert names(planned(then, yard, days=1)[1]) == []
    assert names(planned(then, yard, days=2)[1]) == ["hose"]


def test_what_the_first_day_takes_is_not_there_on_the_next() -> None:
    rows = [takes("gland", 3.0)]
    yard = shop(
        added("part", "gland"),
        task("fit", likely=3.0, parts=rows),
        task("seal", "fit", likely=3.0, parts=rows),
    )
    count(yard, "gland", number=5.0)
    ready, plan = planned(yard.build, yard, 4.0)
    after, _ = planned(done(yard.build, plan, ready.lines), yard, 4.0, 1)

    (lack,) = after.tasks["task:seal"].share.lacks
    assert (names(plan), lack.have) == (["fit"], 2.0)


def test_wire_is_cut_from_the_lengths_there_are_and_the_rest_stays_measured() -> None:
    yard = shop(
        added("part", "wire", unit="m", gauge="2.5 mm2", cores=2, stops=["task:pull"]),
        task("pull"),
        run("L1", length_m=4.0, gauge="2.5 mm2", conductors=2),
    )
    count(yard, "wire", lengths=(3.0, 9.0))
    ready, plan = planned(yard.build, yard)

    (lot,) = stock.lots_of(done(yard.build, plan, ready.lines), yard.item("wire")).values()

    assert lot.lengths == (3.0, 5.0) and not lot.moves


def test_subjects_that_a_part_of_a_task_was_done_for_are_told() -> None:
    yard = shop(
        added("part", "gland"),
        task("fit", likely=4.0, parts=[takes("gland", 1.0, "run")]),
        *(run(f"L{number}") for number in range(4)),
    )
    count(yard, "gland", number=3.0)
    ready, plan = planned(yard.build, yard)
    then = done(yard.build, plan, ready.lines)

    assert served(plan) == {("task:fit", f"run:L{number}") for number in range(3)}
    assert then.work["task:fit"].fraction == 0.75


def test_only_what_is_due_between_now_and_then_has_come() -> None:
    yard = shop(added("part", "gland"), added("part", "wire", unit="m", gauge="4 mm2", pack=25.0))
    gland, wire = yard.item("gland"), yard.item("wire")
    today_ = yard.now.date()
    days = {name: (today_ + timedelta(days=n)).isoformat() for n, name in enumerate("abcde", -1)}
    yard.do(
        stock.order(gland, 1.0, days["a"]),
        stock.order(gland, 2.0, days["c"]),
        stock.order(gland, 4.0, days["e"]),
        stock.order(wire, 60.0, days["d"]),
    )

    then, orders = arrived(yard.build, yard.now + timedelta(days=2), today_)

    assert [(part.slug, order.quantity) for part, order in orders] == [
        ("gland", 2.0),
        ("wire", 60.0),
    ]
    assert then.lots[gland.id, DELIVERED].quantity == 2.0
    assert then.lots[wire.id, DELIVERED].lengths == (25.0, 25.0, 10.0)


def test_the_working_days_ahead_are_those_likely_worked_that_follow_on_each_other() -> None:
    friday = SATURDAY - timedelta(days=1)

    assert next_days({5: 1.0, 6: 1.0}, friday) == [SATURDAY, SATURDAY + timedelta(days=1)]
    assert next_days({2: 0.2, 5: 0.9}, SATURDAY) == [SATURDAY + timedelta(days=7)]
    assert next_days({2: 0.2, 5: 0.1}, SATURDAY) == [SATURDAY + timedelta(days=4)]
    assert len(next_days(dict.fromkeys(range(7), 1.0), friday)) == 7
