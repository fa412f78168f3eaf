"""The phases there are to take up: those that come with the program, against those of a build."""

from __future__ import annotations

from typing import Any

from tracker.build.state import Build
from tracker.templates.load import read, shipped
from tracker.templates.phase import Phase


def templates_view(build: Build | None) -> list[dict[str, Any]]:
    """Every phase that comes with the program, in the trade's order.

    Parameters
    ----------
    build: the build that may have taken some up, or None where there is none.
    """
    return [template_row(read(name), build) for name in shipped()]


def template_row(phase: Phase, build: Build | None) -> dict[str, Any]:
    """One phase and how much is in it."""
    return {
        "name": phase.name,
        "title": phase.title,
        "order": phase.order,
        "edition": phase.edition,
        "adopted": build is not None and f"phase:{phase.name}" in build.items,
        "after": [identifier.removeprefix("phase:") for identifier in phase.after],
        "tasks": len(phase.tasks),
        "checks": len(phase.checks),
        "hold_points": [hold.key for hold in phase.holdpoints],
        "summary": phase.summary,
    }
