"""Trials of a network of tasks, and the odds of their dates."""

from __future__ import annotations

from datetime import datetime
from itertools import accumulate
from math import erf, sqrt
from random import Random
from statistics import fmean, pstdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInput
from tracker.plan.estimate import Estimate
from tracker.plan.odds import DAYS, Odds
from tracker.plan.record import Logged, Record
from tracker.plan.scheduling import Axis, Hands, Week
from tracker.plan.trials import Arrival, Job, Trials

ALWAYS = Week(dict.fromkeys(range(7), 1.0), 0.0, 24.0)
WEEKEND = Week({5: 1.0, 6: 1.0}, 8.0, 8.0)
MONDAY = datetime(2027, 3, 1)
AS_STATED = Record.of((), builders=0.0)


def _fixed(hours: float) -> Estimate:
    return Estimate(hours, hours, hours)


def _odds(
    jobs: list[Job],
    *,
    crew: int = 1,
    week: Week = ALWAYS,
    now: datetime = MONDAY,
    record: Record = AS_STATED,
    seed: int = 1,
    trials: int = 200,
    arrivals: tuple[Arrival, ...] = (),
) -> Odds:
    found = Trials(jobs, crew, week, now, record, Random(seed), arrivals)
    return found.run({"end": [job.name for job in jobs]}, trials)["end"]


# Weeks, low, likely and high, of the one path with the longest mean of the contractor's project in
# F. Hillier, G. Lieberman, "Introduction to Operations Research", chapter on PERT/CPM. Its answer:
# a mean of 44, a variance of 9, done by 47 with a chance of 0.84. From memory, unverified.
PATH = (
    (1, 2, 3),
    (2, 3.5, 8),
    (6, 9, 18),
    (1, 4.5, 5),
    (4, 4, 10),
    (3, 9, 9),
    (1, 5.5, 7),
    (5, 5.5, 9),
)


def test_a_single_path_has_the_textbooks_mean_variance_and_chance() -> None:
    estimates = [Estimate(*row) for row in PATH]
    names = [f"t{number}" for number in range(len(PATH))]
    jobs = [
        Job(name, estimate, needs=tuple(names[max(0, number - 1) : number]))
        for number, (name, estimate) in enumerate(zip(names, estimates, strict=True))
    ]

    assert sum(each.mean for each in estimates) == pytest.approx(44.0)
    assert sum(each.deviation**2 for each in estimates) == pytest.approx(9.0)
    odds = _odds(jobs, crew=3, trials=20_000)
    assert fmean(odds.hours) == pytest.approx(44.0, abs=0.1)
    assert pstdev(odds.hours) == pytest.approx(3.0, abs=0.1)
    assert odds.by(47.0) / 100 == pytest.approx((1 + erf(1 / sqrt(2))) / 2, abs=0.02)


def test_the_same_seed_gives_the_same_odds_and_another_one_others() -> None:
    jobs = [Job("a", Estimate(1, 2, 5)), Job("b", Estimate(2, 3, 9), needs=("a",))]

    assert _odds(jobs, seed=3) == _odds(jobs, seed=3)
    assert _odds(jobs, seed=3) != _odds(jobs, seed=4)


def test_one_person_does_one_task_at_a_time_and_two_do_two() -> None:
    jobs = [Job("a", _fixed(3)), Job("b", _fixed(4)), Job("both", _fixed(2), crew=2)]

    assert _odds(jobs, crew=2).at(50) == 6.0
    assert _odds(jobs, crew=1).at(50) == 3.0 + 4.0 + 2.0 * 2


def test_a_free_hour_before_a_task_that_waits_is_filled() -> None:
    jobs = [Job("late", _fixed(2), waits=("foam",)), Job("small", _fixed(3))]

    odds = _odds(jobs, arrivals=(Arrival("foam", 10.0),))

    assert odds.at(50) == 12.0
    assert odds.drivers[0].name == "foam" and odds.drivers[0].holds == 1.0


def test_a_cure_goes_on_by_night_and_work_does_not() -> None:
    jobs = [Job("glue", _fixed(8), cure_h=12.0), Job("lay", _fixed(4), needs=("glue",))]

    odds = _odds(jobs, week=WEEKEND, now=datetime(2027, 3, 6))

    assert odds.at(50) == 24.0 + 12.0, "glue on Saturday, over by night, laid by Sunday noon"
    alone = _odds(jobs[:1], week=WEEKEND, now=datetime(2027, 3, 6))
    assert alone.at(50) == 16.0 + 12.0


def test_an_arrival_is_never_early_and_slips_by_up_to_what_it_may() -> None:
    odds = _odds(
        [Job("lay", _fixed(0), waits=("mat",))], arrivals=(Arrival("mat", 48.0, 24.0),), trials=2000
    )

    assert odds.hours[0] >= 48.0 and odds.hours[-1] <= 72.0
    assert fmean(odds.hours) == pytest.approx(48.0 + 24.0 / 3, abs=0.6)


def test_a_task_begun_is_drawn_from_beyond_the_hours_it_took() -> None:
    begun = _odds([Job("a", Estimate(2, 4, 12), taken_h=6.0, fraction=0.9)], trials=2000)

    assert begun.hours[0] > 0.0 and begun.hours[-1] <= 6.0
    past = _odds([Job("a", _fixed(4), taken_h=6.0, fraction=0.75)])
    assert past.at(50) == 1.0, "past all that is likely, what is still to do of it"


def test_what_varies_most_drives_the_date() -> None:
    jobs = [Job("wide", Estimate(1, 4, 30)), Job("narrow", Estimate(3, 4, 5)), Job("s", _fixed(9))]

    drivers = _odds(jobs, trials=1000).drivers

    assert drivers[0].name == "wide"
    assert drivers[0].share > 0.8 and "s" not in [driver.name for driver in drivers]


def test_the_pace_of_a_phase_drives_the_date_and_not_each_of_its_tasks() -> None:
    jobs = [Job(f"t{number}", Estimate(3, 4, 5), group="cabinets") for number in range(20)]

    drivers = _odds(jobs, trials=1000, record=Record.of(())).drivers

    assert drivers[0].name == "cabinets" and drivers[0].share > 0.9
    assert all(driver.share < 0.1 for driver in drivers[1:])


def test_a_day_that_is_worked_half_the_time_makes_the_work_twice_as_long() -> None:
    week = Week(dict.fromkeys(range(7), 0.5), 0.0, 24.0)

    odds = _odds([Job("a", _fixed(24.0 * 30))], week=week, trials=400)

    assert fmean(odds.hours) / 24 == pytest.approx(60, abs=2)
    assert odds.drivers[0].name == DAYS and odds.drivers[0].share > 0.5


def test_what_no_trial_can_be_made_of_is_refused() -> None:
    with pytest.raises(BadInput, match="nobody is there"):
        _odds([], crew=0)
    with pytest.raises(BadInput, match="stands before what it needs"):
        _odds([Job("a", _fixed(1), needs=("b",)), Job("b", _fixed(1))])
    with pytest.raises(BadInput, match="no day with work"):
        Week({5: 0.0})
    with pytest.raises(BadInput, match="midnight"):
        Week({5: 1.0}, 20.0, 8.0)
    with pytest.raises(BadInput, match="must rise"):
        Estimate(3, 2, 1)
    with pytest.raises(BadInput, match="200 years"):
        _odds([Job("a", _fixed(1e7))], trials=1)


@given(st.integers(1, 3), st.lists(st.tuples(st.integers(0, 9), st.integers(0, 5)), max_size=12))
def test_hands_are_never_in_two_places_and_each_begins_as_early_as_it_can(
    crew: int, wanted: list[tuple[int, int]]
) -> None:
    hands = Hands(crew)
    busy = [0] * 200
    for number, (ready, hours) in enumerate(wanted):
        takes = 1 + number % crew
        start = int(hands.place(float(ready), float(hours), takes))
        first = next(
            at
            for at in range(ready, 200)
            if all(busy[hour] + takes <= crew for hour in range(at, at + hours))
        )
        assert start == (first if hours else ready)
        for hour in range(start, start + hours):
            busy[hour] += takes


@given(st.floats(0.0, 500.0))
def test_working_hours_and_elapsed_hours_come_back_to_each_other(work: float) -> None:
    axis = Axis(WEEKEND, datetime(2027, 3, 3, 9), Random(1))

    assert axis.work(axis.elapsed(work)) == pytest.approx(work, abs=1e-6)


def test_the_factor_is_the_mean_logarithm_shrunk_toward_all_work_and_that_toward_one() -> None:
    logged = [Logged(_fixed(2.0), 4.0, "wiring"), Logged(_fixed(3.0), 6.0, "wiring")]

    record = Record.of(logged)

    general = 2.0 ** (2 / 6)
    assert record.general.factor == pytest.approx(general)
    assert record.mean("foam").factor == pytest.approx(general)
    assert record.mean("wiring").factor == pytest.approx(2 ** (1 / 3) * general ** (2 / 3))
    assert Record.of(()).general.factor == 1.0


def test_a_builder_who_takes_what_the_estimates_say_is_not_corrected() -> None:
    random, estimate = Random(2), Estimate(2.0, 3.0, 9.0)
    draw = estimate.drawer(random)

    record = Record.of(Logged(estimate, draw()) for _ in range(4000))

    assert record.general.shift == pytest.approx(0.0, abs=0.03)
    assert record.general.factor > 1.1, "against the likely hours such estimates look like more"
    assert record.spread == pytest.approx(1.0, abs=0.1)
    assert record.general.error < 0.01


def test_the_odds_are_of_whole_trials() -> None:
    odds = Odds(tuple(float(hours) for hours in accumulate([1] * 10)))

    assert (odds.at(50), odds.at(80), odds.at(95), odds.at(100)) == (5.0, 8.0, 10.0, 10.0)
    assert (odds.by(0.5), odds.by(8.0), odds.by(99.0)) == (0.0, 80.0, 100.0)
    with pytest.raises(BadInput, match="0 to 100"):
        odds.at(0)
