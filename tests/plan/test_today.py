"""The plan of a day."""

from __future__ import annotations

from tests.plan.workshop import Yard, added, count, ready, run, shop, takes, task
from tracker.plan.today import Plan, today
from tracker.plan.usual import AROUND_H


def _plan(yard: Yard, *stays: float, **more: object) -> Plan:
    return today(ready(yard, *stays, **more), yard.item("foam"))


def _names(plan: Plan) -> list[str]:
    return [slot.task.slug for slot in plan.slots]


def test_what_leads_to_the_hold_point_by_the_longest_way_comes_first() -> None:
    yard = shop(
        task("paint", likely=3.0),
        task("drill"),
        task("pull", "drill", likely=6.0),
        added("phase", "panels", order=9),
        task("sand", likely=7.0, phase="phase:panels"),
    )

    plan = _plan(yard, 2.5)

    assert _names(plan)[0] == "drill"
    assert plan.slots[0].moves == 7.0


def test_work_that_waits_for_work_of_the_same_day_follows_it_unless_it_cures() -> None:
    yard = shop(
        task("drill"), task("pull", "drill"), task("seal", cure_h=24.0), task("hose", "seal")
    )

    plan = _plan(yard)

    slots = {slot.task.slug: slot for slot in plan.slots}
    assert set(slots) == {"drill", "pull", "seal"}
    assert slots["pull"].follows and slots["pull"].start_h >= slots["drill"].end_h


def test_a_task_longer_than_the_day_is_begun() -> None:
    (slot,) = _plan(shop(task("drill", likely=10.0)), 4.0).slots

    assert slot.begun and slot.end_h == 4.0
    assert slot.part == (4.0 - AROUND_H) / 10.0


def test_what_there_is_no_room_for_is_ready_too() -> None:
    plan = _plan(shop(task("drill", likely=3.7), task("paint", likely=3.7)), 4.0)

    assert _names(plan) == ["drill"]
    assert [slot.task.slug for slot in plan.runners_up] == ["paint"]


def test_a_task_that_can_be_done_in_part_takes_part_of_its_hours_and_frees_nothing() -> None:
    yard = shop(
        added("part", "gland"),
        task("fit", likely=4.0, parts=[takes("gland", 1.0, "run")]),
        task("test", "fit"),
        *(run(f"L{number}") for number in range(12)),
    )
    count(yard, "gland", number=3.0)

    plan = _plan(yard)

    (slot,) = plan.slots
    assert len(slot.subjects) == 3 and slot.end_h == 1.0 + AROUND_H
    assert [stand.task.slug for stand in plan.waiting] == ["test"]
    assert [(load.place, load.quantity) for load in plan.loads] == [("bin", 3.0)]


def test_the_same_build_gives_the_same_plan() -> None:
    yard = shop(*(task(f"t{number}", likely=2.0) for number in range(9)))

    assert _names(_plan(yard)) == _names(_plan(yard))


def test_with_nobody_there_nothing_is_planned() -> None:
    assert _plan(shop(task("drill")), 0.0).slots == ()
