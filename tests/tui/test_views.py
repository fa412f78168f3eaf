"""The views: going through them, and what each one does."""

from __future__ import annotations

import pytest
from textual.widgets import Input

from tests.tui.looking import LARGE, open_on, screen, state, text, typed, until
from tracker.app.session import Session
from tracker.app.wants import blockers, items
from tracker.tui.theme import LIGHT


async def test_number_keys_and_tab_go_through_the_views(session: Session) -> None:
    async with open_on(session) as pilot:
        for key, view in (("2", "parts"), ("3", "blockers"), ("4", "log"), ("5", "today")):
            await pilot.press(key)
            assert screen(pilot).view == view
            assert f"[{key} {view}" in text(pilot)
        await pilot.press("1")
        await pilot.press("tab", "tab")
        assert screen(pilot).view == "blockers"
        await pilot.press("shift+tab")
        assert screen(pilot).view == "parts"


async def test_a_wide_screen_shows_all_views_at_once(session: Session) -> None:
    session.do(blockers.stuck("no dry day", kind="weather", stops=["cover-up"]))
    async with open_on(session, LARGE) as pilot:
        seen = text(pilot)

    for words in ("1 checks", "2 parts", "3 blockers", "4 log", "glands", "no dry day"):
        assert words in seen


async def test_a_part_is_counted_and_a_shortage_says_what_it_stops(session: Session) -> None:
    session.do(items.change("glands", {"stops": "label"}))
    async with open_on(session) as pilot:
        await pilot.press("2", "c")
        await typed(pilot, "5")
        await pilot.press("enter")
        await typed(pilot, "shelf 2")
        await pilot.press("enter")

        seen = text(pilot)
        assert "✗ short" in seen and "5 at shelf 2" in seen
        assert "It stops: label" in seen
        assert "1 shortage" in seen


async def test_a_count_that_is_none_keeps_what_was_typed(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("2", "c")
        await typed(pilot, "lots")
        await pilot.press("enter", "enter")

        assert "lots" in text(pilot)
        assert "no count of glands" in text(pilot)
        assert not session.build.lots


async def test_stuck_raises_a_blocker_and_unstuck_clears_it(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("1", "s")
        await typed(pilot, "no second person")
        await pilot.press("enter")
        await typed(pilot, "person")
        await pilot.press(*["enter"] * 4)
        assert "1 blocker" in text(pilot)

        await pilot.press("3")
        seen = text(pilot)
        assert "✗ person" in seen and "It stops: label" in seen

        await pilot.press("u", "enter", "enter")
        assert "no blockers" in text(pilot)
        assert "Nothing is in the way" in text(pilot)


async def test_a_note_is_about_what_is_in_hand(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("N")
        await typed(pilot, "rub mark on the jacket")
        await pilot.press("enter", "enter")
        await pilot.press("4")

        assert "rub mark on the jacket" in text(pilot)
        assert session.names.name(session.build.notes[0].on[0]) == "L1"


async def test_a_filter_shows_only_what_holds_its_words(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("slash")
        await typed(pilot, "lead l3")
        await pilot.press("enter")
        seen = text(pilot)
        assert "[1 checks filter: lead l3]" in seen
        assert len([line for line in screen(pilot).lines.all if line.key]) == 1

        await pilot.press("escape")
        assert len([line for line in screen(pilot).lines.all if line.key]) == 12


async def test_what_is_in_hand_is_in_sight_when_a_filter_ends(shipped: Session) -> None:
    for number in range(1, 5):
        shipped.do(items.add("bay", f"B{number}", {"face": "left"}))
    async with open_on(shipped) as pilot:
        await pilot.press("h", "h", "/")
        await typed(pilot, "surface-clean B4")
        await pilot.press("enter", "end")
        held = screen(pilot).lines.line
        assert held and held.key.startswith("surface-clean")
        await pilot.press("escape")

        assert screen(pilot).lines.line == held
        await until(pilot, lambda: any(row[:1] == "▸" for row in text(pilot).splitlines()))
        assert screen(pilot).lines.hand > screen(pilot).lines.size.height


async def test_below_stand_the_keys_of_where_the_next_one_goes(session: Session) -> None:
    async with open_on(session) as pilot:
        assert "space good" in text(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: "enter saves the line" in text(pilot))
        assert "space good" not in text(pilot)
        await pilot.press("escape", "/")
        await until(pilot, lambda: "enter keeps the filter" in text(pilot))
        await pilot.press("escape")
        await until(pilot, lambda: "space good" in text(pilot))


async def test_only_open_hides_what_is_settled(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("space", "o")
        assert "✓ good" not in text(pilot)
        await pilot.press("o")
        assert "✓ good" in text(pilot)


async def test_brackets_go_from_bay_to_bay(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("right_square_bracket")
        assert screen(pilot).row["subject"] == "L3"
        await pilot.press("left_square_bracket")
        assert screen(pilot).row["subject"] == "L1"


async def test_help_names_every_key_and_esc_leaves_it(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("question_mark")
        assert "never takes it back" in text(pilot)
        await pilot.press("escape")
        assert "never takes it back" not in text(pilot)


async def test_a_click_takes_a_row_of_another_list_in_hand(session: Session) -> None:
    async with open_on(session, LARGE) as pilot:
        await pilot.click("#parts", offset=(5, 2))
        await until(pilot, lambda: screen(pilot).view == "parts")

        assert screen(pilot).row["part"] == "tape"


async def test_the_palette_reaches_the_same_actions(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("ctrl+p")
        await until(pilot, lambda: isinstance(pilot.app.focused, Input))
        await pilot.press(*"daylight")
        await until(pilot, lambda: "Dark colours" in text(pilot))
        await pilot.press("enter")
        await until(pilot, lambda: pilot.app.theme == LIGHT.name)


async def test_v_goes_through_the_zones_and_h_through_the_hold_points(shipped: Session) -> None:
    for name in ("B1", "B2"):
        shipped.do(items.add("bay", name, {"face": "left"}))
        shipped.do(items.add("zone", f"by-{name}", {"bay": name}))
    async with open_on(shipped) as pilot:
        holds = []
        for _ in range(4):
            holds.append(screen(pilot).sitting.walk["hold_point"]["slug"])
            await pilot.press("h")
        assert holds == ["layout-frozen", "roof-tight", "pre-foam", "after-foam"]

        await pilot.press("h", "h", "v")
        assert "Before pre-foam, zone by-B1" in text(pilot)
        await pilot.press("v", "v")
        assert "zone by-" not in text(pilot)


@pytest.mark.parametrize("size", [(40, 12), (60, 20), (200, 60)])
async def test_other_sizes_break_nothing(session: Session, size: tuple[int, int]) -> None:
    async with open_on(session, size) as pilot:
        await pilot.press("space", "2", "3", "4", "s", "escape", "1")

        assert "walls" in text(pilot)
        assert state(session, "label", "L1") == "good"
