"""From an action, the row in hand and what was typed to what the session is asked to do."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from tracker.app.session import Intent

RESULTS = {
    "good": "good",
    "bad": "bad",
    "measure": "measured",
    "waive": "waived",
    "not_applicable": "na",
    "take_back": "reopened",
}
"""What each action on a check says of it."""


def wanted(
    action: str,
    row: dict[str, Any],
    typed: Mapping[str, str],
    by: str,
    folder: Path | None = None,
) -> Intent:
    """The intent of an action.

    Parameters
    ----------
    row: the row in hand as the view model has it.
    typed: what was answered to its questions; an empty answer counts as none.
    by: who does it.
    folder: the build folder, which may hold templates of its own.
    """
    said = {name: text.strip() for name, text in typed.items() if text.strip()}
    if action in RESULTS:
        from tracker.app.wants import checks

        return checks.mark(
            row["check"],
            [] if row["subject"] == "vehicle" else [row["subject"]],
            RESULTS[action],
            by=by,
            value=said.get("value"),
            second=said.get("second"),
            why=said.get("why"),
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
        return phases.adopt(names, phases.library(folder))
    raise KeyError(action)


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
