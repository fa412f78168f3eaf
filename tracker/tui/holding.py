"""What is asked before something is done to a hold point: two names, a reason, what gets buried."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tracker.tui.asks import REASON, Asking, Question

Row = dict[str, Any]

ZONE = "zone"
"""The action of choosing the zone, which is asked first where there are several."""

WORDS = {
    "release": "release",
    "withdraw": "take back the release of",
    "close_in": "close in",
    "reopen": "open again",
    "book": "book",
}
CAUTION = (
    "A release says that the checks are answered, not that the work is safe: local code, "
    "the makers' sheets and those licensed decide."
)
SHOWN = 3


def zone_asking(action: str, hold: str, zones: Sequence[str]) -> Asking:
    """In which zone?"""
    title = f"{WORDS[action]} {hold}: in which zone?"
    question = Question("zone", "zone", "", ", ".join(zones))
    return Asking(ZONE, {"then": action}, f"{action} {hold}", title, (question,))


def gate_asking(action: str, row: Row, user: str, second: str, zones: Sequence[str] = ()) -> Asking:
    """What must be asked before ``action`` is done to a hold point in a zone.

    Parameters
    ----------
    row: from ``closing_view``.
    user: who sits here. second: the second person named last, or ''. zones: those of the hold.
    """
    hold, zone = row["hold_point"], row["zone"]
    here = f"{hold}, {zone}" if zone else hold
    about = f"{hold} {zone or ''}"
    title = f"{WORDS[action]} {here}"
    if action == "release":
        last = f"a name; last time {second}" if second else "a name"
        questions = (
            Question("by", "first person", user),
            Question("second", "second person", "", last),
            Question("present", "how the second took part", "present", PRESENT),
        )
        title += f": two people sign {row['total']} checks"
        return Asking(
            action,
            row,
            about,
            title,
            questions,
            _sentences(f"It covers: {covered_words(row['covers'])}.", _waived(row), CAUTION),
        )
    if action == "close_in":
        sure = Question("sure", f"write {zone or hold}", "", "then it is buried; Esc leaves it")
        lapsed = row["state"] != "released"
        because = f"The release lapsed: {row['because'][0]}." if row["because"] else ""
        return Asking(
            action,
            row,
            about,
            f"{title}: from then on this can't be reached again",
            (*((REASON,) if lapsed else ()), sure),
            _sentences(because, f"Buried: {covered_words(row['covers'])}"),
        )
    if action == "book":
        day = Question("day", "day of the close-in", row["booked"] or "", "2027-04-18, or none")
        which = Question("zone", "zone, or empty for all", zone or "", ", ".join(zones))
        return Asking(action, row, hold, title, (day, which) if zones else (day,))
    return Asking(action, row, about, title, (REASON,))


PRESENT = "present, remote (phone or photo), next-day (the same person)"


def covered_words(covers: Mapping[str, str]) -> str:
    """What would be buried, such as 'bay B1, B2; run L1-L12'."""
    told = "; ".join(f"{kind} {names}" for kind, names in covers.items())
    return told or "nothing that was recorded"


def _waived(row: Row) -> str:
    if not row["waived"]:
        return ""
    more = len(row["waived"]) - SHOWN
    told = "; ".join(row["waived"][:SHOWN]) + (f" and {more} more" if more > 0 else "")
    return f"Waived: {told}."


def _sentences(*texts: str) -> str:
    return " ".join(text for text in texts if text)
