"""Answers and hold points, in words."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Fact
from tracker.app.views.words.counting import counted
from tracker.app.views.words.speaker import Speaker, why
from tracker.build.limit import Limit, judge
from tracker.quantity import show as show_quantity

RESULTS = {"na": "not applicable", "reopened": "open again"}
PRESENT = {"remote": " by phone or photo", "next-day": " the next day"}


def answered(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What was found of a check and its subjects."""
    fact = group[0]
    result, reason = fact["result"], fact.get("why")
    where = speaker.known_as(row["subject"] for row in group)
    found = measured(fact) if result == "measured" else RESULTS.get(result, result)
    more = [
        f"{words} {fact[name]}"
        for name, words in (("by", "found by"), ("second", "second"), ("photo", "photo"))
        if fact.get(name)
    ]
    if fact.get("present") == "remote":
        more.append("by phone or photo")
    if fact.get("read"):
        more.append(f"label read '{fact['read']}'")
    text = f"{speaker.name(fact['check'])} on {where}: {found}"
    return text + (f", {reason}" if reason else "") + (f" ({'; '.join(more)})" if more else "")


def measured(fact: Fact) -> str:
    """A value, and what it counted as against the limit there was then."""
    unit, value = str(fact.get("unit") or ""), float(fact["value"])
    saw = (fact.get("saw") or {}).get("limit")
    words = show_quantity(value, unit)
    if not saw or saw == [None, None, None]:
        return words
    return f"{words}, {judge(Limit(unit, *saw), value, fact.get('second'), fact.get('why'))}"


def released(speaker: Speaker, group: Sequence[Fact]) -> str:
    """Who signed a hold point."""
    fact = group[0]
    answers = counted(sum(map(len, fact["basis"].values())), "answer")
    return (
        f"released {_where(speaker, fact)}: {answers} signed by {fact['by']} and "
        f"{fact['second']}{PRESENT.get(str(fact.get('present')), '')}"
    )


def withdrawn(speaker: Speaker, group: Sequence[Fact]) -> str:
    """Why a release was taken back."""
    return f"took back the release of {_where(speaker, group[0])}{why(group[0])}"


def closed(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What was covered."""
    fact = group[0]
    items = f"{counted(len(fact['covered']), 'item')} covered"
    reason = f", without a release that holds{why(fact)}" if fact.get("why") else ""
    return f"closed {_where(speaker, fact)}: {items}{reason}"


def reopened(speaker: Speaker, group: Sequence[Fact]) -> str:
    """Why what was closed is open again."""
    return f"reopened {_where(speaker, group[0])}{why(group[0])}"


def _where(speaker: Speaker, fact: Fact) -> str:
    zone = f" in {speaker.name(fact['zone'])}" if fact.get("zone") else ""
    return f"{speaker.name(fact['hold'])}{zone}"
