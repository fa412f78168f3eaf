"""Whatever people call things, the screen shows it letter by letter."""

from __future__ import annotations

import pytest

from tests.tui.conftest import another
from tests.tui.looking import LARGE, SMALL, open_on, text, typed
from tracker.app.session import Session
from tracker.app.wants import blockers, diary

HOSTILE = ["[/]", "[b]x", "[/", "[x] done", "[@click=app.quit]x[/]", "a\\[b", "$primary {x}"]


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_markup_in_names_and_notes_is_only_text(
    session: Session, size: tuple[int, int]
) -> None:
    for name in HOSTILE:
        session.do(blockers.stuck(name, kind="decision", owes=name))
        session.do(diary.note(f"seen {name}"))
    another(session, user="[/]").do(diary.note("signed"))
    async with open_on(session, size) as pilot:
        await pilot.press("3")
        for number, name in enumerate(HOSTILE, 1):
            assert f"stuck{number}: {name}" in text(pilot)
            await pilot.press("down")
        await pilot.press("4", "slash")
        await typed(pilot, "seen")
        await pilot.press("enter")
        for name in HOSTILE:
            assert f"seen {name}"[:20] in text(pilot)  # a narrow list cuts the rest
        await pilot.press("escape", "home")
        assert " [/] " in text(pilot), "the name of who signed"


@pytest.mark.parametrize("name", HOSTILE)
async def test_markup_that_is_typed_is_only_text(session: Session, name: str) -> None:
    async with open_on(session) as pilot:
        await pilot.press("w")
        await typed(pilot, name)
        assert name in text(pilot)
        await pilot.press("escape", "slash")
        await typed(pilot, name)
        await pilot.press("enter")
        assert f"Nothing here holds '{name}'" in text(pilot)


async def test_control_characters_never_reach_the_terminal(session: Session) -> None:
    signs = ["\x1b[31m", "\x07", "\u202e", "\x9b2J", "\r", "\x00"]
    for number, sign in enumerate(signs):
        said = {"f": "note.written", "text": f"before{number}{sign}after"}
        session.do(lambda build, said=said: [said])
    async with open_on(session) as pilot:
        await pilot.press("4", "home")
        seen = text(pilot)

    for number, sign in enumerate(signs):
        assert f"before{number}" in seen
        assert sign not in seen


async def test_a_refusal_that_repeats_hostile_words_is_only_text(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("s")
        await typed(pilot, "x")
        await pilot.press("enter")
        await typed(pilot, "[/]")
        await pilot.press(*["enter"] * 4)

        assert "'[/]'" in text(pilot)
