"""Whatever people call things, the screen shows it letter by letter."""

from __future__ import annotations

import pytest

from tests.tui.conftest import another
from tests.tui.looking import LARGE, SMALL, open_on, text, typed
from tracker.app.session import Session
from tracker.app.wants import blockers, diary, items

HOSTILE = ["[/]", "[b]x", "[/", "[x] done", "[@click=app.quit]x[/]", "a\\[b", "$primary {x}"]


@pytest.mark.parametrize("size", [SMALL, LARGE])
@pytest.mark.parametrize("name", HOSTILE)
async def test_markup_in_names_and_notes_is_only_text(
    session: Session, name: str, size: tuple[int, int]
) -> None:
    session.do(blockers.stuck(name, kind="decision", owes=name))
    session.do(items.add("part", "odd", {"supplier": name}))
    session.do(diary.note(f"seen {name}"))
    another(session, user=name).do(diary.note("signed"))
    async with open_on(session, size) as pilot:
        await pilot.press("3")
        assert f"stuck1: {name}" in text(pilot)
        await pilot.press("4")
        assert f"seen {name}" in text(pilot)
        await pilot.press("1", "w")
        await typed(pilot, name)
        assert name in text(pilot)
        await pilot.press("escape", "slash")
        await typed(pilot, name)
        await pilot.press("enter")
        assert name in text(pilot)


@pytest.mark.parametrize("sign", ["\x1b[31m", "\x07", "\u202e", "\x9b2J", "\r"])
async def test_control_characters_never_reach_the_terminal(session: Session, sign: str) -> None:
    session.do(lambda build: [{"f": "note.written", "text": f"before{sign}after"}])
    async with open_on(session) as pilot:
        await pilot.press("4")
        seen = text(pilot)

    assert "before" in seen and "after" in seen
    assert sign not in seen


async def test_a_refusal_that_repeats_hostile_words_is_only_text(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("s")
        await typed(pilot, "x")
        await pilot.press("enter")
        await typed(pilot, "[/]")
        await pilot.press(*["enter"] * 4)

        assert "'[/]'" in text(pilot)
