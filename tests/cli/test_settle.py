from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.cli.yard import Yard
from tracker.app.session import Session
from tracker.build import item, marking


@pytest.fixture
def two_copies(yard: Yard, tmp_path: Path) -> Yard:
    """Two people worked on copies apart, then the copies were put together."""
    yard.do(lambda s: [item.change(s.names.find("L1"), {"length_m": 5.0})])
    yard.saved("check", "gas-tight", "--good")
    other = tmp_path / "copy"
    shutil.copytree(yard.folder, other)
    theirs = Session(other, data=tmp_path / "their-data", user="Ola")
    theirs.do(lambda build: [item.change(theirs.names.find("L1"), {"length_m": 5.5})])
    check, vehicle = theirs.names.find("gas-tight"), theirs.build.items["vehicle"]
    theirs.do(
        lambda build: marking.mark(theirs.cover, check, [vehicle], "bad", by="Ola", why="hisses")
    )
    yard.do(lambda s: [item.change(s.names.find("L1"), {"length_m": 6.2})])
    yard.saved("check", "gas-tight", "--good", "--note", "gauge stood still")
    for file in (other / "journal").glob("*.log"):
        if not (yard.folder / "journal" / file.name).exists():
            shutil.copy(file, yard.folder / "journal")
    return yard


def test_nothing_in_conflict_is_said_so(yard: Yard) -> None:
    assert yard.run("settle").out == "nothing is in conflict\n"


def test_conflicts_are_listed_with_who_said_what(two_copies: Yard) -> None:
    rows = json.loads(two_copies.run("settle", "--json").out)
    out = two_copies.run("settle").out

    assert [value["by"] for value in rows[0]["values"]] == ["Ola", "Ida"]
    assert "length_m of L1: 5.5 m or 6.2 m" in out
    assert "gas-tight on the vehicle: bad by Ola or good by Ida" in out


def test_the_page_shows_both_until_they_are_settled(two_copies: Yard) -> None:
    out = " ".join(two_copies.run("todo").out.split())

    assert "gas-tight on vehicle: bad by Ola against good by Ida" in out
    assert "L1: length_m is 5.5 or 6.2; 'closein settle L1 length_m VALUE'" in out


@pytest.mark.parametrize(
    "words", [("L1", "length", "6.2m"), ("L1", "length_m", "6.2 m"), ("L1", "6.2m")]
)
def test_a_field_takes_the_value_that_is_chosen(two_copies: Yard, words: tuple[str, ...]) -> None:
    assert "L1: length 6.2 m" in two_copies.saved("settle", *words)

    run = two_copies.session.names.find("L1")
    assert (run.get("length_m"), run.rivals) == (6.2, {})


def test_a_check_is_settled_by_answering_it_again(two_copies: Yard) -> None:
    out = two_copies.saved("settle", "gas-tight", "--bad", "--note", "hisses indeed")

    assert "gas-tight on the vehicle: bad" in out
    assert two_copies.run("settle").out.count("gas-tight") == 0


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("L1",), "length_m is 5.5 m or 6.2 m; say which"),
        (("L2", "length", "3m"), "L2 has no field in conflict"),
        (("L1", "gauge", "14AWG"), "no field in conflict is called 'gauge'"),
        (("L1", "length", "long"), "length_m: 'long' can't be read"),
        (("L1", "length", "6.2", "m"), "put a value of several words in quotes"),
        (("L1", "length", "--good"), "settled by an answer alone"),
        (("label", "--at", "L1", "--good"), "label-both-ends on L1 is not in conflict"),
        (("gas-tigth", "--good"), "did you mean gas-tight?"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    two_copies: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in two_copies.refused("settle", *words)
