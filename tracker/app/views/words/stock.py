"""Parts that are counted, come, go and are ordered, in words."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Fact
from tracker.app.views.words.speaker import Speaker


def counted(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What lies in a place."""
    fact = group[0]
    if fact.get("lengths") is not None:
        what = " + ".join(f"{float(length):g} m" for length in fact["lengths"]) or "none"
    elif fact.get("level"):
        what = str(fact["level"])
    else:
        what = _amount(speaker, fact["part"], float(fact["count"]))
    return f"counted {speaker.name(fact['part'])} at {fact['place']}: {what}"


def moved(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What came, went or was used."""
    fact = group[0]
    quantity, cause = float(fact["quantity"]), str(fact.get("why", ""))
    amount = _amount(speaker, fact["part"], abs(quantity))
    way = "at" if cause == "received" else "to" if quantity > 0 else "from"
    verb = cause if cause in ("received", "used") else "moved"
    more = f" ({cause})" if cause not in ("received", "used", "moved", "") else ""
    return f"{verb} {amount} of {speaker.name(fact['part'])} {way} {fact['place']}{more}"


def ordered(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What is on its way."""
    fact = group[0]
    amount = _amount(speaker, fact["part"], float(fact["quantity"]))
    due = f", due {fact['due']}" if fact.get("due") else ""
    supplier = f" from {fact['supplier']}" if fact.get("supplier") else ""
    return f"ordered {amount} of {speaker.name(fact['part'])}{supplier}{due}"


def set_aside(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What is kept for something."""
    fact = group[0]
    amount = _amount(speaker, fact["part"], float(fact["quantity"]))
    wanted = fact["for"]
    for_what = speaker.name(wanted) if wanted in speaker.build.items else wanted
    return f"set aside {amount} of {speaker.name(fact['part'])} at {fact['place']} for {for_what}"


def _amount(speaker: Speaker, part: str, quantity: float) -> str:
    item = speaker.build.items.get(part)
    unit = str(item.get("unit", "")) if item is not None else ""
    return f"{quantity:g}" if unit in ("", "each") else f"{quantity:g} {unit}"
