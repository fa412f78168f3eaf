from __future__ import annotations

import pytest

from tests.cli.yard import Yard


def test_a_task_is_done_with_its_hours(yard: Yard) -> None:
    assert "mask done, 3.5 crew-hours" in yard.saved("done", "mask", "--hours", "3.5")


@pytest.mark.parametrize(("typed", "hours"), [("3", 3.0), ("45 min", 0.75), ("1h30", 1.5)])
def test_hours_are_read_as_people_type_them(yard: Yard, typed: str, hours: float) -> None:
    yard.saved("done", "mask", "--hours", typed)

    assert yard.session.build.work["task:foam/mask"].hours == hours


def test_a_half_job_keeps_its_next_step(yard: Yard) -> None:
    out = yard.saved("done", "mask", "--half", "--next", "the two to the rear")

    assert "mask 50% done; next: the two to the rear" in out
    assert "3 crew-hours of work before it" in yard.run("todo").out


def test_work_that_buries_what_nobody_released_is_kept_and_warned_of(yard: Yard) -> None:
    said = yard.run("done", "spray", "--hours", "5")

    assert said.status == 0
    assert "spray done" in said.out
    assert said.err == (
        "closein: spray covers what pre-foam guards, and pre-foam is not due in port, roof; "
        "what is covered unchecked can't be reached again\n"
    )
    assert yard.session.build.work["task:foam/spray"].done


def test_the_warning_names_only_the_zones_not_released(yard: Yard) -> None:
    yard.all_good("port")
    yard.saved("release", "pre-foam", "--zone", "port", "--second", "Ola")

    assert "pre-foam is open in roof;" in yard.run("done", "spray").err


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("maks",), "did you mean mask?"),
        (("mask", "--hours", "long"), "hours: 'long' can't be read"),
        (("mask", "--hours", "5m"), "is not in a unit taken here"),
        (("mask", "--hours=-3"), "is outside 0 to 10000"),
        (("mask", "--hours", "nan"), "is outside 0 to 10000"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    yard: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in yard.refused("done", *words)
