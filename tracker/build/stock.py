"""Stock: parts by lot. A lot is a part in a place; what is there is counted, measured or guessed.

Movements add up and never conflict. A count is a new zero for its lot: what it had not seen
(a use logged by somebody else meanwhile) is kept beside it and said, not subtracted.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from tracker.act import Act, Fact
from tracker.build.item import Item
from tracker.build.values import number, number_or_none, text, text_or_none
from tracker.errors import BadInput

if TYPE_CHECKING:
    from tracker.build.state import Build

LEVELS = ("plenty", "low", "out", "unknown")
"""Good answers where nobody counts."""


class Move(NamedTuple):
    """A quantity that came (+) or went (-), in the part's unit, and what for."""

    ref: str
    quantity: float
    why: str


class Lot(NamedTuple):
    """A part in a place.

    Parameters
    ----------
    number: what was counted, in the part's unit, or None.
    lengths: measured lengths (m), each a spool or remnant, or None.
    level: one of ``LEVELS`` where nobody counted, or None.
    counted: when, or ''.
    moves: what came and went since the count.
    unseen: movements logged before the count by somebody the counter had not heard from.
    """

    number: float | None = None
    lengths: tuple[float, ...] | None = None
    level: str | None = None
    counted: str = ""
    moves: tuple[Move, ...] = ()
    unseen: tuple[Move, ...] = ()

    @property
    def quantity(self) -> float | None:
        """What is there now in the part's unit, never below 0; None where nobody knows."""
        moved = sum(move.quantity for move in self.moves)
        if self.lengths is not None:
            return max(0.0, sum(self.lengths) + moved)
        if self.number is not None:
            return max(0.0, self.number + moved)
        if self.level == "out":
            return max(0.0, moved)
        if self.level is None and self.moves:
            return max(0.0, moved)
        return None


class Order(NamedTuple):
    """What is on order: quantity still to come, due date (ISO) or None, from whom."""

    ref: str
    quantity: float
    due: str | None
    supplier: str | None


class SetAside(NamedTuple):
    """A quantity of a part kept for something: an item's id, or free words."""

    ref: str
    part: str
    place: str
    quantity: float
    for_what: str


def apply_counted(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A count starts its lot anew."""
    part, place = fact["part"], text(fact["place"])
    draft.need(part)
    seen = set(fact.get("saw", ()))
    old = draft.lots.get((part, place), Lot())
    lengths, level = fact.get("lengths"), fact.get("level")
    if level is not None and level not in LEVELS:
        raise ValueError("no level of stock")
    draft.lots[part, place] = Lot(
        number_or_none(fact.get("count")),
        tuple(number(length) for length in lengths) if lengths is not None else None,
        level,
        act.happened,
        (),
        tuple(move for move in (*old.unseen, *old.moves) if move.ref not in seen),
    )


def apply_moved(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """A quantity comes to or leaves a lot."""
    part, place = fact["part"], text(fact["place"])
    draft.need(part)
    lot = draft.lots.get((part, place), Lot())
    move = Move(ref, number(fact["quantity"]), text(fact.get("why", "")))
    draft.lots[part, place] = lot._replace(moves=(*lot.moves, move))
    if fact.get("why") == "received":
        _arrive(draft, part, move.quantity)
    if fact.get("why") == "used":
        draft.used[part] = draft.used.get(part, 0.0) - move.quantity


def _arrive(draft: Build, part: str, quantity: float) -> None:
    if quantity <= 0:  # a receipt put right downwards brings no order back
        return
    still = []
    for order in draft.orders.get(part, ()):
        arrived = min(order.quantity, quantity)
        quantity -= arrived
        if order.quantity > arrived:
            still.append(order._replace(quantity=order.quantity - arrived))
    draft.orders[part] = tuple(still)


def apply_ordered(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """More of a part is on its way."""
    part = fact["part"]
    draft.need(part)
    due, supplier = text_or_none(fact.get("due")), text_or_none(fact.get("supplier"))
    order = Order(ref, number(fact["quantity"]), due, supplier)
    draft.orders[part] = (*draft.orders.get(part, ()), order)


def apply_set_aside(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """Some of a lot is kept for something."""
    part = fact["part"]
    draft.need(part)
    place, for_what = text(fact["place"]), text(fact["for"])
    draft.aside.append(SetAside(ref, part, place, number(fact["quantity"]), for_what))


def lots_of(build: Build, part: Item) -> dict[str, Lot]:
    """The lots of a part by place, in order of place."""
    return {place: lot for (of, place), lot in sorted(build.lots.items()) if of == part.id}


def on_hand(build: Build, part: Item) -> float | str:
    """What is on hand over all places: a quantity in the part's unit, or one of ``LEVELS``."""
    lots = lots_of(build, part).values()
    known = [lot.quantity for lot in lots if lot.quantity is not None]
    levels = {lot.level for lot in lots if lot.quantity is None}
    if "plenty" in levels:
        return "plenty"
    if "low" in levels and not sum(known):
        return "low"
    if not lots or (not known and levels):
        return "unknown"
    return sum(known)


def count(
    build: Build,
    part: Item,
    place: str,
    number: float | None = None,
    lengths: Sequence[float] | None = None,
    level: str | None = None,
) -> Fact:
    """The fact that counts a lot: a number, or measured lengths (m), or a level."""
    if sum(answer is not None for answer in (number, lengths, level)) != 1:
        raise BadInput("a count is a number, measured lengths, or one of " + ", ".join(LEVELS))
    if level is not None and level not in LEVELS:
        raise BadInput(f"'{level}' is no level of stock; it is one of {', '.join(LEVELS)}")
    if any(value < 0 for value in (*(lengths or ()), number or 0)):
        raise BadInput(f"a count of {part.slug} can't be below 0")
    lot = build.lots.get((part.id, place), Lot())
    seen = [move.ref for move in (*lot.unseen, *lot.moves)]
    answer: dict[str, Any] = {"count": number, "level": level}
    answer["lengths"] = list(lengths) if lengths is not None else None
    return {
        "f": "stock.counted",
        "part": part.id,
        "place": place,
        **{name: value for name, value in answer.items() if value is not None},
        **({"saw": seen} if seen else {}),
    }


def move(part: Item, place: str, quantity: float, why: str) -> Fact:
    """The fact that brings (+) or takes (-) a quantity; why: received, used, moved, home."""
    if quantity == 0:
        raise BadInput(f"how much of {part.slug}? a quantity other than 0 is needed")
    return {
        "f": "stock.moved",
        "part": part.id,
        "place": place,
        "quantity": quantity,
        "why": why,
    }


def order(part: Item, quantity: float, due: str | None = None, supplier: str | None = None) -> Fact:
    """The fact that puts a quantity on order, due on a date (ISO)."""
    if quantity <= 0:
        raise BadInput(f"an order of {part.slug} must be above 0")
    fact: dict[str, Any] = {"f": "stock.ordered", "part": part.id, "quantity": quantity}
    if due:
        fact["due"] = due
    if supplier:
        fact["supplier"] = supplier
    return fact


def set_aside(part: Item, place: str, quantity: float, for_what: str) -> Fact:
    """The fact that keeps a quantity for something."""
    if quantity <= 0:
        raise BadInput(f"setting {part.slug} aside needs a quantity above 0")
    return {
        "f": "stock.set-aside",
        "part": part.id,
        "place": place,
        "quantity": quantity,
        "for": for_what,
    }
