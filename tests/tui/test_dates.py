"""The dates and their odds on the screen: reckoned in a thread, drawn without colour."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import pytest
from textual.pilot import Pilot

from tests.tui.conftest import another
from tests.tui.looking import LARGE, SMALL, open_on, screen, text, until
from tracker.app.session import Session
from tracker.app.views import dates as dates_module
from tracker.app.views.dates import dates_view
from tracker.app.wants import blockers
from tracker.build import item
from tracker.tui.actions import DATES
from tracker.tui.dates_rows import date_detail, date_lines

RECKONING = "Reckoning"


@pytest.fixture
def booked(session: Session) -> Session:
    """The small build with a task before its hold point, which is booked."""
    hours = {"low": [1.0, 0], "likely": [2.0, 0], "high": [9.0, 0]}
    fields = {"title": "Sweep [/] the floor", "phase": "phase:own", "hours": hours}
    task = {"id": "task:own/sweep", "kind": "task", "slug": "sweep", "fields": fields}
    phase = {"id": "phase:own", "slug": "walls", "fields": {"title": "Walls", "order": 1}}
    session.do(lambda build: [{"f": "phase.adopted", "phase": phase, "hash": "", "items": [task]}])
    hold = session.names.find("cover-up", ("holdpoint",))
    session.do(lambda build: [item.change(hold, {"booked": "2027-03-20"})])
    return session


def there(pilot: Pilot[None]) -> bool:
    """Are the dates there, and of the newest state?"""
    view, old = screen(pilot).sitting.reckoned(DATES)
    return view is not None and not old


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_the_dates_are_what_the_command_says(booked: Session, size: tuple[int, int]) -> None:
    async with open_on(booked, size) as pilot:
        await pilot.press("7")
        await until(pilot, lambda: there(pilot) and "50 in 100" in text(pilot))
        await until(pilot, lambda: "└" in text(pilot))
        seen, view = text(pilot), dates_view(booked)

        assert screen(pilot).sitting.reckoned(DATES) == (view, False)
        chance = view["dates"][0]["booked_chance"]
        assert f"20 Mar, {chance} in 100" in seen
        assert "[7 dates" in seen and "cover-up" in seen and "all work" in seen
        assert "100 │" in seen and "┴" in seen and "What they rest on" in seen
        assert "Driven by" in seen or "Nothing drives it" in seen


async def test_the_chart_has_the_room_there_is_whenever_it_is_come_back_to(
    booked: Session,
) -> None:
    async with open_on(booked, LARGE) as pilot:
        await pilot.press("7")
        await until(pilot, lambda: text(pilot).count("│") >= 8)
        await pilot.press("1", "D")
        await until(pilot, lambda: text(pilot).count("│") >= 8)
        await pilot.resize_terminal(*SMALL)
        await until(pilot, lambda: 2 <= text(pilot).count("│") <= 4 and "booked" in text(pilot))


async def test_what_they_rest_on_is_told_in_full_where_it_is_in_hand(booked: Session) -> None:
    async with open_on(booked) as pilot:
        await pilot.press("7")
        await until(pilot, lambda: there(pilot))
        for _ in range(9):
            if str(screen(pilot).row.get("said", "")).find("2000 trials") >= 0:
                break
            await pilot.press("down")

        assert "2000 trials of 1 open tasks" in text(pilot)
        assert "└" not in text(pilot)


async def test_what_another_writes_makes_other_dates(booked: Session) -> None:
    async with open_on(booked) as pilot:
        await pilot.press("7")
        await until(pilot, lambda: "20 Mar" in text(pilot))
        hold = booked.names.find("cover-up", ("holdpoint",))
        another(booked).do(lambda build: [item.change(hold, {"booked": "2027-03-27"})])
        await until(pilot, lambda: "27 Mar" in text(pilot) and "20 Mar" not in text(pilot))


async def test_keys_are_not_kept_waiting_and_what_is_old_is_given_up(
    booked: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, begun, given_up = threading.Event(), [], []

    def slow(still: Session, each: Callable[[], object]) -> dict[str, Any]:
        begun.append(threading.current_thread())
        if len(begun) == 1:
            assert go_on.wait(20)
            try:
                each()
            except Exception as error:
                given_up.append(error)
                raise
        return dates_view(still, each=each)

    monkeypatch.setattr(dates_module, "dates_view", slow)
    async with open_on(booked) as pilot:
        try:
            await pilot.press("7")
            assert RECKONING in text(pilot)
            await pilot.press("1", "space")
            assert "saved: label on L1: good" in text(pilot)
            await pilot.press("7")
            await until(pilot, lambda: there(pilot) and "20 Mar" in text(pilot))
        finally:
            go_on.set()
        await until(pilot, lambda: given_up)

    assert len(begun) == 2 and threading.main_thread() not in begun


async def test_while_it_reckons_anew_the_old_dates_are_called_old(
    booked: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on = threading.Event()
    async with open_on(booked) as pilot:
        await pilot.press("7")
        await until(pilot, lambda: there(pilot))

        def slow(still: Session, each: Callable[[], object]) -> dict[str, Any]:
            assert go_on.wait(20)
            return dates_view(still, each=each)

        monkeypatch.setattr(dates_module, "dates_view", slow)
        try:
            another(booked).do(blockers.stuck("no broom", kind="tool", stops=["sweep"]))
            await until(pilot, lambda: "before the last change" in text(pilot))
            assert "cover-up" in text(pilot)
        finally:
            go_on.set()
        await until(pilot, lambda: "before the last change" not in text(pilot))


async def test_a_build_without_anything_has_dates_too(empty: Session) -> None:
    async with open_on(empty) as pilot:
        await pilot.press("7")
        await until(pilot, lambda: "all work" in text(pilot))


async def test_b_books_the_hold_point_in_hand(shipped: Session) -> None:
    async with open_on(shipped) as pilot:
        await pilot.press("7")
        await until(pilot, lambda: there(pilot))
        rows = [line.row for line in screen(pilot).lines.all if line.key]
        other = next(
            number for number, row in enumerate(rows) if row.get("hold_point") == "pre-foam"
        )
        await pilot.press("home", *["down"] * other, "B")
        await until(pilot, lambda: "book pre-foam" in text(pilot))


def test_each_line_has_a_name_of_its_own_and_titles_stay_literal(booked: Session) -> None:
    view = dates_view(booked)
    keys = [line.key for line in date_lines(view, "", False) if line.key]
    row = {**view["dates"][0], "title": "[red]x[/]"}

    assert len(keys) == len(set(keys)) > 4
    assert "[red]x[/]" in str(date_detail(row, view["date"], 78, 8)[0])


def test_a_filter_keeps_the_dates_that_hold_its_words(booked: Session) -> None:
    lines = date_lines(dates_view(booked), "cover-up", False)

    assert next(line.cells[0][2:] for line in lines if line.key) == "cover-up"
    assert not any("trials" in line.cells[-1] for line in lines)
