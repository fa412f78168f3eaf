"""Filling a day: jobs are given people and hours, and none that still fits is passed over."""

from __future__ import annotations

from bisect import insort
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from tracker.plan.day import Day

SMALL = 1e-9


@dataclass(frozen=True, slots=True)
class Job:
    """A task as the day sees it: hours with set-up, people, what it moves, what it waits for."""

    name: str
    hours: float
    crew: int
    moves: float
    after: tuple[str, ...] = ()
    group: str = ""


class Hours:
    """Who is busy when, while a day is filled.

    Parameters
    ----------
    day: how many people are there, and for how long.
    """

    def __init__(self, day: Day) -> None:
        self.day = day
        self.busy: list[tuple[float, float, int]] = []
        self.full: dict[int, float] = {}

    def room(self, job: Job, not_before: float) -> float | None:
        """The earliest start [h] at which the job has its people to its end, or None.

        What found no room in the whole day finds none later, nor does what takes as much or more.
        """
        if any(crew <= job.crew and hours <= job.hours for crew, hours in self.full.items()):
            return None
        ends = {not_before, *(end for _, end, _ in self.busy if end > not_before)}
        start = next((start for start in sorted(ends) if self.fits(job, start)), None)
        if start is None and not_before <= 0.0:
            self.full[job.crew] = job.hours
        return start

    def fits(self, job: Job, start: float) -> bool:
        """Has the job its people from a start [h] to its end?"""
        end = start + job.hours
        moments = {start, *(begin for begin, _, _ in self.busy if start < begin < end)}
        moments |= {stay for stay in self.day.there_h if start < stay < end - SMALL}
        return end <= self.day.longest_h + SMALL and all(
            self._free(moment) >= job.crew for moment in moments
        )

    def _free(self, moment: float) -> int:
        """People not busy just after a moment."""
        there = sum(stay > moment + SMALL for stay in self.day.there_h)
        return there - sum(crew for begin, end, crew in self.busy if begin <= moment + SMALL < end)

    def put(self, job: Job, start: float) -> float:
        """Take the people of a job; when it is over [h]."""
        self.busy.append((start, start + job.hours, job.crew))
        return start + job.hours


Rule = Callable[[Job], tuple[float, ...]]

RULES: tuple[Rule, ...] = (
    lambda job: (-job.moves,),
    lambda job: (-job.crew * (job.moves > 0), -job.moves),
    lambda job: (-job.moves / max(job.crew * job.hours, SMALL),),
)
"""Orders that are tried: what moves most; two-person work first; what moves most for its hours."""


def fill(jobs: Sequence[Job], day: Day) -> list[tuple[Job, float]]:
    """The jobs of a day with their starts [h], so that none that still fits is passed over.

    Of several orders the one counts that gets most crew-hours before the hold point done, then
    most on the heaviest chains, then most of all.
    """
    best: list[tuple[Job, float]] = []
    best_worth: tuple[float, ...] = (-1.0,)
    for rule in RULES:
        found = _filled(jobs, day, rule)
        moving = [job for job, _ in found if job.moves > 0]
        worth = (
            max((job.moves for job in moving), default=0.0),
            round(sum(job.crew * job.hours for job in moving), 6),
            round(sum(job.moves for job in moving), 6),
            round(sum(job.crew * job.hours for job, _ in found), 6),
        )
        if worth > best_worth:
            best, best_worth = found, worth
    return best


class _Queue:
    """Jobs by one order; what waits for others joins once those are in."""

    def __init__(self, jobs: Sequence[Job], rule: Rule) -> None:
        self.rule = rule
        names = {job.name for job in jobs}
        self.waits = {job.name: set(job.after) for job in jobs if names.issuperset(job.after)}
        self.after: dict[str, list[Job]] = {}
        for job in jobs:
            for need in job.after:
                self.after.setdefault(need, []).append(job)
        self.alike: dict[tuple[float, ...], list[Job]] = {}
        self.keys: list[tuple[float, ...]] = []
        for job in sorted(jobs, key=lambda job: job.name):
            if self.waits.get(job.name) == set():
                self._join(job)

    def _join(self, job: Job) -> None:
        key = self.rule(job)
        if not self.alike.get(key):
            heappush(self.keys, key)
        insort(self.alike.setdefault(key, []), job, key=lambda job: job.name)

    def take(self, groups: Collection[str]) -> Job | None:
        """The job that comes first; of those alike one of a place where work goes on already."""
        if not self.keys:
            return None
        alike = self.alike[self.keys[0]]
        job = next((job for job in alike if job.group in groups), alike[0])
        alike.remove(job)
        if not alike:
            heappop(self.keys)
        return job

    def done(self, name: str) -> None:
        """A job is in the day: what waited for it alone may be taken."""
        for job in self.after.get(name, ()):
            waits = self.waits.get(job.name)
            if waits and name in waits:
                waits.remove(name)
                if not waits:
                    self._join(job)


def _filled(jobs: Sequence[Job], day: Day, rule: Rule) -> list[tuple[Job, float]]:
    """Put in job after job by one order, each at the earliest time that has room."""
    hours, queue = Hours(day), _Queue(jobs, rule)
    over: dict[str, float] = {}
    found: list[tuple[Job, float]] = []
    groups: set[str] = set()
    while (job := queue.take(groups)) is not None:
        start = hours.room(job, max((over[need] for need in job.after), default=0.0))
        if start is not None:
            over[job.name] = hours.put(job, start)
            groups.add(job.group)
            found.append((job, start))
            queue.done(job.name)
    return sorted(found, key=lambda row: (row[1], -row[0].moves, row[0].name))
