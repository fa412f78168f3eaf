"""How late orders came so far, and so how late what is still to come may be."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from tracker.build.state import Build

BEFOREHAND = 0.5
"""How late what is due can be, for each day from the order to the day it is due. Common practice,
no source: an order of two weeks may come a week late."""
WEIGHT = 4.0
"""Orders that this counts for against those of the record."""
MEAN_OF_MOST = 3.0
"""The most over the mean, where lateness grows less likely on a straight line down to its most."""


class Slips(NamedTuple):
    """What the record says of orders.

    Parameters
    ----------
    orders: those with a due date that came since.
    share: how late what is due can be, for each day from the order to the day it is due.
    """

    orders: int
    share: float


def slips(build: Build) -> Slips:
    """How late orders came; the first that comes of a part counts as its oldest order."""
    waiting: dict[str, list[tuple[date, date]]] = {}
    late: list[float] = []
    for act in build.acts:
        if act.id in build.dead:
            continue
        day = date.fromisoformat(act.happened[:10])
        for fact in act.facts:
            part, due = str(fact.get("part")), day_of(fact.get("due"))
            if fact.get("f") == "stock.ordered" and due is not None:
                waiting.setdefault(part, []).append((day, due))
            elif fact.get("why") == "received" and waiting.get(part):
                ordered, due = waiting[part].pop(0)
                run = max(1, (due - ordered).days)
                late.append(max(0, (day - due).days) / run)
    most = MEAN_OF_MOST * sum(late)
    return Slips(len(late), (most + WEIGHT * BEFOREHAND) / (len(late) + WEIGHT))


def day_of(text: object) -> date | None:
    """The date that a text begins with (ISO), or None where it is none."""
    try:
        return date.fromisoformat(str(text)[:10])
    except ValueError:
        return None
