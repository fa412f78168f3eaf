"""What the record says there is of each part, as shelves from which tasks take."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from tracker.build.item import Item
from tracker.build.state import Build
from tracker.build.stock import Lot
from tracker.plan.line import PIECE
from tracker.plan.shelf import Shelf

MOST_PUT_UPS = 500


def lots_by_part(build: Build) -> dict[str, dict[str, Lot]]:
    """All lots by part and place, in order of place."""
    found: dict[str, dict[str, Lot]] = {}
    for (part, place), lot in sorted(build.lots.items()):
        found.setdefault(part, {})[place] = lot
    return found


def shelf_of(
    build: Build, part: Item, lots: Mapping[str, Lot], unreached: Collection[str], gone: bool
) -> Shelf:
    """What is free of a part.

    Parameters
    ----------
    lots: the part's lots by place.
    unreached: places from which nothing can be had.
    gone: is there none of it, whatever was counted?
    """
    orders = build.orders.get(part.id, ())
    put_up = float(part.get("pack") or 0.0) if part.get("gauge") else 0.0
    coming = [(order.due, length) for order in orders for length in put_ups(order.quantity, put_up)]
    shelf = Shelf(part.id, coming=sorted(coming, key=lambda row: row[0] or "9999"))
    if gone:
        return shelf
    within = {place: lot for place, lot in lots.items() if place not in unreached}
    levels = {lot.level for lot in within.values() if lot.quantity is None}
    for level in ("plenty", "low"):
        if level in levels:
            shelf.level = level
            return shelf
    if (not lots and not orders) or (within and None not in levels and "unknown" in levels):
        shelf.level = "unknown"
        return shelf
    for place, lot in within.items():
        if lot.quantity is None:
            continue
        if lot.lengths is not None and not lot.moves:
            shelf.lengths[place] = list(lot.lengths)
        else:
            shelf.free[place] = lot.quantity
            shelf.unmeasured |= lot.quantity > 0 and part.get("gauge") is not None
    shelf.kept = [
        (row.place, row.for_what, row.quantity)
        for row in build.aside
        if row.part == part.id and not _finished(build, row.for_what)
    ]
    shelf.whole = sum(shelf.within(()).values()) + sum(row[2] for row in shelf.kept)
    return shelf


def put_ups(quantity: float, put_up: float) -> list[float]:
    """The lengths in which wire comes: whole put-ups and what is over, or one length without.

    Parameters
    ----------
    put_up: the length it is sold in, or 0; of more than ``MOST_PUT_UPS`` only so many count.
    """
    if put_up <= PIECE:
        return [quantity]
    full = int((quantity + PIECE) // put_up)
    over = quantity - full * put_up
    return [put_up] * min(full, MOST_PUT_UPS) + ([over] if over > PIECE else [])


def _finished(build: Build, name: str) -> bool:
    progress = build.work.get(name)
    return progress is not None and progress.done
