"""A screen with nothing on it says what to do next."""

from __future__ import annotations

import pytest

from tests.tui.conftest import adopted
from tests.tui.looking import LARGE, SMALL, open_on, text, typed
from tracker.app.session import Session
from tracker.app.wants import checks


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_a_build_without_phases_says_how_to_take_some_up(
    empty: Session, size: tuple[int, int]
) -> None:
    async with open_on(empty, size) as pilot:
        seen = text(pilot)
        assert "No phases yet" in seen and "Press p" in seen

        await pilot.press("p")
        await typed(pilot, "framing deck")
        await pilot.press("enter")
        assert "framing" in text(pilot) and "roof-tight" in text(pilot)


async def test_every_key_is_harmless_on_an_empty_build(empty: Session) -> None:
    acts = len(empty.build.acts)
    async with open_on(empty) as pilot:
        for view in "123456":
            await pilot.press(view)
            await pilot.press("space", "b", "m", "w", "n", "r", "o", "j", "h", "v", "T", "T")
            await pilot.press("left_square_bracket", "right_square_bracket", "up", "end", "pageup")
            await pilot.press("e", "k", "d", *"RWCOB")
        await pilot.press("c", "u")

        assert "there is no blocker here" in text(pilot)
    assert len(empty.build.acts) == acts


async def test_a_hold_point_that_covers_nothing_says_so(empty: Session) -> None:
    def without_the_vehicles_own_check(build: object) -> list[dict[str, object]]:
        fact = dict(adopted()(build)[0])  # type: ignore[arg-type]
        fact["items"] = [row for row in fact["items"] if row["slug"] != "exits"]
        return [fact]

    empty.do(without_the_vehicles_own_check)
    async with open_on(empty) as pilot:
        assert "cover-up covers nothing yet" in text(pilot)


async def test_with_nothing_open_it_says_what_comes_next(session: Session) -> None:
    for place, names in (("B1", ["L1", "L2"]), ("B2", ["L3"])):
        session.do(checks.mark("label", names, "good", by="Runa"))
        session.do(checks.mark("swept", [place], "good", by="Runa"))
        for name in names:
            session.do(checks.mark("lead", [name], "measured", by="Runa", value="0.4 m"))
            session.do(checks.mark("readback", [name], "good", by="Runa", second="Ola"))
    session.do(checks.mark("exits", [], "good", by="Runa"))
    async with open_on(session) as pilot:
        await pilot.press("o")

        assert "Nothing is open before cover-up" in text(pilot)
        assert "ready" in text(pilot)


async def test_blockers_of_a_build_without_phases_are_seen(empty: Session) -> None:
    async with open_on(empty) as pilot:
        await pilot.press("s")
        await typed(pilot, "nowhere to park")
        await pilot.press("enter", "enter", "enter", "enter", "enter", "3")

        assert "nowhere to park" in text(pilot)
