"""What is still to do before a hold point."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from tracker.build.answer import OPEN_STATES, Standing
from tracker.build.coverage import WHOLE, Coverage
from tracker.build.item import VEHICLE, Item
from tracker.build.release import HoldStanding, closed_zones, hold_standing
from tracker.build.unsaid import unknown_fields
from tracker.build.work import NOT_BEGUN, likely_crew_hours
from tracker.plan.shortage import Shortage, shortages

COUNTED = ("good", "bad", "waived", "na", "open")


@dataclass(frozen=True, slots=True)
class Todo:
    """What is still to do before one hold point, in one zone or in all that are not closed.

    Parameters
    ----------
    hold: the hold point.
    zone: the zone asked for, or '' for all of them.
    state: a state of ``holdpoint.STATES``; over several zones the one furthest back.
    booked: the date (ISO) of the close-in, or None.
    days: days from today to it, below 0 when it has passed, or None.
    zones: how it stands in each zone looked at.
    points: how each point stands, each once.
    counts: points good, bad, waived, na and open; they add up to the total.
    blockers: every uncleared blocker; those that stop this hold point first.
    shortages: parts that are short.
    unknowns: (item, fields) still unknown and due before this close-in; the vehicle first, with
        the fields of its profile on which the limit of an open point rests.
    conflicts: (item, field) with more than one value.
    reasons: why a release lapsed.
    reservations: reservations nobody has accepted.
    hours_left: crew-hours likely still to do before it.
    late: items that surfaced after a close-in.
    """

    hold: Item
    zone: str
    state: str
    booked: str | None
    days: int | None
    zones: tuple[HoldStanding, ...]
    points: tuple[Standing, ...]
    counts: dict[str, int]
    blockers: tuple[Item, ...]
    shortages: tuple[Shortage, ...]
    unknowns: tuple[tuple[Item, tuple[str, ...]], ...]
    conflicts: tuple[tuple[Item, str], ...]
    reasons: tuple[str, ...]
    reservations: tuple[str, ...]
    hours_left: float
    late: tuple[Item, ...]

    @property
    def open_points(self) -> list[Standing]:
        """What is open, out of date, in conflict or bad."""
        return [point for point in self.points if point.state in (*OPEN_STATES, "bad")]

    @property
    def passed(self) -> bool:
        """Does the hold point let the work go on: ready, released or closed?"""
        return self.state in ("ready", "released", "closed")


def next_hold(cover: Coverage) -> Item | None:
    """The hold point people most likely mean: the next booked one, else the first not closed."""
    open_holds = [hold for hold in cover.holds if not all_closed(cover, hold)]
    booked = [hold for hold in open_holds if booking(cover, hold, WHOLE)]
    if booked:
        return min(booked, key=lambda hold: booking(cover, hold, WHOLE) or "")
    if open_holds:
        return open_holds[0]
    return cover.holds[-1] if cover.holds else None


def all_closed(cover: Coverage, hold: Item) -> bool:
    """Is the hold point closed everywhere?"""
    closed = closed_zones(cover.build, hold)
    return WHOLE in closed or closed.issuperset(cover.zone_keys(hold))


def booking(cover: Coverage, hold: Item, zone: str) -> str | None:
    """The booked date (ISO) for a zone, its own before that of the hold point.

    For the whole, the first of those not yet closed; None once all are.
    """
    if zone:
        own: str | None = hold.get(f"booked@{zone}") or hold.get("booked")
        return own
    if all_closed(cover, hold):
        return None
    closed = closed_zones(cover.build, hold)
    dates: list[str] = [
        booked
        for key in cover.zone_keys(hold)
        if key not in closed and (booked := hold.get(f"booked@{key}") or hold.get("booked"))
    ]
    return min(dates, default=None)


def todo(
    cover: Coverage,
    hold: Item,
    zone: str,
    now: datetime,
    reservations: Sequence[str] = (),
) -> Todo:
    """What is still to do before a hold point at ``now`` (with an offset)."""
    keys = [zone] if zone else _zones_to_do(cover, hold)
    stands = tuple(hold_standing(cover, hold, key, now, reservations) for key in keys)
    points: dict[tuple[str, str], Standing] = {}
    for stand in stands:
        for point in stand.points:
            key = (point.check.id, point.subject.id)
            known = points.get(key)
            if known is None or known.settled:
                points[key] = point
    rows = tuple(points.values())
    booked = booking(cover, hold, zone)
    stopping = {item.id for stand in stands for item in stand.blockers}
    blockers = [item for item in cover.by_kind.get("blocker", []) if not item.get("cleared")]
    return Todo(
        hold,
        zone,
        _overall([stand.state for stand in stands]),
        booked,
        (date.fromisoformat(booked) - now.date()).days if booked else None,
        stands,
        rows,
        _counts(rows),
        tuple(sorted(blockers, key=lambda item: item.id not in stopping)),
        tuple(shortages(cover)),
        (*_unknown_profile(cover, rows), *_unknowns(cover, hold, keys)),
        tuple(_conflicts(cover)),
        tuple(dict.fromkeys(reason for stand in stands for reason in stand.reasons)),
        tuple(reservations),
        _hours_left(cover, hold),
        tuple({item.id: item for stand in stands for item in stand.late}.values()),
    )


def _zones_to_do(cover: Coverage, hold: Item) -> list[str]:
    build = cover.build
    if (hold.id, WHOLE) in build.holds:
        return [WHOLE]
    closed = closed_zones(build, hold)
    keys = cover.zone_keys(hold)
    return [key for key in keys if key not in closed] or keys


def _overall(states: Sequence[str]) -> str:
    """Over several zones: one that needs work speaks for all; reopened and lapsed first."""
    for state in ("lapsed", "reopened", "open", "not due", "ready", "released", "closed"):
        if state in states:
            if state == "not due" and set(states) != {"not due"}:
                return "open"
            return state
    return "not due"


def _counts(points: Sequence[Standing]) -> dict[str, int]:
    counts = dict.fromkeys(COUNTED, 0)
    for point in points:
        counts["open" if point.state in OPEN_STATES else point.state] += 1
    return counts


def _unknowns(
    cover: Coverage, hold: Item, zones: Sequence[str]
) -> list[tuple[Item, tuple[str, ...]]]:
    found = {}
    for zone in zones:
        for item in cover.covered_items(hold, zone):
            fields = unknown_fields(item)
            if fields:
                found[item.id] = (item, tuple(fields))
    return list(found.values())


def _unknown_profile(
    cover: Coverage, points: Sequence[Standing]
) -> list[tuple[Item, tuple[str, ...]]]:
    vehicle = cover.vehicle
    if vehicle is None:
        return []
    names = {
        name: None
        for point in points
        if point.limit is not None and not point.settled
        for name in point.limit.profile
        if vehicle.get(name) is None
    }
    return [(vehicle, tuple(names))] if names else []


def _conflicts(cover: Coverage) -> list[tuple[Item, str]]:
    return [
        (item, name) for items in cover.by_kind.values() for item in items for name in item.rivals
    ]


def tasks_before(cover: Coverage, hold: Item) -> list[Item]:
    """The open tasks that come before a hold point's closing task.

    Those of earlier phases of this build, and within the phase that the hold point gates, those
    that the closing task needs.
    """
    tasks = {task.id: task for task in cover.by_kind.get("task", [])}
    phases = {phase.id: phase.get("order", 99) for phase in cover.by_kind.get("phase", [])}
    gate = phases.get(hold.get("gates"), 99)
    needed: set[str] = set()
    queue = cover.needs(tasks[closing]) if (closing := hold.get("closed_by")) in tasks else []
    while queue:
        identifier = queue.pop()
        if identifier in tasks and identifier not in needed:
            needed.add(identifier)
            queue += cover.needs(tasks[identifier])
    return [
        task
        for task in tasks.values()
        if (task.id in needed or phases.get(task.get("phase"), 99) < gate)
        and not cover.build.work.get(task.id, NOT_BEGUN).done
    ]


def _hours_left(cover: Coverage, hold: Item) -> float:
    vehicle = cover.build.items.get(VEHICLE)
    length_m = float(vehicle.get("length_m", 0.0)) if vehicle else 0.0
    return round(
        sum(
            likely_crew_hours(task, length_m)
            * (1.0 - cover.build.work.get(task.id, NOT_BEGUN).fraction)
            for task in tasks_before(cover, hold)
        ),
        1,
    )
