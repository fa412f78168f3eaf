"""Readiness: whether each open task could begin, or why not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from tracker.build.answer import OPEN_STATES, Standing
from tracker.build.coverage import WHOLE, Coverage
from tracker.build.item import Item, as_list
from tracker.build.release import closed_zones, hold_standing
from tracker.plan.allocation import Allocation, Lack, Share, by_task, rank
from tracker.plan.chain import Chains
from tracker.plan.day import Day
from tracker.plan.demand import demand
from tracker.plan.line import Line
from tracker.plan.obstacles import holding, shut, standing_blockers

KINDS = (
    "closed",
    "blocked",
    "part",
    "hold",
    "cure",
    "people",
    "skill",
    "tool",
    "power",
    "dry",
    "cold",
    "dark",
    "task",
)
"""Why something can't be done: closed in already, stopped by a blocker, short of a part, held by
a hold point, still curing, too few people, nobody who may, no tool, no power, wet, too cold, too
dark, work that comes first."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason why a task or point can't be done.

    Parameters
    ----------
    kind: one of ``KINDS``.
    what: the id of what is in the way, or its name in words; '' where the kind says it all.
    amount: people or degrees C it takes, or None.
    until: when it should be out of the way (ISO date or moment), or None.
    who: who owes the next step, or ''.
    lack: for a part, how much is missing and where the rest is.
    """

    kind: str
    what: str = ""
    amount: float | None = None
    until: str | None = None
    who: str = ""
    lack: Lack | None = None

    @property
    def cause(self) -> tuple[str, str]:
        """What it has in common with other tasks' reasons."""
        return self.kind, self.what


@dataclass(frozen=True, slots=True)
class Stand:
    """How one open task stands.

    Parameters
    ----------
    task: its item.
    reasons: why it can't begin; empty where it is ready.
    only_if: what nobody said and it rests on: ``dry``, ``cold``, ``dark``, ``power``, ``skill``.
    share: what it gets of the stock.
    subjects: where it can be done in part: the subjects that can.
    part: the part of what is still to do that can be done today, 0 to 1.
    """

    task: Item
    reasons: tuple[Reason, ...]
    only_if: tuple[str, ...]
    share: Share
    subjects: tuple[str, ...] = ()
    part: float = 1.0

    @property
    def ready(self) -> bool:
        """Could all that is still to do of it begin?"""
        return not self.reasons

    @property
    def partly(self) -> bool:
        """Could some of it be done, though not all?"""
        return bool(self.reasons) and self.part > 0.0


@dataclass(frozen=True, slots=True)
class PointStand:
    """Why an open point can't be answered today; no reason where it can."""

    point: Standing
    hold: Item
    reasons: tuple[Reason, ...]


class Readiness:
    """How everything open stands on a day.

    Parameters
    ----------
    cover: the build.
    day: who is there, the weather, what is missing.
    lines: the open demand, worked out where it is not given.
    """

    def __init__(self, cover: Coverage, day: Day, lines: Sequence[Line] | None = None) -> None:
        self.cover, self.day = cover, day
        self.chains = Chains(cover)
        self.holding = holding(cover, day.now)
        self.shut = shut(cover, self.chains)
        self.blockers = standing_blockers(cover)
        self.stopping: dict[str, list[str]] = {}
        for part in cover.by_kind.get("part", []):
            for stopped in as_list(part.get("stops")):
                self.stopping.setdefault(str(stopped), []).append(part.id)
        self.people = [p for p in cover.by_kind.get("person", []) if p.id not in day.absent]
        self.lines = by_task(demand(cover) if lines is None else lines)
        found = {name: self._of_task(task) for name, task in self.chains.tasks.items()}
        first = {name for name, reasons in found.items() if not _bars(reasons)}
        self.allocation = Allocation(
            cover,
            rank(self.chains, first),
            self.lines,
            unreached=day.unreached,
            without=day.without,
            partly=first,
        )
        self.tasks = {
            name: self._stand(task, found[name]) for name, task in self.chains.tasks.items()
        }

    def _of_task(self, task: Item) -> list[Reason]:
        """Every reason but those of the stock."""
        return [
            *self._in_the_way(task),
            *self._of_people(task),
            *self._of_the_day(task),
        ]

    def _in_the_way(self, task: Item) -> Iterable[Reason]:
        if task.id in self.shut:
            yield Reason("closed", self.shut[task.id])
        for blocker in self.blockers.get(task.id, ()):
            who, until = str(blocker.get("owes", "")), blocker.get("expected")
            yield Reason("blocked", blocker.id, until=until, who=who)
        if task.id in self.holding:
            yield Reason("hold", self.holding[task.id])
        for need in self.chains.before[task.id]:
            yield Reason("task", need)
        yield from self._curing(task)

    def _curing(self, task: Item) -> Iterable[Reason]:
        for need in self.cover.needs(task):
            item, done = self.cover.build.items.get(need), self.cover.build.work.get(need)
            hours = float(item.get("cure_h", 0.0)) if item is not None else 0.0
            if not hours or done is None or not done.done:
                continue
            over = datetime.fromisoformat(done.when) + timedelta(hours=hours)
            if over > self.day.now:
                until = over.astimezone(self.day.now.tzinfo).isoformat(timespec="minutes")
                yield Reason("cure", need, until=until)

    def _of_people(self, task: Item) -> Iterable[Reason]:
        crew = self.chains.crew[task.id]
        if crew > self.day.people:
            yield Reason("people", amount=float(crew))
        known = bool(self.cover.by_kind.get("person", []))
        for skill in as_list(task.get("skills")) if known else ():
            if not any(skill in as_list(person.get("may")) for person in self.people):
                yield Reason("skill", str(skill))

    def _of_the_day(self, task: Item) -> Iterable[Reason]:
        day = self.day
        if task.get("dry") and day.dry is False:
            yield Reason("dry")
        if (
            task.get("min_c") is not None
            and day.air_c is not None
            and day.air_c < task.get("min_c")
        ):
            yield Reason("cold", amount=float(task.get("min_c")))
        if task.get("daylight") and day.daylight is False:
            yield Reason("dark")
        if task.get("power") and day.power is False:
            yield Reason("power")
        for tool in as_list(task.get("tools")):
            if tool in day.no_tools:
                yield Reason("tool", str(tool))

    def _stand(self, task: Item, reasons: list[Reason]) -> Stand:
        share = self.allocation.shares[task.id]
        lacks = {lack.part: lack for lack in share.lacks}
        reasons = [self._with_lack(reason, lacks) for reason in reasons]
        of_stock = [Reason("part", name, until=lack.due, lack=lack) for name, lack in lacks.items()]
        subjects, part = share.subjects, share.share
        bars = _bars(reasons)
        if not bars and any(reason.kind == "blocked" for reason in reasons):
            subjects, part = self._around_blockers(task, reasons, share)
        if bars or not (reasons or of_stock):
            subjects, part = (), 0.0 if bars else 1.0
        everything = (*reasons, *of_stock)
        return Stand(task, everything, self._only_if(task), share, subjects, part)

    def _with_lack(self, reason: Reason, lacks: dict[str, Lack]) -> Reason:
        """A blocker about a part says what is missing of it, so that it is not told twice."""
        if reason.kind == "blocked":
            for part in as_list(self.cover.build.items[reason.what].get("part")):
                lack = lacks.pop(str(part), None)
                if lack is not None:
                    return replace(reason, lack=lack)
        return reason

    def _around_blockers(
        self, task: Item, reasons: Sequence[Reason], share: Share
    ) -> tuple[tuple[str, ...], float]:
        """The subjects that a missing part does not stop, of those whose parts are there."""
        parts = self._missing_parts(reasons)
        if parts is None:
            return (), 0.0
        lines = self.lines.get(task.id, ())
        subjects = dict.fromkeys(line.subject for line in lines if line.subject)
        stopped = {line.subject for line in lines if line.part in parts}
        able = share.subjects if share.lacks else tuple(subjects)
        found = tuple(subject for subject in able if subject not in stopped)
        return found, len(found) / len(subjects) if subjects and "" not in stopped else 0.0

    def _missing_parts(self, reasons: Iterable[Reason]) -> set[str] | None:
        """The parts that blockers are about; None where one of them is about something else."""
        parts: set[str] = set()
        for reason in reasons:
            if reason.kind == "blocked":
                named = as_list(self.cover.build.items[reason.what].get("part"))
                if not named:
                    return None
                parts.update(map(str, named))
        return parts

    def _only_if(self, task: Item) -> tuple[str, ...]:
        day = self.day
        asked = (
            ("dry", task.get("dry") and day.dry is None),
            ("cold", task.get("min_c") is not None and day.air_c is None),
            ("skill", task.get("skills") and day.people < len(self.people)),
        )
        return tuple(name for name, rests in asked if rests)

    def points(self, hold: Item) -> list[PointStand]:
        """How each open point before a hold point stands, each once."""
        found: dict[tuple[str, str], PointStand] = {}
        closed = closed_zones(self.cover.build, hold)
        for zone in self.cover.zone_keys(hold):
            for point in hold_standing(self.cover, hold, zone, self.day.now).points:
                if point.state not in (*OPEN_STATES, "bad"):
                    continue
                key = (point.check.id, point.subject.id)
                shut = zone in closed or WHOLE in closed
                if key not in found or not shut:
                    found[key] = PointStand(point, hold, tuple(self._of_point(point, hold, shut)))
        return list(found.values())

    def _of_point(self, point: Standing, hold: Item, shut: bool) -> Iterable[Reason]:
        if shut:
            yield Reason("closed", hold.id)
        for blocker in self.blockers.get(point.check.id, ()):
            who, until = str(blocker.get("owes", "")), blocker.get("expected")
            yield Reason("blocked", blocker.id, until=until, who=who)
        if point.check.get("how") == "second person" and self.day.people < 2:
            yield Reason("people", amount=2.0)
        for part in self.stopping.get(point.check.id, ()):
            shelf = self.allocation.shelves[part]
            if shelf.level is None and shelf.whole <= 0:
                yield Reason("part", part)


def _bars(reasons: Iterable[Reason]) -> bool:
    """Is there a reason that no part of a task can go around?"""
    return any(reason.kind != "blocked" for reason in reasons)
