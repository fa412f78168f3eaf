"""Nothing typed is lost, and what others write meanwhile appears."""

from __future__ import annotations

import pytest
from textual import events

from tests.tui.conftest import another
from tests.tui.looking import LARGE, SMALL, open_on, screen, state, text, typed, until
from tracker.app.session import Session
from tracker.app.wants import checks, diary, parts


async def test_a_half_answered_question_is_kept_when_it_is_put_aside(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("s")
        await typed(pilot, "crane is late")
        await pilot.press("escape", "space", "up", "s")

        assert "crane is late" in text(pilot)


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_the_entry_line_takes_the_days_lines_and_notes(
    session: Session, size: tuple[int, int]
) -> None:
    async with open_on(session, size) as pilot:
        await pilot.press("enter")
        await typed(pilot, "L1 label ok")
        await pilot.press("enter")
        assert state(session, "label", "L1") == "good"

        await typed(pilot, "the ramp is slippery today")
        await pilot.press("enter", "escape", "4", "home")
        assert "the ramp is slippery today" in text(pilot)


async def test_a_line_that_cannot_be_placed_waits_in_the_inbox_and_says_why(
    session: Session,
) -> None:
    async with open_on(session) as pilot:
        await pilot.press("enter")
        await typed(pilot, "L1 lead 9")
        await pilot.press("enter")

        assert state(session, "lead", "L1") == "open"
        assert [line.text for line in session.build.inbox.values()] == ["L1 lead 9"]
        assert "✗ kept in the inbox" in text(pilot)


async def test_a_line_half_typed_is_kept_when_it_is_left(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("enter")
        await typed(pilot, "L1 lab")
        await pilot.press("escape", "space", "2", "1", "enter")

        assert screen(pilot).box.value == "L1 lab"


async def test_an_empty_line_writes_nothing_and_goes_back(session: Session) -> None:
    acts = len(session.build.acts)
    async with open_on(session) as pilot:
        await pilot.press("enter", "enter", "down")
        assert screen(pilot).row["subject"] == "L2"

    assert len(session.build.acts) == acts


async def test_a_disk_that_takes_nothing_loses_nothing_typed(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    from tracker.errors import NotSaved

    def full(*_: object, **__: object) -> None:
        raise NotSaved("the disk is full; make room and try again")

    async with open_on(session) as pilot:
        await pilot.press("enter")
        await typed(pilot, "a cold morning")
        with monkeypatch.context() as patch:
            patch.setattr(session, "do", full)
            await pilot.press("enter")
        assert "the disk is full" in text(pilot)
        assert screen(pilot).box.value == "a cold morning"

        await pilot.press("enter")
        assert screen(pilot).box.value == ""
        assert "a cold morning" in session.build.notes[0].text


async def test_what_another_writes_appears_and_the_row_in_hand_stays(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("down")
        ola = another(session)
        ola.do(checks.mark("label", ["L1"], "good", by="Ola"))
        await until(pilot, lambda: "✓ good" in text(pilot))

        assert screen(pilot).row["subject"] == "L2"
        assert "from Ola" in text(pilot)


async def test_a_folder_that_goes_and_comes_back_loses_nothing_typed(session: Session) -> None:
    away = session.folder.with_name("away")
    async with open_on(session) as pilot:
        await pilot.press("enter")
        await typed(pilot, "a stick pulled out")
        session.folder.rename(away)
        await until(pilot, lambda: "is gone" in text(pilot))
        assert "1 checks 12 to do" in text(pilot)

        away.rename(session.folder)
        await until(pilot, lambda: "the build can be read again" in text(pilot))
        await pilot.press("enter")
        assert "a stick pulled out" in session.build.notes[0].text


async def test_what_another_writes_does_not_touch_what_is_being_typed(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("down", "w")
        await typed(pilot, "half a rea")
        another(session).do(diary.note("hello"))
        await until(pilot, lambda: "from Ola" in text(pilot))
        await typed(pilot, "son")

        assert "half a reason" in text(pilot)


async def test_resizing_keeps_what_was_typed_and_what_is_in_hand(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("end", "enter")
        await typed(pilot, "L3 label o")
        await pilot.resize_terminal(120, 40)
        assert "L3 label o" in text(pilot)
        await pilot.resize_terminal(80, 24)

        assert screen(pilot).box.value == "L3 label o"
        assert screen(pilot).row["check"] == "exits"
        assert "▸○ open" in text(pilot)


async def test_a_shortage_that_another_counts_is_seen_after_it_happens(
    session: Session,
) -> None:
    session.do(parts.receive("glands", "12", "shelf"))
    async with open_on(session) as pilot:
        await pilot.press("2")
        assert "✓ enough" in text(pilot)
        another(session).do(parts.count("glands", "shelf", "9"))
        await until(pilot, lambda: "✗ short" in text(pilot))


async def test_q_asks_before_it_drops_what_was_typed(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("enter")
        await typed(pilot, "half a no")
        await pilot.press("escape", "q")
        assert "not saved yet" in text(pilot)
        assert pilot.app.is_running
        await pilot.press("q")

    assert pilot.app.return_code == 0


async def test_several_pasted_lines_are_all_taken(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("enter")
        screen(pilot).box.post_message(events.Paste("L1 label ok\nL2 label ok\n\nswept\tagain\n"))
        await until(pilot, lambda: "swept" in screen(pilot).box.value)
        assert "L1 label ok ¶ L2 label ok" in text(pilot)
        await pilot.press("enter")

        assert state(session, "label", "L1") == state(session, "label", "L2") == "good"
        assert screen(pilot).box.value == ""


async def test_two_answers_that_disagree_are_shown_and_the_next_settles_them(
    session: Session,
) -> None:
    ola = another(session)
    first = checks.mark("label", ["L1"], "good", by="Ola")(ola.build)
    session.do(checks.mark("label", ["L1"], "bad", by="Runa"))
    ola.do(lambda build: first)
    async with open_on(session) as pilot:
        await until(pilot, lambda: "≠ conflict" in text(pilot))
        assert "against" in text(pilot)
        await pilot.press("b")
        assert state(session, "label", "L1") == "bad"
