"""From an action, the row in hand and what was typed to what the session is asked to do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.app.session import Intent, Session
from tracker.errors import BadInput

RESULTS = {
    "good": "good",
    "bad": "bad",
    "measure": "measured",
    "waive": "waived",
    "not_applicable": "na",
    "take_back": "reopened",
}
"""What each action on a check says of it."""


GATES = ("release", "withdraw", "close_in", "reopen", "book")
"""What is done to a hold point."""


def wanted(action: str, row: dict[str, Any], typed: Mapping[str, str], session: Session) -> Intent:
    """The intent of an action.

    Parameters
    ----------
    row: the row in hand as the view model has it.
    typed: what was answered to its questions; an empty answer counts as none.
    session: whose user does it; only read here.

    Raises
    ------
    CloseinError: what was typed can't be taken like this.
    """
    said = {name: text.strip() for name, text in typed.items() if text.strip()}
    if action in RESULTS:
        from tracker.app.wants import checks

        if "read" in typed and "read" not in said and action == "good":
            raise BadInput("type what the label reads; without that it can't be called good")
        return checks.mark(
            row["check"],
            [] if row["subject"] == "vehicle" else [row["subject"]],
            RESULTS[action],
            by=session.user,
            value=said.get("value"),
            second=said.get("second"),
            why=said.get("why"),
            read=said.get("read"),
        )
    if action == "count":
        from tracker.app.wants import parts

        return parts.count(row["part"], said.get("place", ""), said.get("answer", ""))
    if action in ("stuck", "unstuck"):
        return _blocker(action, row, said)
    if action == "note":
        from tracker.app.wants import diary

        return diary.note(said.get("text", ""), said.get("on", "").replace(",", " ").split())
    if action == "adopt":
        from tracker.app.wants import phases

        names = said.get("names", "").replace(",", " ").split()
        return phases.adopt(names, phases.library(session.folder))
    if action in GATES:
        return _gate(action, row, said, session)
    if action == "sort":
        from tracker.app.wants import say

        return say.sort_into(session, row["ref"], said.get("line", ""), session.user)[0]
    if action in ("keep", "drop"):
        from tracker.app.wants import diary

        return (diary.keep_as_note if action == "keep" else diary.drop)(row["ref"])
    raise KeyError(action)


def _gate(action: str, row: dict[str, Any], said: Mapping[str, str], session: Session) -> Intent:
    from tracker.app.wants import holds

    hold, zone, why = row["hold_point"], row["zone"], said.get("why", "")
    if action == "release":
        present = said.get("present", "present")
        by = said.get("by", "")
        second = said.get("second", by if present == "next-day" else "")
        return holds.release(session, hold, zone=zone, by=by, second=second, present=present)
    if action == "withdraw":
        return holds.withdraw(session, hold, zone=zone, why=why)
    if action == "reopen":
        return holds.reopen(session, hold, zone=zone, why=why)
    if action == "book":
        return holds.book(hold, said.get("day", ""), zone=said.get("zone"))
    if said.get("sure", "").casefold() != (zone or hold).casefold():
        raise BadInput(f"write {zone or hold} to close it in; Esc leaves it as it is")
    return holds.close(session, hold, zone=zone, why=why or None)


def _blocker(action: str, row: dict[str, Any], said: Mapping[str, str]) -> Intent:
    from tracker.app.wants import blockers

    if action == "unstuck":
        return blockers.unstuck(row["slug"], on=said.get("on", ""), lost_h=said.get("lost_h"))
    return blockers.stuck(
        said.get("text", ""),
        kind=said.get("kind", ""),
        stops=said.get("stops", "").replace(",", " ").split(),
        part=row.get("part") or None,
        owes=said.get("owes"),
        expected=said.get("expected"),
    )
