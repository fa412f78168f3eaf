"""What was done so far: burn-up of points and hours, money by phase, hours lost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.build.answer import standing
from tracker.build.coverage import Coverage
from tracker.build.work import likely_crew_hours
from tracker.plan.line import Line


@dataclass(frozen=True, slots=True)
class Week:
    """How far the build was at the end of a week.

    Parameters
    ----------
    begins: the Monday.
    logged: crew-hours logged until its end [h].
    earned: likely crew-hours of what was done until its end [h].
    points: points that are settled now and were answered by its end; what weather made out of date
        since counts as well.
    """

    begins: date
    logged: float
    earned: float
    points: int


@dataclass(frozen=True, slots=True)
class BurnUp:
    """What was done, week by week, of what there is in all.

    Parameters
    ----------
    weeks: every week from the first with work or answers to the last.
    hours: likely crew-hours of all tasks of which hours are stated [h].
    points: points of all hold points.
    """

    weeks: tuple[Week, ...]
    hours: float
    points: int


def burn_up(cover: Coverage, length_m: float) -> BurnUp:
    """The burn-up of a build; what was taken back never was.

    Parameters
    ----------
    length_m: length of the body [m].
    """
    build = cover.build
    likely = {task.id: likely_crew_hours(task, length_m) for task in cover.by_kind.get("task", [])}
    steps: list[tuple[date, float, float, int]] = []
    fractions: dict[str, float] = {}
    unread = set(build.unknown)
    for act in build.acts:
        for number, fact in enumerate(act.facts if act.id not in build.dead else ()):
            if fact.get("f") != "task.worked" or act.ref(number) in unread:
                continue
            task = fact["task"]
            if task not in likely:
                continue
            before = fractions.get(task, 0.0)
            now = fractions[task] = float(fact.get("fraction", before))
            hours = float(fact.get("hours", 0.0))
            steps.append((_day(act.happened), hours, (now - before) * likely[task], 0))
    points = {
        (check.id, subject.id): (check, subject)
        for hold in cover.holds
        for check, subject in cover.points(hold)
    }
    for check, subject in points.values():
        stand = standing(build, check, subject)
        if stand.settled and stand.answer is not None:
            steps.append((_day(stand.answer.when), 0.0, 0.0, 1))
    return BurnUp(tuple(_weeks(steps)), sum(likely.values()), len(points))


def _weeks(steps: list[tuple[date, float, float, int]]) -> Iterable[Week]:
    by_week: dict[date, list[tuple[date, float, float, int]]] = {}
    for step in steps:
        by_week.setdefault(step[0] - timedelta(days=step[0].weekday()), []).append(step)
    logged = earned = 0.0
    points, week = 0, min(by_week, default=None)
    while week is not None and week <= max(by_week):
        for _, hours, worth, settled in by_week.get(week, ()):
            logged, earned, points = logged + hours, earned + worth, points + settled
        yield Week(week, logged, earned, points)
        week += timedelta(days=7)


def _day(moment: str) -> date:
    return date.fromisoformat(moment[:10])


@dataclass(frozen=True, slots=True)
class Money:
    """The money of a phase.

    Parameters
    ----------
    phase: its id, or '' for what is of no phase.
    paid: by currency ('' where none was said), what receipts add up to.
    to_come: what the parts cost that its open tasks still take, as far as a price is known; it
        counts what is on hand already too.
    """

    phase: str
    paid: dict[str, float]
    to_come: float


def money(cover: Coverage, lines: Iterable[Line]) -> list[Money]:
    """The money of each phase that has any, in the order of the phases.

    Parameters
    ----------
    lines: the open demand.
    """
    paid: dict[str, dict[str, float]] = {}
    for receipt in cover.by_kind.get("receipt", []):
        sums = paid.setdefault(str(receipt.get("phase", "")), {})
        currency = str(receipt.get("currency", ""))
        sums[currency] = sums.get(currency, 0.0) + float(receipt.get("amount", 0.0))
    costs: dict[str, float] = {}
    for line in lines:
        task, part = (cover.build.items.get(each) for each in (line.task, line.part))
        price = part.get("unit_cost") if part is not None else None
        if price is not None:
            phase = str(task.get("phase", "")) if task is not None else ""
            costs[phase] = costs.get(phase, 0.0) + line.open * float(price)
    order = {item.id: item.get("order", 99) for item in cover.by_kind.get("phase", [])}
    phases = sorted({*paid, *costs}, key=lambda phase: (order.get(phase, 100), phase))
    return [Money(phase, paid.get(phase, {}), costs.get(phase, 0.0)) for phase in phases]


def lost_hours(cover: Coverage) -> dict[str, tuple[float, int]]:
    """By kind of blocker the hours it cost and how many there were; those that cost most first."""
    found: dict[str, tuple[float, int]] = {}
    for blocker in cover.by_kind.get("blocker", []):
        kind = str(blocker.get("kind", ""))
        hours, count = found.get(kind, (0.0, 0))
        found[kind] = hours + float(blocker.get("lost_h", 0.0)), count + 1
    return dict(sorted(found.items(), key=lambda row: (-row[1][0], row[0])))
