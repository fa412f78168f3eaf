"""Marking checks with the keys."""

from __future__ import annotations

import pytest

from tests.tui.looking import LARGE, SMALL, open_on, screen, state, text, typed
from tracker.app.session import Session


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_it_opens_on_the_build_with_its_checks_by_bay(
    session: Session, size: tuple[int, int]
) -> None:
    async with open_on(session, size) as pilot:
        seen = text(pilot)

    assert "▸ walls" in seen and "cover-up" in seen
    assert "B1  left 0 to 1.2 m  7 open of 7" in seen
    assert "○ open" in seen
    assert "If missed: label has to be dug out" in seen
    assert "common practice" in seen


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_space_is_good_and_steps_on(session: Session, size: tuple[int, int]) -> None:
    async with open_on(session, size) as pilot:
        await pilot.press("space")

        assert state(session, "label", "L1") == "good"
        assert screen(pilot).row["subject"] == "L2"
        assert "✓ good" in text(pilot)
        assert "saved: label on L1: good" in text(pilot)


async def test_a_second_space_on_what_is_good_takes_nothing_back(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("space", "up", "space", "up", "space")
        acts = len(session.build.acts)
        await pilot.press("up", "space")

        assert state(session, "label", "L1") == "good"
        assert len(session.build.acts) == acts


async def test_a_waiver_is_not_turned_into_a_pass_by_space(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("w")
        await typed(pilot, "spare run")
        await pilot.press("enter")
        await typed(pilot, "Ola")
        await pilot.press("enter", "up", "space")

        assert state(session, "label", "L1") == "waived"


async def test_bad_stays_in_the_list_and_counts_as_to_do(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("b")

        assert state(session, "label", "L1") == "bad"
        assert "✗ bad" in text(pilot)
        assert "12 of 12 to do, 1 bad" in text(pilot)


@pytest.mark.parametrize(("number", "verdict"), [("36cm", "good"), ("9in", "bad")])
async def test_the_number_decides_and_its_limit_is_shown(
    session: Session, number: str, verdict: str
) -> None:
    async with open_on(session) as pilot:
        await pilot.press("down", "down", "m")
        assert "lead on L1: at least 0.35 m" in text(pilot)
        await typed(pilot, number)
        await pilot.press("enter")

        assert state(session, "lead", "L1") == verdict
        assert f"{verdict}: lead on L1" in text(pilot)


async def test_space_on_a_measured_check_asks_for_its_number(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("down", "down", "space")

        assert "measured" in text(pilot)
        assert state(session, "lead", "L1") == "open"


async def test_a_number_without_unit_is_refused_and_stays(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("down", "down", "m")
        await typed(pilot, "9")
        await pilot.press("enter")

        assert state(session, "lead", "L1") == "open"
        assert screen(pilot).query_one("#answer-0").value == "9"  # type: ignore[attr-defined]
        assert "✗" in text(pilot)


async def test_a_waiver_of_what_holds_takes_two_names(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("w")
        await typed(pilot, "spare run")
        await pilot.press("enter", "enter")
        assert state(session, "label", "L1") == "open"
        assert "second" in text(pilot)

        await typed(pilot, "Runa")
        await pilot.press("enter")
        assert state(session, "label", "L1") == "open"

        await pilot.press(*["backspace"] * 4)
        await typed(pilot, "Ola")
        await pilot.press("enter")
        assert state(session, "label", "L1") == "waived"


async def test_what_can_never_be_waived_says_so(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("end", "w")
        assert "This can never be waived" in text(pilot)
        await typed(pilot, "late")
        await pilot.press("enter")
        await typed(pilot, "Ola")
        await pilot.press("enter")

        assert state(session, "exits", "vehicle") == "open"
        assert "can never be waived" in text(pilot)


async def test_a_second_persons_check_asks_for_the_name(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press(*["down"] * 4, "space")
        assert state(session, "readback", "L1") == "open"
        await typed(pilot, "Ola")
        await pilot.press("enter")
        assert state(session, "readback", "L1") == "good"

        await pilot.press("space", "enter")
        assert state(session, "readback", "L2") == "open", "nobody's name is filled in by itself"
        assert "last time Ola" in text(pilot)


async def test_not_applicable_and_taking_back_ask_for_a_reason(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("n", "enter")
        assert state(session, "label", "L1") == "open"
        await typed(pilot, "no run here")
        await pilot.press("enter")
        assert state(session, "label", "L1") == "na"

        await pilot.press("home", "r")
        await typed(pilot, "wrong row")
        await pilot.press("enter")
        assert state(session, "label", "L1") == "open"


async def test_undo_and_redo_name_what_they_did(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("space", "z")
        assert state(session, "label", "L1") == "open"
        assert "undid" in text(pilot)

        await pilot.press("y")
        assert state(session, "label", "L1") == "good"


async def test_undo_with_nothing_of_ones_own_says_so(session: Session) -> None:
    other = Session(session.folder, user="Bram", data=session.data.with_name("new"))
    async with open_on(other) as pilot:
        await pilot.press("z")

        assert "nothing of yours to undo here" in text(pilot)
