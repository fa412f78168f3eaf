"""Labels read blind by a second person: the record is hidden, and the two are compared."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from tests.tui.looking import LARGE, SMALL, open_on, screen, state, text, typed
from tracker.app.session import Session
from tracker.app.wants import items
from tracker.build.item import change


@pytest.fixture
def labelled(session: Session) -> Session:
    """The small build, where the check by another is of a label, on a run of a telling name."""
    text_of_it = {"text": "The label read out by somebody else."}
    session.do(lambda build: [change(build.items["check:own/readback"], text_of_it)])
    session.do(items.change("L1", {"name": "QX7"}))
    return session


async def reach(pilot: Pilot[None]) -> None:
    """Bring the reading of the first run in hand and begin it."""
    await pilot.press("slash")
    await typed(pilot, "readback qx7")
    await pilot.press("enter", "space")


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_nothing_shows_what_the_label_should_say(
    labelled: Session, size: tuple[int, int]
) -> None:
    async with open_on(labelled, size) as pilot:
        await reach(pilot)
        seen = text(pilot)
        assert "the label reads" in seen and "in B1" in seen
        assert "qx7" not in seen.casefold()

        await pilot.press("escape")
        assert "QX7" in text(pilot)


async def test_what_fits_the_record_is_good_and_kept_with_who_read_it(labelled: Session) -> None:
    async with open_on(labelled) as pilot:
        await reach(pilot)
        await typed(pilot, "Ola")
        await pilot.press("enter")
        await typed(pilot, "qx7")
        await pilot.press("enter")

        assert state(labelled, "readback", "QX7") == "good"
    answer = next(heads[0] for key, heads in labelled.build.answers.items() if "readback" in key[0])
    assert (answer.second, answer.fact["read"]) == ("Ola", "qx7")


async def test_what_does_not_fit_is_not_good_and_not_guessed_again(labelled: Session) -> None:
    async with open_on(labelled) as pilot:
        await reach(pilot)
        await typed(pilot, "Ola")
        await pilot.press("enter")
        await typed(pilot, "QX1")
        await pilot.press("enter")

        assert "the label reads 'QX1' and the record says QX7" in text(pilot)
        assert state(labelled, "readback", "QX7") == "open"
        assert screen(pilot).focused is screen(pilot).lines
        await pilot.press("space")
        assert screen(pilot).query_one("#answer-1").value == ""  # type: ignore[attr-defined]


async def test_a_label_that_was_not_read_is_not_good(labelled: Session) -> None:
    async with open_on(labelled) as pilot:
        await reach(pilot)
        await typed(pilot, "Ola")
        await pilot.press("enter", "enter")

        assert state(labelled, "readback", "QX7") == "open"
        assert "what the label reads" in text(pilot)
        assert pilot.app.focused is screen(pilot).query_one("#answer-1")
