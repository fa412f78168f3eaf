"""The buy list in words, the same on paper and on the screen."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.app.views.parts import amount_words

Row = Mapping[str, Any]


def quantity_words(row: Row) -> str:
    """How much to buy, such as ``100 (1 pack)`` or ``50 m (2 of 25 m)``."""
    told = amount_words(row["quantity"], row["unit"])
    if row["packs"]:
        each = amount_words(row["pack"], row["unit"])
        told += f" ({row['packs']} of {each})" if row["pack"] != 1 else ""
    if row["reaches_m"]:
        told += f", {row['reaches_m']:g} m of it in one length"
    return told


def why_words(row: Row) -> str:
    """How the quantity comes about, such as ``84 needed + 9 spare - 12 here - 100 on order``."""

    def amount(quantity: float) -> str:
        counted = row["unit"] == "each"
        return amount_words(round(quantity, 1 if counted else 2), row["unit"])

    told = f"{amount(row['need'])} needed"
    told += f" + {amount(row['allowance'])} spare" if row["allowance"] else ""
    told += f" - {amount(row['on_hand'])} here" if row["on_hand"] else ""
    return told + (f" - {amount(row['on_order'])} on order" if row["on_order"] else "")


def when_words(row: Row) -> str:
    """By when to order it and for what, such as ``by 2027-03-02, for run-drops``."""
    tasks = row["tasks"]
    more = f" and {len(tasks) - 1} more" if len(tasks) > 1 else ""
    what = f" for {tasks[0]}{more}" if tasks else ""
    if row["order_by"] is None:
        return f"no booked day needs it yet{what and ',' + what}"
    lead = row["lead_days"]
    takes = "days to come unknown" if lead is None else f"{lead} {'day' if lead == 1 else 'days'}"
    return f"order by {row['order_by']} ({takes}),{what} on {row['needed_on']}"


def cost_words(row: Row) -> str:
    """What it costs; prices stand in the money the parts' prices stand in."""
    if row["cost"] is None:
        return "no price"
    return f"{row['cost']:.2f}"


def total_words(row: Row) -> str:
    """What several cost together."""
    without = f", {row['unpriced']} without a price" if row["unpriced"] else ""
    return f"{row['cost']:.2f}{without}"


def late_words(row: Row, today: str) -> str:
    """That an order should be here, or comes after it is needed."""
    how = (
        f"was due {row['comes_late']}"
        if row["comes_late"] < today
        else (f"comes {row['comes_late']}")
    )
    needed = f", needed on {row['needed_on']}" if row["needed_on"] else ""
    what = f" for {', '.join(row['tasks'][:3])}" if row["tasks"] and needed else ""
    return (
        f"{row['part']}: {amount_words(row['on_order'], row['unit'])} on order {how}{needed}{what}"
    )
