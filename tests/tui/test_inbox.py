"""The lines that could not be placed, and sorting them."""

from __future__ import annotations

import pytest

from tests.tui.looking import LARGE, SMALL, open_on, screen, state, text, typed
from tracker.app.session import Session
from tracker.app.wants import say


@pytest.fixture
def waiting(session: Session) -> Session:
    """The small build with two lines to sort."""
    for line in ("L1 lead 9", "L1 lead [/]"):
        session.do(say.understand(session, line, "Runa")[0])
    assert len(session.build.inbox) == 2
    return session


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_i_goes_to_the_lines_that_wait(waiting: Session, size: tuple[int, int]) -> None:
    async with open_on(waiting, size) as pilot:
        await pilot.press("i")
        seen = text(pilot)

    assert "[6 inbox 2 lines]" in seen
    assert "L1 lead 9" in seen and "L1 lead [/]" in seen


async def test_a_line_said_otherwise_is_placed_and_gone(waiting: Session) -> None:
    async with open_on(waiting) as pilot:
        await pilot.press("6", "e")
        assert "It can't be placed as it stands" in text(pilot)
        await pilot.press("enter")
        assert "can't be placed either" in text(pilot)
        await typed(pilot, "in")
        await pilot.press("enter")

        assert state(waiting, "lead", "L1") == "bad"
        assert "[6 inbox 1 line]" in text(pilot)


async def test_k_keeps_a_line_as_a_note_and_d_drops_one(waiting: Session) -> None:
    async with open_on(waiting) as pilot:
        await pilot.press("6", "k", "d")

        assert [note.text for note in waiting.build.notes] == ["L1 lead 9"]
        assert "No line waits to be sorted" in text(pilot)
        await pilot.press("z")
        assert screen(pilot).row["text"] == "L1 lead [/]"


async def test_from_another_view_the_keys_lead_there_first(waiting: Session) -> None:
    async with open_on(waiting) as pilot:
        await pilot.press("d")

        assert screen(pilot).view == "inbox"
        assert "choose the line" in text(pilot)
        assert len(screen(pilot).sitting.inbox) == 2
