"""Trials: the open work scheduled many times with drawn durations, arrivals and days."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from math import sqrt

from tracker.errors import BadInput
from tracker.plan.estimate import Chance, Estimate
from tracker.plan.odds import DAYS, Driver, Odds, goes_with
from tracker.plan.record import Record
from tracker.plan.scheduling import Axis, Hands, Week

SAMPLE = 500
"""Trials from which it is told what drives a date."""
AGAIN = 20
"""How often a task begun is drawn anew for a duration beyond the hours it already took."""


@dataclass(frozen=True, slots=True)
class Job:
    """One open task.

    Parameters
    ----------
    estimate: of the whole task, elapsed hours with its crew.
    crew: people it takes, 1 or more; where there are fewer it takes longer in proportion.
    needs: names of jobs that come before it.
    cure_h: elapsed hours after it before anything that needs it [h].
    group: its phase, for the builder's own record.
    taken_h: hours it already took, with its crew [h].
    fraction: how much of it is done, 0 up to 1.
    waits: names of arrivals before which it can't begin.
    """

    name: str
    estimate: Estimate
    crew: int = 1
    needs: tuple[str, ...] = ()
    cure_h: float = 0.0
    group: str = ""
    taken_h: float = 0.0
    fraction: float = 0.0
    waits: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Arrival:
    """Something that comes on a day or later, never before it.

    Parameters
    ----------
    due_h: when it is due, in elapsed hours from the midnight before now.
    slip_h: how late it can be; the later the less likely, on a straight line [h].
    what: what comes, where several arrivals are of the same thing; else its name.
    """

    name: str
    due_h: float
    slip_h: float = 0.0
    what: str = ""


class Trials:
    """Trials of one network.

    Parameters
    ----------
    jobs: each after those it needs; in this order they take hands.
    crew: people there are, 1 or more.
    week: the days with work.
    now: a moment of local time.
    record: what the builder's own work says.
    chance: seeded; the same one gives the same trials.
    arrivals: what jobs may wait for.

    Raises
    ------
    BadInput: no people, or a job that stands before one it needs.
    """

    def __init__(
        self,
        jobs: Sequence[Job],
        crew: int,
        week: Week,
        now: datetime,
        record: Record,
        chance: Chance,
        arrivals: Sequence[Arrival] = (),
    ) -> None:
        if crew < 1:
            raise BadInput("nobody is there; dates need a crew of 1 or more")
        self.jobs, self.crew, self.week, self.now = jobs, crew, week, now
        self.record, self.chance, self.arrivals = record, chance, arrivals
        self.groups = list(dict.fromkeys(job.group for job in jobs))
        self.place = {job.name: number for number, job in enumerate(jobs)}
        places = {arrival.name: number for number, arrival in enumerate(arrivals)}
        group = {name: number for number, name in enumerate(self.groups)}
        rows = []
        for number, job in enumerate(jobs):
            needs = tuple(self.place[need] for need in job.needs)
            if any(need >= number for need in needs):
                raise BadInput(f"'{job.name}' stands before what it needs")
            rows.append(
                (
                    _remaining(job, job.estimate.drawer(chance, record.spread)),
                    group[job.group],
                    needs,
                    tuple(places[name] for name in job.waits),
                    min(job.crew, crew),
                    max(1.0, job.crew / crew),
                    job.cure_h,
                )
            )
        self.rows = rows
        self.drawn: list[list[float]] = []
        self.axes: list[Axis] = []
        self.held = [0] * len(jobs)

    def run(
        self,
        targets: Mapping[str, Sequence[str]],
        trials: int,
        each: Callable[[], object] | None = None,
    ) -> dict[str, Odds]:
        """The odds of each target.

        Parameters
        ----------
        targets: names of the jobs that have to be done, by the name of the target.
        trials: how many, 1 or more.
        each: called before each trial; what it raises ends the work.
        """
        wanted = [(name, *self._last(jobs)) for name, jobs in targets.items()]
        found: dict[str, list[float]] = {name: [] for name in targets}
        self.drawn, self.axes, self.held = [], [], [0] * len(self.jobs)
        for number in range(trials):
            if each is not None:
                each()
            axis, work, cured = self._once(number < SAMPLE)
            for name, plain, cures in wanted:
                done = max((cured[job] for job in cures), default=axis.now)
                if plain:
                    done = max(done, axis.elapsed(max(work[job] for job in plain)))
                found[name].append(max(done, axis.now))
        drivers = {name: self._drivers(targets[name], found[name]) for name in targets}
        return {name: Odds(tuple(sorted(hours)), drivers[name]) for name, hours in found.items()}

    def _once(self, keep: bool) -> tuple[Axis, list[float], list[float]]:
        """One trial: when each job's work is done, and when its cure is over."""
        chance, record = self.chance, self.record
        axis = Axis(self.week, self.now, chance)
        factors = list(record.draw(chance, self.groups).values())
        late = [row.due_h + row.slip_h * (1.0 - sqrt(chance.random())) for row in self.arrivals]
        there = [axis.work(hours) if hours > axis.now else axis.begin for hours in late]
        place = Hands(self.crew).place
        work: list[float] = []
        cured: list[float] = []
        hours: list[float] = []
        for number, (remaining, group, needs, waits, crew, longer, cure) in enumerate(self.rows):
            ready = axis.begin
            for need in needs:
                if work[need] > ready:
                    ready = work[need]
            before = ready
            for wait in waits:
                if there[wait] > ready:
                    ready = there[wait]
            takes = remaining(factors[group]) * longer
            begins = place(ready, takes, crew)
            done = begins + takes
            if keep:
                hours.append(takes / longer / factors[group])
                self.held[number] += begins == ready > before
            if cure:
                over = axis.elapsed(done) + cure
                cured.append(over)
                done = axis.work(over)
            else:
                cured.append(0.0)
            work.append(done)
        if keep:
            self.drawn.append(hours + late + factors)
            self.axes.append(axis)
        return axis, work, cured

    def _last(self, names: Sequence[str]) -> tuple[list[int], list[int]]:
        """Of some jobs those that none of the others waits for: without a cure, and with one."""
        inside = {self.place[name] for name in names}
        before = {self.place[need] for number in inside for need in self.jobs[number].needs}
        last = sorted(inside - before)
        cures = [number for number in last if self.jobs[number].cure_h]
        return [number for number in last if not self.jobs[number].cure_h], cures

    def _drivers(self, names: Sequence[str], done: Sequence[float]) -> tuple[Driver, ...]:
        """What goes with the date most; what can be mere accident is left out."""
        sample = done[: len(self.drawn)]
        if len(sample) < 2:
            return ()
        columns = list(zip(*self.drawn, strict=True))
        inside = [self.place[name] for name in names]
        waiting: dict[str, int] = {}
        for number in inside:
            for name in self.jobs[number].waits:
                waiting[name] = max(waiting.get(name, 0), self.held[number])
        least = 9.0 / len(sample)  # three standard errors of no correlation at all
        found = [
            Driver(self.jobs[number].name, share, 0.0)
            for number in inside
            if (share := goes_with(columns[number], sample)) > least
        ]
        for number, arrival in enumerate(self.arrivals, len(self.jobs)):
            if arrival.name in waiting:
                share = goes_with(columns[number], sample)
                holds = waiting[arrival.name] / len(sample)
                if share > least or holds >= 0.5:
                    what = arrival.what or arrival.name
                    found.append(Driver(what, share if share > least else 0.0, holds))
        paces = columns[len(self.jobs) + len(self.arrivals) :]
        for group in dict.fromkeys(self.jobs[number].group for number in inside):
            share = goes_with(paces[self.groups.index(group)], sample)
            if share > least and group:
                found.append(Driver(group, share, 0.0))
        axes = self.axes
        middle = sum(map(Axis.work, axes, sample)) / len(sample)
        share = goes_with([axis.elapsed(middle) for axis in axes], sample)
        if share > least:
            found.append(Driver(DAYS, share, 0.0))
        return tuple(sorted(found, key=lambda driver: (-driver.share, -driver.holds, driver.name)))


def _remaining(job: Job, draw: Callable[[], float]) -> Callable[[float], float]:
    """What gives the hours still in a job, for a factor.

    One begun is drawn from beyond the hours it already took; where that is past all that is
    likely, what is said to be still to do of it is drawn anew.
    """
    taken, rest = job.taken_h, 1.0 - job.fraction
    if not taken:
        return lambda factor: draw() * factor * rest

    def begun(factor: float) -> float:
        for _ in range(AGAIN):
            hours = draw() * factor
            if hours > taken:
                return hours - taken
        return draw() * factor * rest

    return begun
