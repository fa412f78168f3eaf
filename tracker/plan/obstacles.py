"""What stands in the way of tasks by itself: hold points, closed walls, blockers."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from tracker.build.coverage import WHOLE, Coverage
from tracker.build.holdpoint import CLOSED, RELEASED, recorded
from tracker.build.item import Item, as_list
from tracker.build.release import HoldStanding, closed_zones, hold_standing
from tracker.plan.chain import Chains


def holding(cover: Coverage, now: datetime) -> dict[str, str]:
    """The tasks that a hold point holds, and which: those that bury what it covers."""
    found: dict[str, str] = {}
    for hold in cover.holds:
        if _let_through(cover, hold, now):
            continue
        buries = set(hold.get("buries", ()))
        for task in cover.by_kind.get("task", []):
            gated = task.get("phase") == hold.get("gates") and buries & set(
                as_list(task.get("buries"))
            )
            if task.id == hold.get("closed_by") or gated:
                found.setdefault(task.id, hold.id)
    return found


def _let_through(cover: Coverage, hold: Item, now: datetime) -> bool:
    """Is it released or closed in some zone, so that work may go on there?"""
    keys = dict.fromkeys((*cover.zone_keys(hold), WHOLE))
    stands: list[HoldStanding] = [
        hold_standing(cover, hold, zone, now)
        for zone in keys
        if recorded(cover.build.holds.get((hold.id, zone), ())) in (RELEASED, CLOSED)
    ]
    return any(stand.state in ("released", "closed") for stand in stands)


def shut(cover: Coverage, chains: Chains) -> dict[str, str]:
    """The open tasks before a burying hold point that is closed everywhere, and which."""
    found: dict[str, str] = {}
    for hold in cover.holds:
        if not hold.get("buries"):
            continue
        closed = closed_zones(cover.build, hold)
        if not closed or not (WHOLE in closed or closed.issuperset(cover.zone_keys(hold))):
            continue
        closing = hold.get("closed_by")
        for name in chains.behind(closing) - {closing}:
            found.setdefault(name, hold.id)
    return found


def standing_blockers(cover: Coverage) -> Mapping[str, list[Item]]:
    """The uncleared blockers by what they stop: tasks, checks, and the tasks of a phase."""
    found: dict[str, list[Item]] = {}
    of_phase: dict[str, list[str]] = {}
    for task in cover.by_kind.get("task", []):
        of_phase.setdefault(str(task.get("phase")), []).append(task.id)
    for blocker in cover.by_kind.get("blocker", []):
        if blocker.get("cleared"):
            continue
        stops = {str(name) for name in as_list(blocker.get("stops"))}
        for phase in stops & of_phase.keys():
            stops.update(of_phase[phase])
        for hold in cover.holds:
            if hold.id in stops and hold.get("closed_by"):
                stops.add(str(hold.get("closed_by")))
        for name in stops:
            found.setdefault(name, []).append(blocker)
    return found
