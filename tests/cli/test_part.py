from __future__ import annotations

import json

import pytest

from tests.cli.yard import Yard


@pytest.fixture
def glands(yard: Yard) -> Yard:
    yard.saved("part", "add", "glands", "unit=each", "needed=12", "pack=10", "stops=spray")
    return yard


def row(yard: Yard) -> dict:
    (found,) = json.loads(yard.run("part", "--json").out)
    return found


def test_what_comes_and_goes_prints_what_is_there_now(glands: Yard) -> None:
    assert "glands: 4 on hand (4 at shelf 2)" in glands.saved(
        "part", "receive", "glands", "4", "--at", "shelf 2"
    )
    out = glands.saved("part", "use", "glands", "3", "--for", "H1")
    assert "glands: 1 on hand (1 at shelf 2)" in out
    assert "which stops spray" in out


def test_a_missing_part_stops_the_day_and_says_what_and_where(glands: Yard) -> None:
    glands.saved("part", "receive", "glands", "4", "--at", "shelf")
    glands.saved("part", "receive", "glands", "6", "--at", "Ola's home")
    glands.saved("item", "add", "person", "ola")
    glands.saved("part", "out", "glands")

    short = row(glands)
    assert short["short"] and short["stops"] == ["spray"]
    assert {lot["place"]: lot["elsewhere"] for lot in short["lots"]} == {
        "Ola's home": True,
        "shelf": False,
    }
    blockers = json.loads(glands.run("todo", "--json").out)["blockers"]
    assert [blocker["text"] for blocker in blockers] == ["out of glands; 6 at Ola's home"]
    out = glands.run("part").out
    assert "SHORT" in out and "6 at Ola's home" in out


def test_an_order_is_told_with_its_day_until_it_comes(glands: Yard) -> None:
    glands.saved("part", "count", "glands", "0")
    glands.saved("part", "order", "glands", "2 packs", "--due", "2030-05-09", "--from", "the mill")

    assert row(glands)["on_order"] == [
        {"quantity": 20.0, "due": "2030-05-09", "supplier": "the mill"}
    ]
    assert "on order 20 due 2030-05-09" in " ".join(glands.run("part", "list").out.split())
    glands.saved("part", "receive", "glands", "20")
    assert row(glands)["on_order"] == []


def test_moving_and_setting_aside_are_recorded(glands: Yard) -> None:
    glands.saved("part", "count", "glands", "9", "--at", "shelf")
    glands.saved("part", "move", "glands", "all", "--to", "bin 3")
    glands.saved("part", "set-aside", "glands", "2", "--for", "the roof", "--at", "bin 3")

    found = row(glands)
    assert [(lot["place"], lot["quantity"]) for lot in found["lots"]] == [
        ("bin 3", 9.0),
        ("shelf", 0.0),
    ]
    assert found["aside"] == [{"quantity": 2.0, "place": "bin 3", "for": "the roof"}]


def test_using_more_than_was_known_is_recorded_and_doubted(glands: Yard) -> None:
    glands.saved("part", "count", "glands", "2")
    said = glands.run("part", "use", "glands", "3")

    assert said.status == 0 and "saved " in said.out
    assert "more than was known to be at site" in said.err


def test_what_came_to_an_uncounted_place_is_doubted(glands: Yard) -> None:
    glands.saved("part", "count", "glands", "low")

    assert "only said to be low" in glands.run("part", "receive", "glands", "3").err


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("receive", "glandz", "3"), "did you mean glands?"),
        (("receive", "glands", "3 m"), "can't be read as"),
        (("receive", "glands", "0"), "above 0"),
        (("receive", "glands"), "QUANTITY is missing"),
        (("use", "glands", "1"), "nobody has counted glands"),
        (("count", "glands", "plent"), "did you mean plenty?"),
        (("order", "glands", "1", "--due", "friday"), "due is a date"),
        (("add", "glands"), "there is a part called 'glands' already"),
        (("add", "wire", "unit"), "'unit' is no FIELD=VALUE"),
        (("recieve", "glands", "3"), "did you mean receive?"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    glands: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in glands.refused("part", *words)


def test_an_empty_list_says_how_to_begin(yard: Yard) -> None:
    assert "closein part add" in yard.run("part").out
    assert yard.run("part", "list", "--short").out == "nothing is short\n"
