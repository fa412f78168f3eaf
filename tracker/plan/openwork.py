"""The open tasks of a build as a network of jobs, and what from outside they wait for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta
from heapq import heapify, heappop, heappush

from tracker.build.coverage import WHOLE, Coverage
from tracker.build.work import NOT_BEGUN
from tracker.plan.allocation import Allocation, by_task, rank
from tracker.plan.chain import Chains
from tracker.plan.line import Line
from tracker.plan.obstacles import holding, standing_blockers
from tracker.plan.record import estimate_of
from tracker.plan.scheduling import DAY_H
from tracker.plan.shelf import ON_ORDER
from tracker.plan.slips import day_of, slips
from tracker.plan.todo import all_closed, booking, tasks_before
from tracker.plan.trials import Arrival, Job
from tracker.plan.usual import UNSTATED

LEAST_SLIP_H = 2 * DAY_H
"""What is due soon can be so late all the same. Common practice, no source."""


class OpenWork:
    """The open tasks of a build as jobs in the order in which they take hands.

    ``jobs`` and ``arrivals`` are for ``Trials``; ``holds`` are the hold points still to come, and
    ``before`` the tasks before each; the rest is what is not known.

    Parameters
    ----------
    now: with an offset.
    lines: the open demand.
    """

    def __init__(self, cover: Coverage, now: datetime, lines: Sequence[Line]) -> None:
        self.cover, self.now, self.slips = cover, now, slips(cover.build)
        self.chains = chains = Chains(cover)
        self.holds = [hold for hold in cover.holds if not all_closed(cover, hold)]
        before = {hold.id: [task.id for task in tasks_before(cover, hold)] for hold in self.holds}
        needs = self._gated(before)
        order = self._order(needs, before)
        if len(order) < len(chains.order):  # hold points and tasks that wait for each other
            needs = {name: list(chains.before[name]) for name in chains.tasks}
            order = self._order(needs, before)
        self.placed = set(order)
        self.before = {
            hold: [name for name in names if name in self.placed] for hold, names in before.items()
        }
        self.unknown: list[tuple[str, str]] = []
        self.uncounted: dict[str, None] = {}
        arrivals: dict[str, Arrival] = {}
        waits: dict[str, list[str]] = {name: [] for name in order}
        for name, arrival in self._waits(lines):
            if name in waits:
                arrivals[arrival.name] = arrival
                waits[name].append(arrival.name)
        self.arrivals = list(arrivals.values())
        self.jobs = [self._job(name, needs[name], waits[name]) for name in order]

    def _gated(self, before: dict[str, list[str]]) -> dict[str, list[str]]:
        """What each task waits for, what its hold point waits for within."""
        chains = self.chains
        needs = {name: list(chains.before[name]) for name in chains.tasks}
        for name, hold in holding(self.cover, self.now).items():
            if name in needs and hold in before:
                later = chains.downstream([name])
                needs[name] += [each for each in before[hold] if each not in later]
        return needs

    def _order(self, needs: dict[str, list[str]], before: dict[str, list[str]]) -> list[str]:
        """The tasks, each after those it needs; what leads to the next hold point first."""
        late = self.chains.late_start()
        place = {name: number for number, name in enumerate(rank(self.chains, (), late))}
        first: dict[str, int] = {}
        for number, hold in enumerate(self.holds):
            for name in before[hold.id]:
                first.setdefault(name, number)
        last = len(self.holds)
        key = {name: (first.get(name, last), place[name], name) for name in needs}
        waits = {name: len(set(wanted)) for name, wanted in needs.items()}
        after: dict[str, list[str]] = {name: [] for name in needs}
        for name, wanted in needs.items():
            for need in set(wanted):
                after[need].append(name)
        ready = [key[name] for name, count in waits.items() if not count]
        heapify(ready)
        found = []
        while ready:
            name = heappop(ready)[2]
            found.append(name)
            for follower in after[name]:
                waits[follower] -= 1
                if not waits[follower]:
                    heappush(ready, key[follower])
        return found

    def _job(self, name: str, needs: list[str], waits: list[str]) -> Job:
        task, crew = self.chains.tasks[name], self.chains.crew[name]
        progress = self.cover.build.work.get(name, NOT_BEGUN)
        return Job(
            name,
            estimate_of(task, self.chains.length_m) or UNSTATED,
            crew,
            tuple(need for need in dict.fromkeys(needs) if need in self.placed),
            float(task.get("cure_h", 0.0)),
            str(task.get("phase", "")),
            progress.hours / crew,
            progress.fraction,
            tuple(dict.fromkeys(waits)),
        )

    def _waits(self, lines: Sequence[Line]) -> Iterable[tuple[str, Arrival]]:
        """What tasks wait for: parts on their way or still to order, blockers, booked days."""
        yield from self._parts(lines)
        blockers = standing_blockers(self.cover)
        for name in self.chains.tasks:
            for blocker in blockers.get(name, ()):
                if blocker.get("expected"):
                    yield from self._due(name, blocker.id, str(blocker.get("expected")))
                else:
                    self.unknown.append((name, blocker.id))
        for hold in self.holds:
            booked, closing = booking(self.cover, hold, WHOLE), str(hold.get("closed_by", ""))
            if booked is not None and closing in self.chains.tasks:
                yield closing, Arrival(hold.id, self._hours(date.fromisoformat(booked)))
        yield from self._curing()

    def _parts(self, lines: Sequence[Line]) -> Iterable[tuple[str, Arrival]]:
        found = Allocation(self.cover, rank(self.chains), by_task(lines), arrivals=True)
        today = self.now.date()
        for name, share in found.shares.items():
            self.uncounted.update(dict.fromkeys(part for part, _ in share.doubts))
            if share.ready_on:
                parts = [row.part for row in share.taken if found.shelves[row.part].since]
                late = [part for part in parts if found.shelves[part].since == share.ready_on]
                yield from self._due(name, late[0] if late else name, share.ready_on)
            elif share.ready_on is None and not share.lacks:
                parts = [row.part for row in share.taken if row.place == ON_ORDER]
                self.unknown += [(name, part) for part in parts if not found.shelves[part].since]
            for lack in share.lacks:
                part = self.cover.build.items.get(lack.part)
                lead = part.get("lead_days") if part is not None else None
                if lack.due:
                    yield from self._due(name, lack.part, lack.due)
                elif lead is not None:  # ordered today at the soonest
                    there = today + timedelta(days=lead)
                    yield from self._due(name, lack.part, there.isoformat())
                else:
                    self.unknown.append((name, lack.part or lack.name))

    def _curing(self) -> Iterable[tuple[str, Arrival]]:
        """Tasks behind something done that still cures."""
        build = self.cover.build
        for name, task in self.chains.tasks.items():
            for need in self.cover.needs(task):
                item, done = build.items.get(need), build.work.get(need)
                hours = float(item.get("cure_h", 0.0)) if item is not None else 0.0
                if hours and done is not None and done.done:
                    over = datetime.fromisoformat(done.when) + timedelta(hours=hours)
                    midnight = self.now.replace(hour=0, minute=0, second=0, microsecond=0)
                    since = (over - midnight).total_seconds() / 3600.0
                    if over > self.now:
                        yield name, Arrival(need, since)

    def _hours(self, day: date) -> float:
        return (day - self.now.date()).days * DAY_H

    def _due(self, task: str, what: str, said: str) -> Iterable[tuple[str, Arrival]]:
        """Something due on a day, as late as it may be; what is overdue comes from today on."""
        day = day_of(said)
        if day is None:
            self.unknown.append((task, what))
            return
        hours = self._hours(day)
        slip = max(LEAST_SLIP_H, self.slips.share * abs(hours))
        yield task, Arrival(f"{what} {day}", max(0.0, hours), slip, what)
