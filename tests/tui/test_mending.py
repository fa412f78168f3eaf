"""Where the cursor goes when an answer is refused."""

from __future__ import annotations

import pytest

from tests.tui.looking import open_on, screen, text, typed
from tracker.app.session import Session
from tracker.tui.asks import Asking, Question
from tracker.tui.mending import faulty

STUCK = ("text", "kind", "stops", "owes", "expected")


@pytest.mark.parametrize(
    ("names", "typed_in", "error", "found"),
    [
        (STUCK, {"kind": "gremlin"}, "kind: 'gremlin' is not one of part, person", "kind"),
        (STUCK, {"stops": "nowhere"}, "nothing is called 'nowhere'", "stops"),
        (("why", "second"), {"why": "spare"}, "x holds the work; give --second NAME", "second"),
        (("why", "second"), {"why": "late"}, "x can never be waived: y", None),
        (("by", "second"), {"by": "Runa"}, "it takes two names; give --by and --second", "second"),
        (("why", "second"), {"second": "Ola"}, "x: the reason can't be empty", "why"),
    ],
)
def test_an_error_leads_to_the_answer_it_is_about(
    names: tuple[str, ...], typed_in: dict[str, str], error: str, found: str | None
) -> None:
    asking = Asking("any", {}, "", "", tuple(Question(name, name) for name in names))

    assert faulty(asking, typed_in, error) == found


async def test_an_error_in_an_earlier_answer_puts_the_cursor_there(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("s")
        await typed(pilot, "crane is late")
        await pilot.press("enter")
        await typed(pilot, "gremlin")
        await pilot.press(*["enter"] * 4)

        assert "gremlin" in text(pilot)
        assert pilot.app.focused is screen(pilot).query_one("#answer-1")


async def test_being_put_aside_is_said_until_the_next_key(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("s", "escape")
        assert "put aside" in text(pilot)
        await pilot.press("down")
        assert "put aside" not in text(pilot)


@pytest.mark.parametrize("key", ["ctrl+c", "ctrl+q"])
async def test_one_key_quits_from_anywhere(session: Session, key: str) -> None:
    for before in ((), ("enter",), ("question_mark",), ("s",)):
        async with open_on(session) as pilot:
            await pilot.press(*before, key)
            assert not pilot.app.is_running, before


async def test_ctrl_c_says_what_would_be_lost_and_how_to_quit_then(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("enter")
        await typed(pilot, "half a no")
        await pilot.press("ctrl+c")
        assert "Ctrl-C again quits without it" in text(pilot)
        await pilot.press("t", "ctrl+c")
        assert pilot.app.is_running
        await pilot.press("ctrl+c")
        assert not pilot.app.is_running
