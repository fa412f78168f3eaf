"""The plan of the day on the screen: the same as ``closein today`` says."""

from __future__ import annotations

import threading
from typing import Any

import pytest

from tests.tui.conftest import another
from tests.tui.looking import LARGE, SMALL, open_on, screen, text, typed, until
from tracker.app.session import Session
from tracker.app.views import today as today_module
from tracker.app.views.today import today_view
from tracker.app.wants import blockers, items
from tracker.tui.today_rows import today_lines


@pytest.fixture
def busy(session: Session) -> Session:
    """The small build with a task that can be done, and one that a missing part stops."""
    session.do(items.add("task", "sweep", {"title": "Sweep the floor"}))
    session.do(items.add("task", "seal", {"title": "Seal [/] the seams"}))
    session.do(blockers.stuck("no sealant", kind="part", stops=["seal"], slug="dry"))
    return session


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_the_day_is_what_the_command_says(busy: Session, size: tuple[int, int]) -> None:
    async with open_on(busy, size) as pilot:
        await pilot.press("5")
        await until(pilot, lambda: "Sweep the floor" in text(pilot))
        seen, view = text(pilot), today_view(busy)

        assert screen(pilot).sitting.today == view
        assert [row["task"] for row in view["plan"]] == ["sweep"]
        assert "[5 today 1 to do]" in seen
        assert "✗ blocked" in seen and "no sealant" in seen


async def test_what_is_in_hand_is_told_in_full(busy: Session) -> None:
    async with open_on(busy) as pilot:
        await pilot.press("t")
        await until(pilot, lambda: "✗ blocked" in text(pilot))
        await pilot.press("right_square_bracket", "down")

        assert "holds seal" in text(pilot) and "to free it" in text(pilot)


async def test_a_task_of_the_day_that_is_stuck_is_what_the_blocker_stops(busy: Session) -> None:
    async with open_on(busy) as pilot:
        await pilot.press("5")
        await until(pilot, lambda: "Sweep the floor" in text(pilot))
        await pilot.press("s")
        await typed(pilot, "no broom")
        await pilot.press("enter")
        await typed(pilot, "tool")
        await pilot.press(*["enter"] * 4)
        await until(pilot, lambda: "no broom" in text(pilot))
        await until(pilot, lambda: "Nothing can be done" in text(pilot))


async def test_what_another_writes_makes_another_plan(busy: Session) -> None:
    async with open_on(busy) as pilot:
        await pilot.press("5")
        await until(pilot, lambda: "✗ blocked" in text(pilot))
        another(busy).do(blockers.unstuck("dry", on="2027-03-02"))
        await until(pilot, lambda: "✗ blocked" not in text(pilot))


async def test_keys_are_not_kept_waiting_while_the_day_is_worked_out(
    busy: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, plans = threading.Event(), []

    def slow(still: Session) -> dict[str, Any]:
        assert go_on.wait(20)
        plans.append(threading.current_thread())
        return today_view(still)

    monkeypatch.setattr(today_module, "today_view", slow)
    async with open_on(busy) as pilot:
        try:
            await pilot.press("5")
            assert "is being worked out" in text(pilot)
            await pilot.press("1", "space")
            assert "saved: label on L1: good" in text(pilot)
        finally:
            go_on.set()
        await pilot.press("5")
        await until(pilot, lambda: "Sweep the floor" in text(pilot))

    assert threading.main_thread() not in plans


async def test_an_empty_day_says_so(empty: Session) -> None:
    async with open_on(empty) as pilot:
        await pilot.press("5")
        await until(pilot, lambda: "Nothing can be done" in text(pilot))


def test_each_line_of_the_day_has_a_name_of_its_own(busy: Session) -> None:
    keys = [line.key for line in today_lines(today_view(busy), "") if line.key]

    assert len(keys) == len(set(keys)) > 1


def test_a_filter_keeps_the_lines_that_hold_its_words(busy: Session) -> None:
    lines = today_lines(today_view(busy), "sealant")

    assert [line.cells[1] for line in lines if line.key] == ["dry"]
