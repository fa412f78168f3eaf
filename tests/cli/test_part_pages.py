"""What ``part cuts`` and ``part buy`` print."""

from __future__ import annotations

import json
from datetime import timedelta
from typing import Any

import pytest

from tests.cli.yard import HOLD, SPRAY, Yard
from tracker.build import item

PULL = "task:foam/run-drops"


@pytest.fixture
def wired(yard: Yard) -> Yard:
    """Three runs in one twin cable, the foam booked far off."""
    pull = {"title": "Pull the drops", "phase": "phase:foam", "crew": 1}
    yard.do(lambda session: [item.add("task", "run-drops", pull, PULL)])

    def change(session: Any) -> list[dict[str, Any]]:
        items = session.build.items
        runs = session.names.by_kind["run"]
        return [
            item.change(items[SPRAY], {"needs": ["task:foam/mask", PULL]}),
            item.change(items[HOLD], {"booked": "2099-06-18"}),
            *(
                item.change(runs[name], {"length_m": length_m, "gauge": "2.5mm2", "conductors": 2})
                for name, length_m in (("L1", 9.4), ("L2", 6.0), ("L3", 5.5))
            ),
        ]

    yard.do(change)
    yard.saved(
        *("part", "add", "twin", "unit=m", "gauge=2.5mm2", "cores=2", "lead_days=5"),
        *("unit_cost=2", "supplier=the mill"),
    )
    return yard


def test_metres_enough_that_do_not_reach_are_said_to_be_too_short(wired: Yard) -> None:
    wired.saved("part", "count", "twin", "9m,8.5m,7.5m,6m", "--at", "reel")

    out = wired.run("part", "cuts", "twin").out

    assert "31 m on hand in 4 remnants, but none reaches 9.4 m" in out
    assert "6 m at reel: L2 6 m; nothing over" in out
    assert "not cut yet: L1 9.4 m; buy a length of 9.4 m at least" in " ".join(out.split())


def test_what_is_to_be_bought_is_told_in_the_length_it_is_sold_in(wired: Yard) -> None:
    wired.saved("item", "change", "twin", "pack=25m")
    wired.saved("part", "count", "twin", "6.5m,5.6m", "--at", "reel")

    out = wired.run("part", "cuts").out

    assert "25 m to buy: L1 9.4 m; 15.6 m over" in out
    assert "to buy: 1 of 25 m" in out
    (row,) = json.loads(wired.run("part", "cuts", "--json").out)
    assert (row["buy"], row["fewest"], row["put_up_m"]) == (1, True, 25.0)
    assert {each["for"] for bar in row["cuts"] for each in bar["pieces"]} == {"L1", "L2", "L3"}


def test_wire_nobody_measured_is_said_so_and_not_guessed(wired: Yard) -> None:
    wired.saved("part", "count", "twin", "low", "--at", "reel")

    out = " ".join(wired.run("part", "cuts").out.split())

    assert "low at reel: what could be cut from that nobody can say" in out
    assert "to buy" not in out
    bought = wired.run("part", "buy").out
    assert "nothing is to be bought" in bought and "twin: low; 20.9 m needed" in bought


def test_the_buy_list_says_from_whom_by_when_and_for_how_much(wired: Yard) -> None:
    wired.saved("item", "change", "twin", "pack=25m")
    wired.saved("part", "count", "twin", "out", "--at", "reel")

    out = " ".join(wired.run("part", "buy").out.split())

    assert "order today" not in out  # with nothing logged, work is on Saturdays and Sundays
    assert "the mill: 50.00 twin: 25 m (1 of 25 m), 50.00; 20.9 m needed" in out
    assert "(5 days), for run-drops on 2099-06-14" in out
    assert "order by 2099-06-09" in out


def test_what_must_be_ordered_today_is_on_top(wired: Yard) -> None:
    wired.saved("item", "change", "twin", "pack=25m", "lead_days=100")
    wired.saved("part", "count", "twin", "out", "--at", "reel")
    soon = wired.session.now().date() + timedelta(days=30)
    wired.saved("book", "pre-foam", soon.isoformat())

    out = wired.run("part", "buy").out
    view = json.loads(wired.run("part", "buy", "--json").out)

    assert out.startswith(f"order today, {view['date']}\n")
    assert [row["part"] for row in view["order_today"]] == ["twin"]
    assert view["cost"] == 50.0


def test_an_unknown_part_is_told_in_one_sentence(wired: Yard) -> None:
    assert "twim" in wired.refused("part", "cuts", "twim")


def test_help_fits_a_screen(yard: Yard) -> None:
    assert len(yard.anywhere("part", "--help").out.splitlines()) <= 24


def test_a_single_length_is_measured_with_a_comma_after_it(wired: Yard) -> None:
    wired.saved("part", "count", "twin", "25 m", "--at", "reel")
    assert "25 m at reel, if it is one length: L1 9.4 m" in wired.run("part", "cuts").out

    wired.saved("part", "count", "twin", "25 m,", "--at", "reel")
    assert "25 m at reel: L1 9.4 m, L2 6 m, L3 5.5 m; 4.1 m over" in wired.run("part", "cuts").out
