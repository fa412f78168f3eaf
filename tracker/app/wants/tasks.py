"""Work done, as people say it."""

from __future__ import annotations

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.build.work import worked
from tracker.errors import BadInput
from tracker.quantity import parse


def done(
    task: str, *, hours: str | None = None, fraction: float = 1.0, next_step: str | None = None
) -> Intent:
    """Say how far a task is.

    Parameters
    ----------
    task: its short name.
    hours: crew-hours spent on it since it was last logged; a bare number means hours.
    fraction: part done now, 0 to 1.
    next_step: what comes next on it.
    """

    def intent(build: Build) -> list[Fact]:
        item = Names(build).find(task, ("task",), "task")
        then = clean(next_step).strip() if next_step else None
        return [worked(item, fraction, read_hours(hours) if hours else None, then)]

    return intent


def read_hours(text: str) -> float:
    """Hours as typed: ``3``, ``2.5h``, ``45 min``, ``1h30``."""
    try:
        return float(text.strip().replace(",", "."))
    except ValueError:
        pass
    try:
        return parse(text, "h")
    except BadInput as error:
        raise BadInput(f"hours: {error}") from None
