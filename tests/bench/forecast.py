"""A forecast of a large build against a bare loop that draws the same numbers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from random import Random

from tests.bench.clock import in_turn, ratio_line
from tracker.plan.estimate import Estimate
from tracker.plan.record import Record
from tracker.plan.scheduling import Week
from tracker.plan.trials import Job, Trials

TASKS, TRIALS, ROUNDS = 400, 2_000, 3
WEEKENDS = Week({5: 1.0, 6: 1.0}, 8.0, 8.0)


def jobs() -> list[Job]:
    """Tasks for one or two people, each after up to three of the forty before it."""
    random = Random(5)
    names = [f"task{number}" for number in range(TASKS)]
    found = []
    for at, name in enumerate(names):
        likely = random.randint(2, 32) / 4
        needs = random.sample(names[max(0, at - 40) : at], min(at, random.randint(0, 3)))
        found.append(
            Job(
                name,
                Estimate(likely * 0.6, likely, likely * 2.0),
                random.choice((1, 1, 2)),
                tuple(needs),
                random.choice((0.0,) * 9 + (24.0,)),
            )
        )
    return found


def forecast(folder: Path) -> Iterator[str]:
    """The lines of the report.

    Parameters
    ----------
    folder: not used.
    """
    work = jobs()
    wanted = {"end": [job.name for job in work]}
    stated = Record.of((), builders=0.0)

    def ours() -> None:
        Trials(work, 2, WEEKENDS, datetime(2026, 3, 14), stated, Random(1)).run(wanted, TRIALS)

    def bare() -> None:
        chance = Random(1)
        draws = [job.estimate.drawer(chance) for job in work]
        for _ in range(TRIALS):
            for draw in draws:
                draw()

    took = in_turn(ROUNDS, {"ours": ours, "bare": bare})
    name = f"forecast, {TASKS} tasks, {TRIALS:,} trials"
    yield ratio_line(name, took["ours"], "drawing alone", took["bare"], 6.0)
