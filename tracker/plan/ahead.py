"""Days to come: the build as it would be, were a day's plan done and had orders come by then."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from tracker.build import stock, work
from tracker.build.item import Item
from tracker.build.state import Build
from tracker.build.stock import Order
from tracker.build.supposing import next_act, suppose
from tracker.plan.line import PIECE, Line
from tracker.plan.shelf import Taken
from tracker.plan.stocked import put_ups
from tracker.plan.today import Plan, Slot

DELIVERED = "the delivery"
"""Where that lies which is supposed to have come."""


def arrived(build: Build, moment: datetime, today: date) -> tuple[Build, list[tuple[Item, Order]]]:
    """The build with what is due from today to a moment, and which orders those are.

    What was due before today and did not come is not counted on.
    """
    facts: list[Mapping[str, Any]] = []
    found = []
    days = (today.isoformat(), moment.date().isoformat())
    for name, orders in build.orders.items():
        part = build.items.get(name)
        coming = [each for each in orders if each.due and days[0] <= each.due[:10] <= days[1]]
        if part is None or part.removed is not None or not coming:
            continue
        put_up = float(part.get("pack") or 0.0)
        lot = build.lots.get((name, DELIVERED))
        lengths = list(lot.lengths or ()) if lot is not None else []
        for order in coming:
            found.append((part, order))
            lengths += put_ups(order.quantity, put_up)
            facts.append(stock.move(part, DELIVERED, order.quantity, "received"))
        if part.get("gauge"):
            facts.append(_measured(part, DELIVERED, lengths, len(facts), build))
    return suppose(build, facts, moment), found


def done(build: Build, plan: Plan, lines: Mapping[str, Sequence[Line]]) -> Build:
    """The build once a day's plan is done: its tasks as far as planned, its parts gone.

    Parameters
    ----------
    lines: the demand by task that the plan was made with.
    """
    facts: list[Mapping[str, Any]] = []
    for slot in plan.slots:
        before = build.work.get(slot.task.id, work.NOT_BEGUN).fraction
        fraction = min(1.0, before + (1.0 - before) * slot.part)
        facts.append(work.worked(slot.task, fraction))
    taken: dict[tuple[str, str], list[Taken]] = {}
    for slot in plan.slots:
        why = "moved" if _subjects(slot) else "used"  # what subjects take is told by ``served``
        for row in _used(slot, lines.get(slot.task.id, ())):
            if row.quantity > PIECE:
                taken.setdefault((row.part, row.place), []).append(row)
                facts.append(stock.move(build.items[row.part], row.place, -row.quantity, why))
    for (name, place), rows in taken.items():
        part, lot = build.items[name], build.lots.get((name, place))
        if lot is not None and lot.lengths is not None and not lot.moves:
            bars = _remnants(lot.lengths, rows)
            facts.append(_measured(part, place, bars, len(facts), build))
    end = plan.day.now + timedelta(hours=max((slot.end_h for slot in plan.slots), default=0.0))
    return suppose(build, facts, end)


def served(plan: Plan) -> set[tuple[str, str]]:
    """What a plan does of tasks that it does in part: (task, subject), which take no more."""
    return {(slot.task.id, subject) for slot in plan.slots for subject in _subjects(slot)}


def _subjects(slot: Slot) -> tuple[str, ...]:
    return () if slot.begun else slot.subjects


def _used(slot: Slot, lines: Sequence[Line]) -> list[Taken]:
    """What a task uses up; one that is only begun keeps what its subjects take."""
    rows = list(slot.stand.share.taken)
    if not slot.begun:
        return rows
    if any(line.subject for line in lines):
        return []
    return [replace(row, quantity=row.quantity * slot.part) for row in rows]


def _remnants(bars: Sequence[float], rows: Sequence[Taken]) -> list[float]:
    """What stays of lengths, each piece cut from the shortest that reaches."""
    rest = sorted(bars)
    for row in sorted(rows, key=lambda row: -row.quantity):
        wanted = row.quantity
        at = next((number for number, bar in enumerate(rest) if bar >= wanted - PIECE), None)
        if at is not None:
            rest[at] -= wanted
        else:  # no one length reaches, so it is no piece
            for number, bar in enumerate(rest):
                some = min(bar, wanted)
                rest[number], wanted = bar - some, wanted - some
        rest = sorted(bar for bar in rest if bar > PIECE)
    return rest


def _measured(
    part: Item, place: str, bars: Sequence[float], facts: int, build: Build
) -> Mapping[str, Any]:
    """The lengths there are after all that the ``facts`` before in the same act moved."""
    saw = [f"{next_act(build)}/{number}" for number in range(facts)]
    row = {"part": part.id, "place": place, "lengths": list(bars)}
    return {"f": "stock.counted", **row, "saw": saw}
