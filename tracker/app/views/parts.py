"""Parts: what is needed, on hand and on order, where it lies, and what a missing one stops."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.wants.parts import elsewhere
from tracker.build.item import Item
from tracker.build.stock import Lot, lots_of, on_hand
from tracker.plan.shortage import Shortage, shortages


def parts_view(session: Session, *, short: bool = False) -> list[dict[str, Any]]:
    """All parts, those that are short first; or those alone."""
    missing = {row.part.id: row for row in shortages(session.cover)}
    parts = [row.part for row in missing.values()]
    if not short:
        parts += [part for part in session.cover.by_kind.get("part", []) if part.id not in missing]
    return [part_row(session, part, missing.get(part.id)) for part in parts]


def part_row(session: Session, part: Item, shortage: Shortage | None) -> dict[str, Any]:
    """One part. Quantities are in its unit; where nobody counted they are words."""
    names, build = session.names, session.build
    orders = build.orders.get(part.id, ())
    return {
        "part": names.name(part.id),
        "title": part.title,
        "unit": part.get("unit"),
        "needed": part.get("needed"),
        "minimum": part.get("minimum"),
        "pack": part.get("pack"),
        "unit_cost": part.get("unit_cost"),
        "mass_kg": part.get("mass_kg"),
        "on_hand": shortage.on_hand if shortage else on_hand(build, part),
        "lots": [lot_row(session, place, lot) for place, lot in lots_of(build, part).items()],
        "on_order": [
            {"quantity": order.quantity, "due": order.due, "supplier": order.supplier}
            for order in orders
        ],
        "aside": [
            {
                "quantity": row.quantity,
                "place": row.place,
                "for": names.name(row.for_what),
            }
            for row in build.aside
            if row.part == part.id
        ],
        "short": shortage is not None,
        "missing": shortage.missing if shortage else None,
        "stops": [names.name(item.id) for item in shortage.stops] if shortage else [],
    }


def lot_row(session: Session, place: str, lot: Lot) -> dict[str, Any]:
    """What lies in one place; ``unseen`` says uses that the last count may not have known of."""
    return {
        "place": place,
        "elsewhere": elsewhere(session.names, place),
        "quantity": lot.quantity,
        "level": None if lot.quantity else lot.level,
        "lengths": list(lot.lengths) if lot.lengths is not None else None,
        "counted": lot.counted or None,
        "unseen": sum(move.quantity for move in lot.unseen),
    }


def amount_words(quantity: float | str | None, unit: str | None) -> str:
    """A quantity in words, such as ``12``, ``31 m`` or ``low``."""
    if quantity is None:
        return "unknown"
    if isinstance(quantity, str):
        return quantity
    return f"{quantity:g} {unit}" if unit and unit != "each" else f"{quantity:g}"


def where_words(row: dict[str, Any]) -> str:
    """Where a part lies in words, such as ``8 at Ola's home, 2 at shelf``."""
    told = [
        f"{amount_words(lot['quantity'] if lot['level'] is None else lot['level'], row['unit'])}"
        f" at {lot['place']}"
        for lot in row["lots"]
        if lot["quantity"] != 0
    ]
    return ", ".join(told)


def coming_words(row: dict[str, Any]) -> str:
    """What is on order in words, such as ``20 due 2030-05-18``."""
    return ", ".join(
        amount_words(order["quantity"], row["unit"])
        + (f" due {order['due']}" if order["due"] else "")
        for order in row["on_order"]
    )
