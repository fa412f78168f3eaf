"""Work on tasks."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, added
from tracker.build.work import NOT_BEGUN, likely_crew_hours, worked
from tracker.errors import BadInput


def test_hours_add_up_and_the_rest_is_the_latest() -> None:
    yard = Yard(added("task", "clip"))
    yard.do(worked(yard.item("clip"), 0.25, 2.0, "the rear bay"), by="Ola")
    yard.do(worked(yard.item("clip"), 0.5, 1.5))

    progress = yard.build.work["task:clip"]

    assert (progress.fraction, progress.hours, progress.next) == (0.5, 3.5, None)
    assert (progress.by, progress.when) == ("Ida", yard.now.isoformat())


def test_a_task_is_done_when_nothing_of_it_is_still_to_do() -> None:
    yard = Yard(added("task", "clip"))
    assert not NOT_BEGUN.done

    yard.do(worked(yard.item("clip"), 1.0))
    assert yard.build.work["task:clip"].done


@pytest.mark.parametrize(
    ("fraction", "hours", "problem"),
    [
        (-0.1, None, "-0.1 of clip is outside 0 to 1"),
        (1.1, None, "1.1 of clip is outside 0 to 1"),
        (0.5, -1.0, "-1 h on clip is outside 0 to 10000"),
        (0.5, 10001.0, "10001 h on clip is outside"),
    ],
)
def test_figures_that_can_not_be_are_refused(
    fraction: float, hours: float | None, problem: str
) -> None:
    with pytest.raises(BadInput, match=problem):
        worked(Yard(added("task", "clip")).item("clip"), fraction, hours)


@pytest.mark.parametrize("said", [{"fraction": 2}, {"hours": "two"}, {"next": 3}])
def test_work_that_can_not_be_read_is_not_taken(said: dict[str, Any]) -> None:
    yard = Yard(added("task", "clip"), {"f": "task.worked", "task": "task:clip"} | said)

    assert yard.build.work == {}
    assert len(yard.build.unknown) == 1


@pytest.mark.parametrize(
    ("fields", "hours"),
    [
        ({"hours": {"likely": [1.0, 0.2]}}, 3.0),
        ({"hours": {"likely": [1.0, 0.2]}, "crew": 2}, 6.0),
        ({"crew": 2}, 0.0),
    ],
)
def test_crew_hours_grow_with_the_body_and_the_crew(fields: dict[str, Any], hours: float) -> None:
    task = Yard(added("task", "clip", **fields)).item("clip")

    assert likely_crew_hours(task, 10.0) == pytest.approx(hours)
