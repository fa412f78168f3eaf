"""Work on tasks: how far each is, the hours it took, what comes next on it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from tracker.act import Act, Fact
from tracker.build.item import Item
from tracker.build.values import number, text_or_none
from tracker.errors import BadInput

if TYPE_CHECKING:
    from tracker.build.state import Build


class Progress(NamedTuple):
    """How far a task is.

    Parameters
    ----------
    fraction: part done, 0 to 1.
    hours: crew-hours logged on it so far.
    next: the next step on a half job, or None.
    when, by: the last time it was touched and by whom.
    """

    fraction: float
    hours: float
    next: str | None
    when: str
    by: str

    @property
    def done(self) -> bool:
        """Is nothing of it still to do?"""
        return self.fraction >= 1.0


NOT_BEGUN = Progress(0.0, 0.0, None, "", "")


def apply_worked(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """Hours add up; the fraction and next step are the latest."""
    task = fact["task"]
    draft.need(task)
    old = draft.work.get(task, NOT_BEGUN)
    fraction = number(fact.get("fraction", old.fraction))
    if not 0.0 <= fraction <= 1.0:
        raise ValueError("no part of a task")
    draft.work[task] = Progress(
        fraction,
        old.hours + number(fact.get("hours", 0.0)),
        text_or_none(fact.get("next")),
        act.happened,
        act.by,
    )


def worked(
    task: Item, fraction: float, hours: float | None = None, next_step: str | None = None
) -> Fact:
    """The fact that says how far a task is.

    Parameters
    ----------
    task: a task item.
    fraction: part done now, 0 to 1.
    hours: crew-hours spent since it was last logged, 0 to 10000.
    next_step: what comes next on it.
    """
    if not 0.0 <= fraction <= 1.0:
        raise BadInput(f"{fraction:g} of {task.slug} is outside 0 to 1")
    if hours is not None and not 0.0 <= hours <= 10000.0:
        raise BadInput(f"{hours:g} h on {task.slug} is outside 0 to 10000")
    fact: dict[str, Any] = {"f": "task.worked", "task": task.id, "fraction": fraction}
    if hours is not None:
        fact["hours"] = hours
    if next_step:
        fact["next"] = next_step
    return fact


def likely_crew_hours(task: Item, length_m: float) -> float:
    """Crew-hours a task likely takes on a body of ``length_m`` metres; 0 where none are stated."""
    hours = task.get("hours")
    if not hours:
        return 0.0
    base, per_metre = hours["likely"]
    return float((base + per_metre * length_m) * task.get("crew", 1))
