"""The buy list on the screen, in the place of the parts."""

from __future__ import annotations

import pytest

from tests.tui.conftest import another
from tests.tui.looking import LARGE, SMALL, open_on, screen, text, typed, until
from tracker.app.session import Session
from tracker.app.views.buying import buy_view
from tracker.app.wants import items, parts
from tracker.build import item
from tracker.tui.buying_rows import buy_lines

PARTS = ("foam", "glands")


@pytest.fixture
def wanting(session: Session) -> Session:
    """The small build with a booked task that takes parts nobody has."""
    hold = session.names.find("cover-up", ("holdpoint",))
    session.do(lambda build: [item.change(hold, {"booked": "2027-03-09"})])
    session.do(
        items.add(
            "part",
            "foam",
            {"needed": "7", "unit": "each", "supplier": "Ravn [/] & Co", "lead_days": "30"},
        )
    )
    hours = {"low": [1.0, 0], "likely": [2.0, 0], "high": [3.0, 0]}
    takes = [{"part": part, "per": "once", "qty": 7.0, "unit": "each"} for part in PARTS]
    fields = {"title": "Fill", "phase": "phase:own", "hours": hours, "parts": takes}
    task = {"id": "task:own/fill", "kind": "task", "slug": "fill", "fields": fields}
    phase = {"id": "phase:own", "slug": "walls", "fields": {"title": "Walls", "order": 1}}
    session.do(lambda build: [{"f": "phase.adopted", "phase": phase, "hash": "", "items": [task]}])
    for part in PARTS:
        session.do(parts.count(part, "shelf 1", "out"))
    return session


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_one_key_shows_what_to_buy_and_again_all_parts(
    wanting: Session, size: tuple[int, int]
) -> None:
    async with open_on(wanting, size) as pilot:
        await pilot.press("g")
        await until(pilot, lambda: "order by" in text(pilot) and "foam" in text(pilot))
        await until(pilot, lambda: not screen(pilot).sitting.reckoned("buying")[1])
        seen, view = text(pilot), buy_view(wanting)

        assert screen(pilot).view == "parts"
        assert screen(pilot).sitting.reckoned("buying") == (view, False)
        assert "Ravn [/] & Co" in seen
        await pilot.press("g")
        assert "order by" not in text(pilot) and "on hand" in text(pilot)


async def test_what_is_counted_there_makes_another_list(wanting: Session) -> None:
    async with open_on(wanting) as pilot:
        await pilot.press("g")
        await until(pilot, lambda: screen(pilot).row.get("part"))
        part = screen(pilot).row["part"]
        await pilot.press("c")
        await typed(pilot, "90")
        await pilot.press("enter")
        await pilot.press("enter")

        await until(
            pilot,
            lambda: all(
                not line.key or line.row["part"] != part for line in screen(pilot).lines.all
            ),
        )


async def test_what_another_orders_makes_another_list(wanting: Session) -> None:
    async with open_on(wanting) as pilot:
        await pilot.press("g")
        await until(pilot, lambda: "Ravn" in text(pilot))
        another(wanting).do(items.change("foam", {"supplier": "Holm"}))
        await until(pilot, lambda: "Holm" in text(pilot) and "Ravn" not in text(pilot))


def test_what_must_be_ordered_today_is_on_top_and_each_line_has_a_name(wanting: Session) -> None:
    row = {
        **{"part": "foam", "title": None, "unit": "each", "supplier": None, "quantity": 7.0},
        **{"packs": None, "pack": None, "reaches_m": None, "need": 7.0, "allowance": 0.0},
        **{"on_hand": 0.0, "level": None, "on_order": 0.0, "tasks": ["fill"], "cost": None},
        **{"needed_on": "2027-03-09", "order_by": "2027-03-02", "order_now": True},
        **{"lead_days": 30, "comes_late": None},
    }
    group = {"supplier": None, "parts": [row], "cost": 0.0, "unpriced": 1}
    view = {**buy_view(wanting), "date": "2027-03-02", "order_today": [row], "suppliers": [group]}
    lines = buy_lines(view, "")
    keys = [line.key for line in lines if line.key]

    assert lines[0].cells == (" Order today",)
    assert lines[1].cells[0] == "! today" and lines[1].row["part"] == "foam"
    assert len(keys) == len(set(keys)) >= 2
    assert next(line.key for line in buy_lines(view, "foam today") if line.key) == "today foam"
