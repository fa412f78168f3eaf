"""Buying: what of which part, from whom, by when, for how much.

To buy is what is needed and the allowance on it, less what is on hand and on order, in whole
packs; of wire whole put-ups by the cutting plan. Of what nobody counted it is never guessed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

from tracker.build.coverage import Coverage
from tracker.build.item import Item, as_list
from tracker.build.stock import Lot
from tracker.build.work import NOT_BEGUN
from tracker.plan.cuts import Cuts, cuts
from tracker.plan.line import PIECE, Line
from tracker.plan.stocked import lots_by_part, shelf_of

CLOSE = 1e-6


@dataclass(frozen=True, slots=True)
class Purchase:
    """One part that is to be bought, or to be counted first.

    Parameters
    ----------
    part: its item.
    need: what open work takes, in the part's unit.
    allowance: what is bought on top of it.
    on_hand: what may be taken, or None where nobody counted.
    level: low or unknown where it has to be counted first, else ''.
    on_order: what is on its way.
    quantity: what to buy, in whole packs; 0 where it has to be counted first.
    packs: how many packs that is, or None where no pack is known.
    reaches: of wire for which no put-up is known or long enough, the longest piece [m], else 0.
    tasks: the open tasks that take it, those that begin first first.
    needed_on: the day the first of them begins at the latest, or None where nothing is booked.
    order_by: the last day to order it, or None.
    lead_days: days from order to hand, or None where nobody said.
    cost: of the whole quantity, or None where no price is known.
    comes_late: the day (ISO) for which something is on order that is needed sooner, or that has
        gone by without it, or ''.
    """

    part: Item
    need: float
    allowance: float
    on_hand: float | None
    level: str
    on_order: float
    quantity: float
    packs: int | None
    reaches: float
    tasks: tuple[str, ...]
    needed_on: date | None
    order_by: date | None
    lead_days: int | None
    cost: float | None
    comes_late: str = ""


def to_buy(
    cover: Coverage,
    all_lines: Sequence[Line],
    late: Mapping[str, date],
    today: date,
    cutting: Iterable[Cuts] | None = None,
) -> list[Purchase]:
    """Everything to be bought or counted first, the first to be ordered first.

    Parameters
    ----------
    all_lines: demand, open or met.
    late: the day on which each task must begin at the latest, where a booked day needs it.
    today: the day it is.
    cutting: the cutting plans, worked out where not given.
    """
    open_lines = [line for line in all_lines if line.open > PIECE]
    plans = {each.part: each for each in (cuts(cover, open_lines) if cutting is None else cutting)}
    stated = {line.part for line in all_lines}
    rows: dict[str, list[Line]] = {}
    for line in open_lines:
        rows.setdefault(line.part, []).append(line)
    lots = lots_by_part(cover.build)
    found = [
        purchase
        for part in cover.by_kind.get("part", [])
        if (
            purchase := _purchase(
                cover,
                part,
                lots.get(part.id, {}),
                rows.get(part.id, []),
                part.id in stated,
                late,
                today,
                plans.get(part.id),
            )
        )
    ]
    return sorted(found, key=lambda row: (row.order_by or date.max, row.part.slug))


def without_part(all_lines: Iterable[Line]) -> list[str]:
    """What open work takes that is no part of the build, by name."""
    return sorted({line.name for line in all_lines if not line.part and line.open > PIECE})


def _purchase(
    cover: Coverage,
    part: Item,
    lots: Mapping[str, Lot],
    rows: Sequence[Line],
    stated: bool,
    late: Mapping[str, date],
    today: date,
    plan: Cuts | None,
) -> Purchase | None:
    build = cover.build
    tasks = dict.fromkeys(line.task for line in rows if line.task)
    need = sum(line.open for line in rows)
    if not stated:
        tasks, need = _as_the_part_says(cover, part)
    counts = [line for line in rows if not line.piece]
    allowance = sum(line.spare for line in counts)
    shelf = shelf_of(build, part, lots, (), False)
    served = plan is not None and not counts and not plan.unplaced and not plan.bought
    if shelf.level == "plenty" or (served and plan and plan.from_hand):
        return None
    level = shelf.level or ("unknown" if plan and plan.said and plan.unplaced else "")
    have = sum(shelf.within({*tasks, *(line.subject for line in rows)}).values())
    on_order = sum(quantity for _, quantity in shelf.coming)
    least = max(sum(line.open for line in counts) + allowance, float(part.get("minimum") or 0.0))
    if level:
        quantity = 0.0
    elif plan is not None:
        quantity = _of_wire(plan, rows, have + on_order, least)
    else:
        quantity = max(least, 0.0 if stated else need) - have - on_order
    reaches = max((piece.length_m for piece in plan.unplaced), default=0.0) if plan else 0.0
    quantity, packs = _in_packs(part, quantity, reaches)
    ordered = sorted(tasks, key=lambda name: (late.get(name, date.max), name))
    needed_on = late.get(ordered[0]) if ordered else None
    lead = part.get("lead_days")
    comes_late = ""
    if on_order and have < need - CLOSE:
        comes_late = _late_order(shelf.coming, needed_on, today)
    if quantity <= PIECE and not comes_late and (not level or need <= PIECE):
        return None
    price = part.get("unit_cost")
    return Purchase(
        part,
        need,
        allowance,
        None if level else have,
        level,
        on_order,
        quantity,
        packs,
        reaches,
        tuple(ordered),
        needed_on,
        needed_on - timedelta(days=int(lead or 0)) if needed_on else None,
        int(lead) if lead is not None else None,
        float(price) * quantity if price is not None and not level else None,
        comes_late,
    )


def _as_the_part_says(cover: Coverage, part: Item) -> tuple[dict[str, None], float]:
    """What a part that no line asks for is needed in, while what it stops is not all done."""
    build = cover.build
    stops = [str(name) for name in as_list(part.get("stops"))]
    tasks = {
        name: None
        for name in stops
        if name in build.items
        and build.items[name].kind == "task"
        and not build.work.get(name, NOT_BEGUN).done
    }
    if stops and not tasks and all(name.startswith("task:") for name in stops):
        return {}, 0.0
    return tasks, max(0.0, float(part.get("needed") or 0.0) - build.used.get(part.id, 0.0))


def _of_wire(plan: Cuts, rows: Sequence[Line], there: float, least: float) -> float:
    """Metres of wire to buy: put-ups by the plan, pieces that have none, and what is no piece."""
    pieces = sum(line.open for line in rows if line.piece)
    bought = plan.bought * (plan.put_up_m or 0.0)
    bought += sum(piece.length_m for piece in plan.unplaced)
    return bought + max(0.0, least - max(0.0, there + bought - pieces))


def _late_order(
    coming: Iterable[tuple[str | None, float]], needed_on: date | None, today: date
) -> str:
    """The last day on which an order comes too late or should have come already, or ''."""
    last = needed_on.isoformat() if needed_on else "9999"
    return max(
        (due for due, _ in coming if due and not today.isoformat() <= due <= last), default=""
    )


def _in_packs(part: Item, quantity: float, reaches: float) -> tuple[float, int | None]:
    """A quantity rounded up to whole packs, and how many; without a pack, counts to whole ones.

    Parameters
    ----------
    reaches: the longest single piece among it [m]; what is longer than a pack comes in none.
    """
    if quantity <= CLOSE:
        return 0.0, None
    pack = float(part.get("pack") or 0.0)
    if pack > 0.0 and reaches <= pack + CLOSE:
        packs = ceil(quantity / pack - CLOSE)
        return packs * pack, packs
    if part.get("unit") == "each":
        return float(ceil(quantity - CLOSE)), None
    return quantity, None
