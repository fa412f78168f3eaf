"""Shortages: parts there are too few of, and what each one stops."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.build.coverage import Coverage
from tracker.build.item import Item, as_list
from tracker.build.stock import lots_of, on_hand

STOPPED = ("task", "check", "holdpoint")
"""The kinds that a missing part stops, in the order in which they are named."""


@dataclass(frozen=True, slots=True)
class Shortage:
    """A part that is short.

    Parameters
    ----------
    part: its item.
    on_hand: quantity in the part's unit, or plenty, low, out, unknown.
    needed: quantity the build still needs, without what went into it already, or None.
    missing: quantity to get, or None where nobody knows.
    on_order: quantity on its way.
    due: when the last of it should come (ISO date), or None.
    places: where the rest lies.
    stops: the tasks and checks it stops.
    """

    part: Item
    on_hand: float | str
    needed: float | None
    missing: float | None
    on_order: float
    due: str | None
    places: tuple[str, ...]
    stops: tuple[Item, ...]


def shortages(cover: Coverage) -> list[Shortage]:
    """All parts that are short, those that stop most first.

    A part is short when it is out or low, when less is on hand than the build still needs, or when
    it fell below the least that should be there. A part nobody counted is unknown, not short.
    """
    found = [
        shortage
        for part in cover.by_kind.get("part", [])
        if (shortage := shortage_of(cover, part)) is not None
    ]
    return sorted(found, key=lambda shortage: (-len(shortage.stops), shortage.part.slug))


def shortage_of(cover: Coverage, part: Item) -> Shortage | None:
    """How short a part is, or None where it is not."""
    build = cover.build
    lots = lots_of(build, part)
    have = on_hand(build, part)
    needed, least = part.get("needed"), part.get("minimum")
    still = max(0.0, (needed or 0.0) - build.used.get(part.id, 0.0))
    said_out = any(lot.level == "out" for lot in lots.values())
    if isinstance(have, str):
        short = have in ("low", "out")
        missing = None
    else:
        enough = max(still, least or 0.0)
        short = have < enough or (have == 0 and said_out)
        missing = max(0.0, enough - have) or None
    if not short:
        return None
    orders = build.orders.get(part.id, ())
    dues = [order.due for order in orders if order.due]
    return Shortage(
        part,
        "out" if have == 0 and said_out else have,
        still if needed is not None else None,
        missing,
        sum(order.quantity for order in orders),
        max(dues) if dues else None,
        tuple(place for place, lot in lots.items() if lot.quantity != 0),
        tuple(stopped_by(cover, part)),
    )


def stopped_by(cover: Coverage, part: Item) -> list[Item]:
    """The open tasks and the checks that need a part: those it names, and those that name it."""
    items, work = cover.build.items, cover.build.work
    stated = (items.get(identifier) for identifier in as_list(part.get("stops")))
    wanted = {item.id: item for item in cover.users_of(part.slug)}
    wanted |= {item.id: item for item in stated if item is not None and item.kind in STOPPED}
    rank = {kind: number for number, kind in enumerate(STOPPED)}
    return [
        item
        for item in sorted(wanted.values(), key=lambda item: rank[item.kind])
        if item.removed is None and not ((progress := work.get(item.id)) and progress.done)
    ]
