"""Filling a day, held against every way to fill it."""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.plan.day import Day
from tracker.plan.filling import Job, fill

NOW = datetime(2027, 3, 1, 8, 0, tzinfo=UTC)


@st.composite
def jobs(draw: st.DrawFn) -> list[Job]:
    """Up to ten jobs on a grid of half hours; some wait for earlier ones."""
    found: list[Job] = []
    for number in range(draw(st.integers(0, 10))):
        after = draw(st.sets(st.sampled_from(found), max_size=2)) if found else set()
        found.append(
            Job(
                f"t{number}",
                draw(st.integers(1, 10)) / 2,
                draw(st.integers(1, 3)),
                float(draw(st.integers(0, 9))),
                tuple(sorted(job.name for job in after)),
                draw(st.sampled_from(["a", "b"])),
            )
        )
    return found


STAYS = st.lists(st.integers(0, 16).map(lambda half: half / 2), max_size=4).map(tuple)


def _free(stays: tuple[float, ...], plan: list[tuple[Job, float]], half: int) -> int:
    """People free in one half hour, counted one by one."""
    there = sum(stay >= (half + 1) / 2 for stay in stays)
    busy = sum(job.crew for job, at in plan if at * 2 <= half < (at + job.hours) * 2)
    return there - busy


def _goes(stays: tuple[float, ...], plan: list[tuple[Job, float]], job: Job, at: int) -> bool:
    halves = range(at, at + round(job.hours * 2))
    return all(_free(stays, plan, half) >= job.crew for half in halves)


@settings(max_examples=300, deadline=None)
@given(jobs(), STAYS)
def test_no_job_that_still_fits_is_passed_over_and_nobody_is_in_two_places(
    todo: list[Job], stays: tuple[float, ...]
) -> None:
    plan = fill(todo, Day(NOW, stays))

    over = {job.name: at + job.hours for job, at in plan}
    assert len(over) == len(plan)
    assert all(_free(stays, plan, half) >= 0 for half in range(40))
    for job, at in plan:
        assert all(over[need] <= at for need in job.after)
    for job in todo:
        if job.name in over or not all(need in over for need in job.after):
            continue
        first = max((over[need] for need in job.after), default=0.0)
        assert not any(_goes(stays, plan, job, at) for at in range(round(first * 2), 40)), job


@settings(max_examples=150, deadline=None)
@given(jobs(), STAYS)
def test_what_moves_the_hold_point_most_is_in_the_plan_whenever_it_fits_at_all(
    todo: list[Job], stays: tuple[float, ...]
) -> None:
    plan = fill(todo, Day(NOW, stays))

    free = [job for job in todo if not job.after and job.moves > 0]
    able = [job for job in free if any(_goes(stays, [], job, at) for at in range(40))]
    most = max((job.moves for job in able), default=0.0)
    assert max((job.moves for job, _ in plan), default=0.0) >= most


def test_two_person_work_is_done_while_there_are_two() -> None:
    pair, alone = Job("pair", 2.0, 2, 5.0), Job("alone", 4.0, 1, 9.0)

    plan = dict(fill([pair, alone], Day(NOW, (8.0, 2.0))))

    assert plan == {pair: 0.0, alone: 2.0}


def test_tasks_of_one_place_stay_together_where_they_move_alike() -> None:
    rows = [Job(f"{place}{n}", 1.0, 1, 3.0, (), place) for n, place in product((1, 2), "ab")]

    plan = [job.group for job, _ in fill(rows, Day(NOW, (8.0,)))]

    assert plan == ["a", "a", "b", "b"]
