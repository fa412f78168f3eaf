"""Today: which tasks, in which order, by how many people, so that the next hold point comes nearer.

What a task moves is a number: the crew-hours on the heaviest chain of work that begins with it
and leads to the next hold point. No ready task that fits the people and hours there are is ever
passed over: each is put in at the earliest time that has room, and room never grows again.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from tracker.build.item import Item
from tracker.plan.causes import Cause, causes
from tracker.plan.day import Day
from tracker.plan.filling import SMALL, Hours, Job, fill
from tracker.plan.readiness import PointStand, Readiness, Stand
from tracker.plan.shelf import Taken
from tracker.plan.todo import tasks_before
from tracker.plan.usual import AROUND_H


@dataclass(frozen=True, slots=True)
class Slot:
    """One task in the day.

    Parameters
    ----------
    stand: how the task stands.
    start_h, end_h: from the beginning of the day [h], set-up and pack-away within.
    crew: people it takes.
    moves: crew-hours on its chain to the next hold point, 0 where it leads to none.
    subjects: where only some of it is done, what for.
    part: how much of what is still to do is done today, 0 to 1.
    begun: is it only begun, since the day is too short for all of it?
    follows: does it wait for work of the same day?
    """

    stand: Stand
    start_h: float
    end_h: float
    crew: int
    moves: float
    subjects: tuple[str, ...] = ()
    part: float = 1.0
    begun: bool = False
    follows: bool = False

    @property
    def task(self) -> Item:
        """The task."""
        return self.stand.task

    @property
    def crew_hours(self) -> float:
        """Crew-hours of the day it takes."""
        return self.crew * (self.end_h - self.start_h)


@dataclass(frozen=True, slots=True)
class Load:
    """Something the plan needs that is not on site, or that nobody counted."""

    part: str
    place: str
    quantity: float
    tasks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The plan of a day.

    Parameters
    ----------
    slots: the tasks in order of their start.
    runners_up: ready, but no room for them any more: (stand, hours, people, what it moves).
    not_possible: what is in the way, worst first.
    waiting: tasks that wait for other work alone.
    loads: what has to be brought.
    doubts: (part's name, level, tasks) of what nobody counted.
    tools: the tools the plan takes, and the tasks that take them.
    crew_hours: crew-hours there are.
    used: crew-hours of the plan.
    """

    day: Day
    hold: Item | None
    slots: tuple[Slot, ...]
    runners_up: tuple[Slot, ...]
    not_possible: tuple[Cause, ...]
    waiting: tuple[Stand, ...]
    loads: tuple[Load, ...]
    doubts: tuple[tuple[str, str, tuple[str, ...]], ...]
    tools: tuple[tuple[str, tuple[str, ...]], ...]
    robs: Mapping[str, tuple[str, ...]]

    @property
    def crew_hours(self) -> float:
        """Crew-hours there are."""
        return self.day.crew_hours

    @property
    def used(self) -> float:
        """Crew-hours of the plan."""
        return sum(slot.crew_hours for slot in self.slots)


def today(ready: Readiness, hold: Item | None, points: Iterable[PointStand] = ()) -> Plan:
    """The plan of a day.

    Parameters
    ----------
    ready: how everything stands on the day.
    hold: the next hold point, or None.
    points: its open points, so that what stops them is ranked too.
    """
    day, chains = ready.day, ready.chains
    before = {task.id for task in tasks_before(ready.cover, hold)} if hold else set()
    moves = chains.chain(chains.crew_hours, before)
    jobs: dict[str, Job] = {}
    finished: set[str] = set()
    for name in chains.order:
        stand = ready.tasks[name]
        follows = _follows(stand, finished)
        if stand.ready or stand.partly or follows:
            part = stand.part if not follows else 1.0
            hours = chains.hours[name] * part + AROUND_H
            group = str(stand.task.get("phase", ""))
            after = chains.before[name] if follows else ()
            jobs[name] = Job(name, hours, chains.crew[name], moves[name], after, group)
            if (stand.ready or follows) and not stand.task.get("cure_h"):
                finished.add(name)
    chosen = fill(list(jobs.values()), day)
    slots = [_slot(ready, job, start) for job, start in chosen]
    slots += _begun(ready, jobs, chosen)
    slots.sort(key=lambda slot: (slot.start_h, -slot.moves, slot.task.id))
    in_plan = {slot.task.id for slot in slots}
    others = [
        _slot(ready, job, 0.0) for job in jobs.values() if job.name not in in_plan and not job.after
    ]
    stopped = [
        stand
        for name, stand in ready.tasks.items()
        if name not in in_plan and stand.reasons and not stand.partly
    ]
    return Plan(
        day,
        hold,
        tuple(slots),
        tuple(sorted(others, key=lambda slot: (-slot.moves, slot.task.id))),
        tuple(causes(ready, hold, points)),
        tuple(stand for stand in stopped if all(r.kind == "task" for r in stand.reasons)),
        tuple(_loads(slots, ready)),
        tuple(_doubts(slots)),
        tuple(_tools(slots)),
        {taker: who for taker, who in ready.allocation.robs.items() if taker in in_plan},
    )


def _follows(stand: Stand, finished: Collection[str]) -> bool:
    """Could it begin today once work that can be finished today is? No cure lies in between."""
    return bool(stand.reasons) and all(
        reason.kind == "task" and reason.what in finished for reason in stand.reasons
    )


def _slot(ready: Readiness, job: Job, start: float, *, begun: float | None = None) -> Slot:
    """A job in the day; ``begun`` is the part of it that the day is long enough for."""
    stand = ready.tasks[job.name]
    follows = bool(job.after)
    part = 1.0 if follows else stand.part
    return Slot(
        stand,
        start,
        start + job.hours,
        job.crew,
        job.moves,
        () if follows else stand.subjects,
        part if begun is None else begun * part,
        begun=begun is not None,
        follows=follows,
    )


def _begun(
    ready: Readiness, jobs: Mapping[str, Job], chosen: Sequence[tuple[Job, float]]
) -> list[Slot]:
    """Tasks longer than the day, begun in the time that is still free, what moves most first."""
    hours = Hours(ready.day)
    for job, start in chosen:
        hours.put(job, start)
    within = {job.name for job, _ in chosen}
    found = []
    for job in sorted(jobs.values(), key=lambda job: (-job.moves, job.name)):
        if job.name in within or job.after:
            continue
        least = Job(job.name, 2 * AROUND_H + SMALL, job.crew, job.moves)
        begin = hours.room(least, 0.0)
        if begin is None:
            continue
        longest = least
        for step in range(3, int(job.hours / AROUND_H)):
            longer = Job(job.name, AROUND_H * step, job.crew, job.moves)
            if hours.fits(longer, begin):
                longest = longer
        hours.put(longest, begin)
        share = (longest.hours - AROUND_H) / max(job.hours - AROUND_H, SMALL)
        found.append(_slot(ready, longest, begin, begun=share))
    return found


def _loads(slots: Sequence[Slot], ready: Readiness) -> list[Load]:
    """What the plan takes, by part and place."""
    found: dict[tuple[str, str], tuple[float, dict[str, None]]] = {}
    for slot in slots:
        taken: tuple[Taken, ...] = slot.stand.share.taken
        for row in taken:
            quantity, tasks = found.get((row.part, row.place), (0.0, {}))
            found[row.part, row.place] = quantity + row.quantity, {**tasks, slot.task.id: None}
    return [
        Load(part, place, quantity, tuple(tasks))
        for (part, place), (quantity, tasks) in sorted(found.items())
    ]


def _doubts(slots: Sequence[Slot]) -> list[tuple[str, str, tuple[str, ...]]]:
    found: dict[tuple[str, str], list[str]] = {}
    for slot in slots:
        for doubt in slot.stand.share.doubts:
            found.setdefault(doubt, []).append(slot.task.id)
    return [(name, level, tuple(tasks)) for (name, level), tasks in found.items()]


def _tools(slots: Sequence[Slot]) -> list[tuple[str, tuple[str, ...]]]:
    found: dict[str, list[str]] = {}
    for slot in slots:
        for tool in slot.task.get("tools", ()):
            found.setdefault(str(tool), []).append(slot.task.id)
    return [(tool, tuple(tasks)) for tool, tasks in found.items()]
