from __future__ import annotations

import json
from typing import Any

import pytest

from tests.cli.yard import HOLD, Yard
from tracker.build import item


def view(yard: Yard, *words: str) -> dict[str, Any]:
    said = yard.run("todo", "--json", *words)
    assert (said.status, said.err) == (0, "")
    return json.loads(said.out)


def test_the_keys_for_programs_are_all_there(yard: Yard) -> None:
    found = view(yard)

    assert found["build"] == "Heron"
    assert set(found["hold_point"]) == {"slug", "title", "state", "zone", "booked", "days"}
    assert set(found["open"][0]) >= {
        "check", "subject", "bay", "class", "how", "text", "limit", "missed", "basis",
    }  # fmt: skip
    assert {"blockers", "shortages", "hours_left"} <= set(found)


def test_the_counts_add_up_and_the_open_list_is_open_and_bad(yard: Yard) -> None:
    yard.saved("check", "hole-lined", "--at", "H1", "--bad")
    yard.saved("check", "bay-photo", "--at", "B1", "--waive", "flat battery")
    yard.saved("check", "lead-length", "--at", "L4", "--na", "spare")
    yard.saved("check", "label-both-ends", "--at", "L1", "--good")

    points = view(yard)["points"]

    assert points == {"total": 20, "good": 1, "bad": 1, "waived": 1, "na": 1, "open": 16}
    assert len(view(yard)["open"]) == points["open"] + points["bad"]


def test_open_checks_are_grouped_with_ranges_of_subjects(yard: Yard) -> None:
    out = yard.run("todo").out

    assert "label-both-ends  look  L1-L4 (4)" in out
    assert "if missed: What happens without label-both-ends" in out
    assert "limit: at least 0.35 m (from 0.3 with a second name and a reason)" in out


def test_a_bay_shows_its_own_points_alone(yard: Yard) -> None:
    assert view(yard, "--bay", "B3")["points"]["total"] == 6
    assert "6 answers in bay B3" in yard.run("todo", "--bay", "B3").out


def test_bay_by_bay_goes_in_walking_order_and_ends_with_the_vehicle(yard: Yard) -> None:
    out = yard.run("todo", "--by-bay").out

    heads = [line for line in out.splitlines() if line.startswith(("Bay ", "In no bay"))]
    assert heads == [
        "Bay B1 (9)",
        "Bay B2 (4)",
        "Bay B3 (6)",
        "In no bay, or the whole vehicle (1)",
    ]


def test_many_checks_are_folded_to_a_line_each(yard: Yard) -> None:
    from tests.cli.yard import check

    yard.do(
        lambda session: [
            item.add("check", f"extra-{number}", check("x", "bay", "look")["fields"])
            for number in range(12)
        ]
    )

    out = yard.run("todo").out

    assert "  extra-11         look     B1-B3 (3)" in out
    assert "if missed" not in out
    assert "if missed" in yard.run("todo", "--full").out


def test_a_bad_answer_is_shown_with_who_found_it_and_why(yard: Yard) -> None:
    yard.saved("check", "hole-lined", "--at", "H1", "--bad", "--note", "no grommet")

    out = yard.run("todo").out

    assert "hole-lined on H1: bad by Ida on" in out
    assert "no grommet" in out


def test_waivers_stand_before_what_is_open(yard: Yard) -> None:
    yard.saved("check", "hole-lined", "--at", "H1", "--waive", "blind hole", "--second", "Ola")

    out = yard.run("todo").out

    assert "hole-lined on H1: blind hole (waived by Ida" in out
    assert out.index("Waived (1)") < out.index("Open and holding")


def test_blockers_shortages_and_unknown_fields_say_what_they_stop(yard: Yard) -> None:
    def scene(session: Any) -> list[Any]:
        part = item.add("part", "spool", {"unit": "m", "needed": 40.0, "stops": ["task:foam/mask"]})
        fields = {"title": "crew ill", "kind": "person", "stops": [HOLD], "owes": "Ola"}
        return [part, item.add("blocker", "crew", fields)]

    yard.do(scene)
    part = yard.session.names.find("spool").id
    yard.do(
        lambda session: [
            {"f": "stock.counted", "part": part, "place": "shelf", "count": 12.0},
            {"f": "stock.ordered", "part": part, "quantity": 10.0, "due": "2027-03-04"},
        ]
    )

    out = " ".join(yard.run("todo").out.split())

    assert (
        "spool: 12 m here of 40 m needed, 28 m missing, 10 m on order due 2027-03-04, at shelf; "
        "stops mask" in out
    )
    assert (
        "crew: crew ill (person); stops pre-foam; next step: Ola; stands against this release"
        in out
    )
    assert "run L1-L4 (4): from, to, load_a, gauge, length_m, protection_a" in out


def test_a_lapsed_release_says_why(yard: Yard) -> None:
    yard.all_good("port")
    yard.saved("release", "pre-foam", "--zone", "port", "--second", "Ola")
    yard.do(lambda session: [{"f": "condition.logged", "rain": True}])

    out = yard.run("todo", "--zone", "port").out

    assert "pre-foam, port is lapsed" in out
    assert "shell-dry on port is out of date: rain recorded" in out


def test_the_booked_day_and_the_days_to_it_are_said(yard: Yard) -> None:
    from datetime import timedelta

    day = (yard.session.now() + timedelta(16)).date().isoformat()
    yard.saved("book", "pre-foam", day)

    assert f"booked for {day}, in 16 days" in yard.run("todo").out
    assert view(yard)["hold_point"]["days"] == 16


def test_the_page_fits_eighty_columns_and_uses_no_control_signs(yard: Yard) -> None:
    yard.do(lambda session: [item.add("run", "L5", {"from": "x" * 70 + " \033[31m red " * 9})])
    yard.saved("check", "hole-lined", "--at", "H1", "--bad", "--note", "long words " * 30)

    for words in ((), ("--full",), ("--by-bay",), ("--bay", "B1")):
        out = yard.run("todo", *words).out
        assert max(map(len, out.splitlines())) <= 80
        assert "\033" not in out


@pytest.mark.parametrize("words", [("nowhere",), ("--zone", "nowhere"), ("--bay", "B99")])
def test_an_unknown_name_is_refused_with_those_there_are(
    yard: Yard, words: tuple[str, ...]
) -> None:
    assert "is called" in yard.refused("todo", *words)


def test_the_gate_is_shut_until_it_is_ready_and_open_after(yard: Yard) -> None:
    gate = ("todo", "--gate", "--zone", "port")
    before = yard.run(*gate)
    yard.all_good("port")
    ready = yard.run(*gate)
    yard.saved("release", "pre-foam", "--zone", "port", "--second", "Ola")
    released = yard.run(*gate)
    yard.saved("close", "pre-foam", "--zone", "port")
    closed = yard.run(*gate)
    yard.saved("close", "pre-foam", "--zone", "port", "--reopen", "cut out")
    reopened = yard.run(*gate)

    assert [said.status for said in (before, ready, released, closed, reopened)] == [1, 0, 0, 0, 1]
    assert before.err == ""


def test_light_shows_what_stops_a_release_and_counts_what_it_does_not_show(yard: Yard) -> None:
    every = view(yard)
    yard.saved("check", "label-read", "--at", "L1", "--bad")

    light = view(yard, "--light")

    assert every["light"] == {"on": False, "not_shown": {}, "open": 0}
    assert light["light"] == {"on": True, "not_shown": {"surveillance": 3, "witness": 3}, "open": 6}
    assert light["points"]["total"] == every["points"]["total"] - 6
    assert {row["class"] for row in light["open"] if row["state"] != "bad"} == {"hold"}
    assert [row["check"] for row in light["open"] if row["state"] == "bad"] == ["label-read"]
    out = " ".join(yard.run("todo", "--light").out.split())
    assert "6 others not shown (3 surveillance, 3 witness), 6 of them open; --all shows them" in out
    assert "can't go together" in yard.refused("todo", "--light", "--all")


def test_a_build_may_keep_to_light_mode_and_loses_nothing(yard: Yard) -> None:
    yard.saved("item", "change", "vehicle", "light=yes")

    assert view(yard)["light"]["on"]
    assert view(yard)["points"]["total"] < view(yard, "--all")["points"]["total"]
    assert "bay-photo" not in yard.run("todo").out
    assert "bay-photo" in yard.run("todo", "--all").out
    yard.saved("check", "bay-photo", "--at", "B1", "--good")
    assert view(yard, "--all")["points"]["good"] == 1


def test_decisions_that_press_are_shown_until_they_are_made(yard: Yard) -> None:
    yard.saved("item", "add", "decision", "stove", "title=Which stove", "last_day=2020-01-05")
    yard.saved("item", "add", "decision", "paint", "title=Which white", "last_day=2999-01-05")
    yard.saved(
        "item", "add", "decision", "bed", "title=Bed along or across",
        "stops=pre-foam", "options=along,across", "owes=Ola",
    )  # fmt: skip

    rows = view(yard)["decisions"]
    out = " ".join(yard.run("todo").out.split())

    assert [row["name"] for row in rows] == ["stove", "bed"]
    assert rows[0]["days"] < 0 and rows[1]["stops"] == ["pre-foam"]
    assert "stove: Which stove; last day 2020-01-05, " in out and " days over" in out
    assert "bed: Bed along or across; along or across; decides: Ola" in out
    yard.saved("item", "change", "stove", "chosen=diesel", "decided=2020-01-06")
    yard.saved("item", "change", "bed", "chosen=across")
    assert view(yard)["decisions"] == []
    assert "To be decided" not in yard.run("todo").out


def test_an_order_whose_day_is_past_is_said_to_be_late(yard: Yard) -> None:
    yard.saved("item", "add", "part", "clips", "needed=10")
    yard.saved("part", "count", "clips", "0", "--at", "bin 1")
    yard.saved("part", "order", "clips", "10", "--due", "2020-01-02")

    assert "on order due 2020-01-02 and late" in " ".join(yard.run("todo").out.split())
