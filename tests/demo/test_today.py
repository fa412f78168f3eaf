"""The demo's day: whatever is missing, no work that still fits is passed over."""

from __future__ import annotations

from tracker.app.session import Session
from tracker.app.views.day import Asked, day_of
from tracker.app.views.today import today_view
from tracker.plan.day import Day
from tracker.plan.readiness import Readiness
from tracker.plan.today import AROUND_H, Plan, today
from tracker.plan.todo import next_hold


def _plan(demo: Session, asked: Asked) -> tuple[Readiness, Plan]:
    ready = Readiness(demo.cover, day_of(demo, asked))
    return ready, today(ready, next_hold(demo.cover))


def _fits(day: Day, plan: Plan, hours: float, crew: int) -> bool:
    """Is there any start at which so many hands are free for so long?"""
    busy = [(slot.start_h, slot.end_h, slot.crew) for slot in plan.slots]

    def free(moment: float) -> int:
        there = sum(stay > moment + 1e-6 for stay in day.there_h)
        return there - sum(n for begin, end, n in busy if begin - 1e-6 <= moment < end - 1e-6)

    starts = [0.0, *(end for _, end, _ in busy)]
    return any(
        start + hours <= day.longest_h + 1e-6
        and all(free(start + hours * step / 40) >= crew for step in range(40))
        for start in starts
    )


def _asked(demo: Session) -> list[Asked]:
    parts = [Asked(hours="8", without=[name]) for name in demo.names.by_kind["part"]]
    people = [Asked(hours="8", absent=[name]) for name in demo.names.by_kind["person"]]
    weather = [Asked(dry=False), Asked(temp="2C"), Asked(power=False), Asked(crew=0)]
    return [Asked(), Asked(crew=1), Asked(crew=4, hours="12"), *parts, *people, *weather]


def test_whatever_single_part_or_person_is_missing_no_ready_task_that_fits_is_passed_over(
    demo: Session,
) -> None:
    seen = 0
    for asked in _asked(demo):
        ready, plan = _plan(demo, asked)
        planned = {slot.task.id for slot in plan.slots}
        for name, stand in ready.tasks.items():
            if stand.ready and name not in planned:
                hours = ready.chains.hours[name] + AROUND_H
                assert not _fits(ready.day, plan, hours, ready.chains.crew[name]), (asked, name)
        seen += len(planned)
    assert seen > 100


def test_a_missing_part_takes_what_needs_it_out_of_the_plan_and_no_more(demo: Session) -> None:
    full, _ = _plan(demo, Asked(hours="8"))
    for name, part in demo.names.by_kind["part"].items():
        ready, _ = _plan(demo, Asked(hours="8", without=[name]))
        takes = {task for task, rows in ready.lines.items() if part.id in {r.part for r in rows}}
        for task, stand in ready.tasks.items():
            if full.tasks[task].ready:
                assert stand.ready == (task not in takes)


def test_everything_that_can_not_be_done_is_told_with_its_cause(demo: Session) -> None:
    view = today_view(demo, Asked())

    told = {task for row in view["not_possible"] for task in row["tasks"]}
    told |= {row["task"] for row in view["waiting"]}
    told |= {row["task"] for row in [*view["plan"], *view["runners_up"]]}
    ready = Readiness(demo.cover, day_of(demo, Asked()))
    assert {demo.names.name(name) for name in ready.tasks} == told
    assert all(row["words"] and row["free_by"] for row in view["not_possible"])


def test_asking_writes_nothing(demo: Session) -> None:
    before = len(demo.build.acts)

    today_view(demo, Asked(without=["grommet"], absent=["Ola"]))

    demo.refresh()
    assert len(demo.build.acts) == before
