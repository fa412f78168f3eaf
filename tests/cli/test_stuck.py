from __future__ import annotations

import json
from datetime import datetime, timedelta

import pytest

from tests.cli.yard import Yard


def blockers(yard: Yard) -> list[dict]:
    return json.loads(yard.run("todo", "--json").out)["blockers"]


def test_a_blocker_is_raised_in_plain_words_and_cleared(yard: Yard) -> None:
    out = yard.saved(
        "stuck", "the", "rig", "has", "no", "date", "--kind", "person", "--owes", "Ola"
    )
    assert "closein unstuck stuck1" in out
    assert [row["text"] for row in blockers(yard)] == ["the rig has no date"]

    yard.saved("unstuck", "stuck1", "--lost", "3h", "--on", "yesterday")

    assert blockers(yard) == []
    cleared = yard.session.names.find("stuck1")
    day = (datetime.now().astimezone() - timedelta(1)).date().isoformat()
    assert (cleared.get("lost_h"), cleared.get("cleared")) == (3.0, day)


def test_a_blocker_of_the_hold_point_stands_in_its_way(yard: Yard) -> None:
    yard.saved("stuck", "no rig", "--kind", "vehicle", "--stops", "pre-foam", "spray")

    (row,) = blockers(yard)
    assert row["stops"] == ["pre-foam", "spray"] and row["stops_this"]
    yard.all_good()
    signed = ("--zone", "port", "--by", "Ida", "--second", "Ola")
    assert "while stuck1 stands" in yard.refused("release", "pre-foam", *signed)
    yard.saved("unstuck", "stuck1")
    yard.saved("release", "pre-foam", *signed)


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("stuck",), "TEXT is missing"),
        (("stuck", "x", "--kind", "wether"), "did you mean weather?"),
        (("stuck", "x", "--stops", "sprya"), "did you mean spray?"),
        (("stuck", "x", "--expected", "2030-02-30"), "expected is a date"),
        (("unstuck", "stuck9"), "no blocker is called 'stuck9'"),
        (("unstuck", "stuck9", "--on", "2999-01-01"), "ahead of today"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    yard: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in yard.refused(*words)
