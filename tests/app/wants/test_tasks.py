from __future__ import annotations

import pytest

from tests.app.wants.scene import scene
from tracker.app.wants.tasks import done
from tracker.errors import BadInput, UnknownName


@pytest.mark.parametrize(
    ("typed", "hours"), [("3", 3.0), ("2,5", 2.5), ("1h30", 1.5), ("45 min", 0.75), (None, None)]
)
def test_hours_are_taken_as_typed(typed: str | None, hours: float | None) -> None:
    (fact,) = done("mask", hours=typed)(scene())

    assert fact.get("hours") == hours
    assert fact["fraction"] == 1.0


def test_a_half_job_carries_its_next_step() -> None:
    (fact,) = done("MASK", fraction=0.5, next_step=" the re\033ar ")(scene())

    assert (fact["task"], fact["fraction"], fact["next"]) == ("task", 0.5, "the rear")


@pytest.mark.parametrize("typed", ["long", "-1", "5 m", "nan", "inf", "99999"])
def test_hours_that_cannot_be_are_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        done("mask", hours=typed)(scene())


def test_a_task_that_is_not_there_is_refused() -> None:
    with pytest.raises(UnknownName, match="no task is called 'maks'; did you mean mask"):
        done("maks")(scene())
