from __future__ import annotations

import io
import json

import pytest

from tests.cli.yard import Yard


def test_a_line_is_taken_for_what_it_is_and_said_back(yard: Yard) -> None:
    assert "label-both-ends on L1: good" in yard.saved("say", "1", "label", "ok")
    assert "lead-length on L2: 9in, bad" in yard.saved("say", "2 len 9in")
    assert "bay B1: " in yard.saved("say", "bay 1 ok but 2")
    assert "a note" in yard.saved("say", "the fan came bent")

    open_rows = json.loads(yard.run("todo", "--json").out)["open"]
    assert ("label-both-ends", "L1") not in {(row["check"], row["subject"]) for row in open_rows}


def test_what_can_not_be_placed_waits_and_is_sorted_later(yard: Yard) -> None:
    out = yard.saved("say", "99", "label", "ok")
    assert "kept in the inbox: no run is called '99'" in out
    (row,) = json.loads(yard.run("inbox", "--json").out)
    assert row["text"] == "99 label ok"
    assert "99 label ok" in yard.run("inbox").out

    assert "can't be placed either" in yard.refused(
        "inbox", "sort", row["ref"], "--into", "98 x ok"
    )
    assert "give one of --into, --note, --drop" in yard.refused("inbox", "sort", row["ref"])
    yard.saved("inbox", "sort", row["ref"], "--into", "1 label ok")

    assert yard.run("inbox").out == "the inbox is empty\n"
    assert "[as 1 label ok]" in yard.run("inbox", "--all").out
    assert "no waiting line" in yard.refused("inbox", "sort", row["ref"], "--drop")


def test_pasted_lines_are_one_act(yard: Yard, monkeypatch: pytest.MonkeyPatch) -> None:
    acts = len(yard.session.build.acts)
    monkeypatch.setattr("sys.stdin", io.StringIO("L1\tlabel\tok\nL2\tlen\t40cm\n99 label ok\n"))
    saved = json.loads(yard.run("say", "--json").out)

    assert len(yard.session.build.acts) == acts + 1
    assert saved["inbox"] == ["99 label ok"]
    assert len(saved["saved"].splitlines()) == 3


def test_nothing_said_is_refused(yard: Yard, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("\n"))

    assert "say something" in yard.refused("say")


def test_who_says_it_signs_it(yard: Yard) -> None:
    yard.saved("say", "1 label ok", "--by", "Ola")

    assert yard.session.build.acts[-1].facts[0]["by"] == "Ola"
