from __future__ import annotations

import json
from typing import Any

import pytest

from tests.cli.yard import Yard
from tracker.build import item, log


def view(yard: Yard, *words: str) -> dict[str, Any]:
    said = yard.run("today", "--json", *words)
    assert (said.status, said.err) == (0, "")
    found: dict[str, Any] = json.loads(said.out)
    return found


def scene(yard: Yard) -> None:
    """Two people, a part for masking that lies at Ola's home, and a tool."""
    rows = [{"part": "film", "per": "once", "qty": 2.0, "unit": "each"}]
    yard.do(
        lambda session: [
            item.add("person", "Ola", {}),
            item.add("person", "Ida", {}),
            item.add("part", "film", {"unit": "each", "lead_days": 0}),
            log.day(2, 8.0, 14.0, True, 6.0),
            item.change(session.names.find("mask", ("task",)), {"parts": rows, "tools": ["saw"]}),
        ]
    )
    yard.saved("part", "count", "film", "5", "--at", "Ola's home")


def test_a_day_is_as_the_last_one_unless_something_else_is_said(yard: Yard) -> None:
    scene(yard)

    day = view(yard)["day"]
    assert (day["people"], day["hours"], day["dry"], day["air_c"]) == (2, 6.0, True, 6.0)
    assert day["as_on"] is not None

    day = view(yard, "--crew", "3", "--hours", "4h30", "--rain", "--temp", "-2C")["day"]
    assert (day["people"], day["hours"], day["dry"], day["air_c"]) == (3, 4.5, False, -2.0)
    assert day["as_on"] is None


def test_the_page_says_what_to_do_and_what_to_bring(yard: Yard) -> None:
    scene(yard)

    out = yard.run("today").out

    assert "1. 0:00-3:15 mask, 2 people: Mask" in out
    assert "2 film from Ola's home, for mask" in out
    assert "saw" in out
    assert "pre-foam holds it until it is released" in out


def test_a_helper_who_is_not_there_is_two_hands_less_and_so_is_what_lies_at_home(
    yard: Yard,
) -> None:
    scene(yard)

    found = view(yard, "--absent", "Ola")

    assert (found["day"]["people"], found["plan"]) == (1, [])
    words = {row["kind"]: row["words"] for row in found["not_possible"]}
    assert words["people"] == "it takes 2 people"
    assert words["part"] == "0 of 2 of film here, 5 at Ola's home"


def test_without_a_part_or_a_tool_is_only_asked(yard: Yard) -> None:
    scene(yard)
    before = yard.files()

    part, tool = view(yard, "--without", "film"), view(yard, "--without", "saw")

    assert "part" in {row["kind"] for row in part["not_possible"]}
    assert "tool" in {row["kind"] for row in tool["not_possible"]}
    assert yard.files() == before


def test_a_shop_run_that_pays_is_said_with_its_price(yard: Yard) -> None:
    scene(yard)

    (row,) = [r for r in view(yard, "--without", "film")["not_possible"] if r["kind"] == "part"]

    assert row["shop_run"] == {"costs": 2.0, "frees": 6.0}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--without", "fillm"), "no part or tool is called 'fillm'; did you mean"),
        (("--absent", "Olla"), "did you mean"),
        (("--temp", "6m"), "temp: "),
        (("--temp", "900C"), "temp 900 is outside"),
        (("--hours", "0"), "0 h is no length of a day"),
        (("--crew", "-1"), "outside 0 to 99"),
        (("--rain", "--dry"), "not allowed with"),
    ],
)
def test_what_can_not_be_meant_is_refused(yard: Yard, words: tuple[str, ...], said: str) -> None:
    scene(yard)

    assert said in yard.refused("today", *words)


def test_why_says_in_a_sentence_how_a_task_stands(yard: Yard) -> None:
    scene(yard)

    assert yard.run("why", "mask").out == "mask can begin.\n"
    out = " ".join(yard.run("why", "spray").out.split())
    assert out == "spray can't be done: pre-foam holds it until it is released; mask comes first."
    yard.saved("done", "mask")
    assert yard.run("why", "mask").out == "mask is done.\n"
    assert "did you mean" in yard.refused("why", "massk")


def test_the_days_ahead_are_planned_one_after_another_and_nothing_is_written(yard: Yard) -> None:
    scene(yard)
    before = yard.files()

    found = view(yard, "--next", "--hours", "3h30")
    out = yard.run("today", "--next", "--hours", "3h30").out

    first, second = found["days"]
    assert [first["weekday"], second["weekday"]] == ["sat", "sun"]
    assert [row["task"] for row in first["plan"]] == ["mask"]
    assert second["plan"] == []
    assert (first["day"]["dry"], first["day"]["air_c"]) == (None, None)
    (load,) = found["load"]
    assert (load["part"], load["quantity"], load["place"]) == ("film", 2.0, "Ola's home")
    assert f"Sat {first['date']}, 2 people, 3.5 h" in out
    assert "2 film from Ola's home, for mask" in out
    assert yard.files() == before
