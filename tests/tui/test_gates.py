"""Releasing, closing in and booking on the screen, zone by zone."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from tests.tui.looking import LARGE, SMALL, open_on, screen, text, typed
from tracker.app.session import Session
from tracker.app.views.closing import closing_view
from tracker.app.wants import checks, items
from tracker.build.item import change


@pytest.fixture
def ready(session: Session) -> Session:
    """The small build in two zones, all answered in the first."""
    for zone, bay in (("aft", "B1"), ("fore", "B2")):
        session.do(items.add("zone", zone, {"bay": bay}))
    session.do(lambda build: [change(build.items["hold:own/cover-up"], {"buries": ["run"]})])
    session.do(checks.mark("label", ["L1", "L2"], "good", by="Runa"))
    session.do(checks.mark("swept", ["B1"], "good", by="Runa"))
    for name in ("L1", "L2"):
        session.do(checks.mark("lead", [name], "measured", by="Runa", value="0.4 m"))
        session.do(checks.mark("readback", [name], "good", by="Runa", second="Ola"))
    session.do(checks.mark("exits", [], "good", by="Runa"))
    return session


def stands(session: Session, zone: str = "aft") -> str:
    """How the hold point stands in a zone."""
    return str(closing_view(session, "cover-up", zone)["state"])


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_a_zone_is_released_by_two_people(ready: Session, size: tuple[int, int]) -> None:
    async with open_on(ready, size) as pilot:
        await pilot.press("R")
        assert "in which zone?" in text(pilot) and "aft, fore" in text(pilot)
        await typed(pilot, "aft")
        await pilot.press("enter")
        seen = " ".join(text(pilot).split())
        assert "release cover-up, aft: two people sign" in seen
        assert "wire run L1 L2" in seen and "not that the work is safe" in seen
        assert screen(pilot).query_one("#answer-1").value == ""  # type: ignore[attr-defined]

        await pilot.press("enter", "enter")
        assert stands(ready) == "ready", "nobody's name is filled in by itself"
        await typed(pilot, "Ola")
        await pilot.press("enter", "enter")
        assert stands(ready) == "released"
        assert "(released)" in text(pilot)


async def test_a_missing_second_name_puts_the_cursor_there(ready: Session) -> None:
    async with open_on(ready) as pilot:
        await pilot.press("v", "R", "enter", "enter")

        assert "takes two names" in text(pilot)
        assert pilot.app.focused is screen(pilot).query_one("#answer-1")


async def test_what_is_still_to_do_is_said_before_anything_is_asked(ready: Session) -> None:
    async with open_on(ready) as pilot:
        await pilot.press("v", "v", "R")

        assert "can't be released: label on L3" in text(pilot)
        assert "first person" not in text(pilot)


async def test_a_zone_there_is_not_is_asked_again(ready: Session) -> None:
    async with open_on(ready) as pilot:
        await pilot.press("R")
        await typed(pilot, "roof")
        await pilot.press("enter")

        assert "no zone is called 'roof'" in text(pilot)
        assert "in which zone?" in text(pilot)


async def test_closing_in_names_what_is_buried_and_wants_the_zone_written(ready: Session) -> None:
    async with open_on(ready) as pilot:
        await pilot.press("v", "C")
        assert "what can be done now: release" in text(pilot)
        await release(pilot)
        await pilot.press("C")
        seen = text(pilot)
        assert "this can't be reached again" in seen
        assert "wire run L1 L2" in seen
        await pilot.press("enter")
        assert stands(ready) == "released"
        await typed(pilot, "aft")
        await pilot.press("enter")
        assert stands(ready) == "closed"

        await pilot.press("O")
        await typed(pilot, "cut out by hand")
        await pilot.press("enter")
        assert stands(ready) == "reopened"


async def test_a_release_is_taken_back_for_a_reason(ready: Session) -> None:
    async with open_on(ready) as pilot:
        await pilot.press("v")
        await release(pilot)
        await pilot.press("W", "enter")
        assert stands(ready) == "released"
        await typed(pilot, "gland leaks")
        await pilot.press("enter")
        assert stands(ready) == "ready"


async def test_a_day_is_booked_for_all_zones_or_one(ready: Session) -> None:
    async with open_on(ready) as pilot:
        await pilot.press("B")
        await typed(pilot, "2027-04-18")
        await pilot.press("enter", "enter")
        assert closing_view(ready, "cover-up", "fore")["booked"] == "2027-04-18"

        await pilot.press("B", "shift+tab", *["backspace"] * 10)
        await typed(pilot, "18 April")
        await pilot.press("enter")
        await typed(pilot, "aft")
        await pilot.press("enter")
        assert "is no date" in text(pilot)
        assert pilot.app.focused is screen(pilot).query_one("#answer-0")

        await pilot.press(*["backspace"] * 8)
        await typed(pilot, "2027-02-01")
        await pilot.press("enter", "enter")
        assert "that day is past" in text(pilot)
        assert closing_view(ready, "cover-up", "aft")["booked"] == "2027-02-01"
        assert closing_view(ready, "cover-up", "fore")["booked"] == "2027-04-18"


async def test_a_hold_point_of_the_whole_vehicle_asks_for_no_zone(session: Session) -> None:
    async with open_on(session) as pilot:
        await pilot.press("B")

        assert "zone, or empty for all" not in text(pilot)
        assert "day of the close-in" in text(pilot)


async def test_without_a_hold_point_nothing_is_asked(empty: Session) -> None:
    async with open_on(empty) as pilot:
        for key in "RWCOB":
            await pilot.press(key)
            assert "there is no hold point yet" in text(pilot)


async def release(pilot: Pilot[None]) -> None:
    """Release the zone shown; the cursor waits at the second name."""
    await pilot.press("R")
    await typed(pilot, "Ola")
    await pilot.press("enter", "enter")
