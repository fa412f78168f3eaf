"""The forecast of a build: when each hold point can be closed in, and when all of it is done."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import ceil

from tracker.build.coverage import WHOLE, Coverage
from tracker.build.item import Item
from tracker.plan.demand import demand
from tracker.plan.estimate import Chance
from tracker.plan.line import Line
from tracker.plan.odds import Odds
from tracker.plan.openwork import OpenWork
from tracker.plan.record import Record, record_of
from tracker.plan.scheduling import DAY_H, TINY, Week
from tracker.plan.slips import Slips
from tracker.plan.todo import booking
from tracker.plan.trials import Trials

CHANCES = (50, 80, 95)
SPREAD = (1, *range(5, 100, 5), 99)
"""Chances in 100 whose dates show how wide a date is."""
TRIALS = 2_000
END = ""
"""The target that is the end of all work."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """When a hold point can be closed in, or when all is done.

    Parameters
    ----------
    hold: the hold point, or None for the end of all work.
    dates: (chances in 100, date): for a hold point the first day that begins with all that comes
        before it done and cured, for the end the day on which the last work is done.
    booked: the booked date (ISO), or None.
    chance: chances in 100 that the booked date holds, or None.
    odds: what they come from.
    tasks: how many open tasks come before it.
    spread: (chances in 100, date) from the least likely to the nearly sure, as ``dates``.
    """

    hold: Item | None
    dates: tuple[tuple[int, date], ...]
    booked: str | None
    chance: float | None
    odds: Odds
    tasks: int
    spread: tuple[tuple[int, date], ...] = ()


@dataclass(frozen=True, slots=True)
class Forecast:
    """The dates of a build and what they rest on.

    Parameters
    ----------
    outlooks: the hold points still to come, in order, then the end.
    record: the builder's own record.
    slips: how late orders came.
    open_tasks: how many tasks are open.
    unstated: the tasks of which nobody stated hours.
    unknown: (task, what it waits for) where nobody knows when that comes: it is taken as there.
    uncounted: names of parts that tasks take and nobody counted: they are taken as there.
    circle: tasks that wait for each other, left out.
    few_hands: tasks that take more people than there are.
    """

    outlooks: tuple[Outlook, ...]
    record: Record
    slips: Slips
    open_tasks: int
    unstated: tuple[str, ...]
    unknown: tuple[tuple[str, str], ...]
    uncounted: tuple[str, ...]
    circle: tuple[str, ...]
    few_hands: tuple[str, ...]


def forecast(
    cover: Coverage,
    now: datetime,
    crew: int,
    week: Week,
    chance: Chance,
    trials: int = TRIALS,
    lines: Sequence[Line] | None = None,
    each: Callable[[], object] | None = None,
) -> Forecast:
    """The dates of a build.

    Parameters
    ----------
    now: with an offset; dates are those of its local time.
    crew: people there on a working day, 1 or more.
    week: the days with work.
    chance: seeded; the same one gives the same dates.
    trials: how many, 1 or more.
    lines: the open demand, worked out where it is not given.
    each: called before each trial; what it raises ends the work.
    """
    network = OpenWork(cover, now, demand(cover) if lines is None else lines)
    record = record_of(cover, network.chains.length_m)
    targets = {hold.id: network.before[hold.id] for hold in network.holds}
    targets[END] = [job.name for job in network.jobs]
    run = Trials(network.jobs, crew, week, now, record, chance, network.arrivals)
    odds = run.run(targets, trials, each)
    return Forecast(
        tuple(
            _outlook(cover, hold, odds[hold.id if hold else END], now, len(targets[key]))
            for hold in (*network.holds, None)
            for key in (hold.id if hold else END,)
        ),
        record,
        network.slips,
        len(network.chains.tasks),
        tuple(name for name, task in network.chains.tasks.items() if not task.get("hours")),
        tuple(dict.fromkeys(network.unknown)),
        tuple(network.uncounted),
        tuple(name for name in network.chains.tasks if name not in network.placed),
        tuple(job.name for job in network.jobs if job.crew > crew),
    )


def _outlook(cover: Coverage, hold: Item | None, odds: Odds, now: datetime, tasks: int) -> Outlook:
    today = now.date()
    passed = now.hour + now.minute / 60.0 + now.second / 3600.0

    def day(hours: float) -> date:
        if hold is None:
            return today + timedelta(days=int(max(0.0, hours - TINY) // DAY_H))
        if hours <= passed + TINY:
            return today  # nothing is in the way any more
        return today + timedelta(days=ceil(hours / DAY_H - TINY))

    booked = booking(cover, hold, WHOLE) if hold is not None else None
    share = None
    if booked is not None:
        days = (date.fromisoformat(booked) - today).days
        share = odds.by(passed if days == 0 else days * DAY_H) if days >= 0 else 0.0
    dates, spread = (
        tuple((chances, day(odds.at(chances))) for chances in wanted)
        for wanted in (CHANCES, SPREAD)
    )
    return Outlook(hold, dates, booked, share, odds, tasks, spread)
