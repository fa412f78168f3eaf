from __future__ import annotations

import json
from typing import Any

from tests.cli.yard import Yard


def acts(yard: Yard, *words: str) -> list[dict[str, Any]]:
    said = yard.run("log", "--json", *words)
    assert (said.status, said.err) == (0, "")
    return [act for day in json.loads(said.out)["days"] for act in day["acts"]]


def test_days_come_in_order_of_what_happened_not_of_what_was_typed(yard: Yard) -> None:
    yard.saved("check", "gas-tight", "--good", "--when", "2026-01-02 16:00")

    out = yard.run("log").out

    assert out.startswith("2026-01-02\n  16:00  ")
    assert "(typed 20" in out


def test_what_was_undone_is_marked(yard: Yard) -> None:
    yard.saved("check", "gas-tight", "--good")
    yard.saved("undo")

    lines = yard.run("log").out.splitlines()

    assert lines[-2].startswith("x ") and lines[-2].endswith("good [undone]")
    assert "undid" in lines[-1]
    assert [act["undone"] for act in acts(yard)][-2:] == [True, False]


def test_a_person_is_found_as_typist_finder_or_second(yard: Yard) -> None:
    yard.saved("check", "read", "--at", "L1", "--good", "--second", "Ola")
    yard.saved("check", "gas-tight", "--good", "--by", "Per")

    assert [act["words"][0][:10] for act in acts(yard, "--person", "ola")] == ["label-read"]
    assert [act["words"][0][:9] for act in acts(yard, "--person", "Per")] == ["gas-tight"]


def test_a_phase_shows_its_own_checks_and_tasks(yard: Yard) -> None:
    yard.saved("done", "mask")
    yard.do(lambda session: [{"f": "note.written", "text": "rain all day"}])

    words = [act["words"][0] for act in acts(yard, "--phase", "foam")]

    assert words == ["adopted the phase foam: 2 tasks, 7 checks, 1 hold point", "mask done"]


def test_a_text_is_looked_for_in_any_case(yard: Yard) -> None:
    yard.do(lambda session: [{"f": "note.written", "text": "Rain all day"}])

    assert [act["words"] for act in acts(yard, "--text", "rain ALL")] == [["note: Rain all day"]]


def test_only_what_happened_since_a_day_is_shown(yard: Yard) -> None:
    yard.saved("check", "gas-tight", "--good", "--when", "2026-01-02 16:00")

    assert len(acts(yard, "--since", "2026-01-02")) == 6
    assert len(acts(yard, "--since", "2026-01-03")) == 5


def test_nothing_that_fits_is_said_so(yard: Yard) -> None:
    assert yard.run("log", "--text", "zebra").out == "nothing of that kind happened\n"


def test_a_long_act_is_cut_short_on_the_page_alone(yard: Yard) -> None:
    from tracker.build import item

    yard.do(
        lambda session: (
            [
                item.change(session.names.find(name), {"route": f"way {name}"})
                for name in ("L1", "L2", "L3", "L4")
            ]
            + [{"f": "note.written", "text": f"line {number}"} for number in range(6)]
        )
    )

    assert "and 4 more" in yard.run("log").out
    assert len(acts(yard)[-1]["words"]) == 10


def test_what_people_wrote_can_steer_no_terminal(yard: Yard) -> None:
    yard.do(lambda session: [{"f": "note.written", "text": "\033[31mred\nnext\r[bold]line[/]"}])

    out = yard.run("log").out

    assert "\033" not in out and "\r" not in out
    assert "[31mred next[bold]line[/]" in out


def test_an_unknown_phase_or_day_is_refused(yard: Yard) -> None:
    assert "no phase is called 'foma'; did you mean foam?" in yard.refused("log", "--phase", "foma")
    assert "is no day" in yard.refused("log", "--since", "soon")
