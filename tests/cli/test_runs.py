"""``closein runs``: the wire schedule worked out again."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.cli.yard import Yard

GOOD = ("gauge=2.5mm2", "length=4m", "load=3A", "volts=12V", "protection=7.5A")


@pytest.fixture
def wired(yard: Yard) -> Yard:
    """Every run known and good."""
    for run in ("L1", "L2", "L3", "L4"):
        yard.saved("item", "change", run, *GOOD)
    return yard


def _row(yard: Yard, name: str) -> dict[str, Any]:
    rows = json.loads(yard.run("runs", "--json").out)["runs"]
    return next(row for row in rows if row["run"] == name)


def test_runs_that_are_good_pass_the_recheck(wired: Yard) -> None:
    said = wired.run("runs", "--recheck")

    assert said.status == 0
    assert "4 runs, no fail" in said.out


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ("length=40m", "voltage drop"),
        ("load=30A", "ampacity"),
        ("protection=30A", "protection (30 A, but the wire allows"),
        ("protection=2A", "protection (2 A, but the load needs 3 A)"),
        ("gauge=0.5mm2", "least size"),
        ("gauge=thick", "thick"),
    ],
)
def test_a_run_that_fails_is_shown_with_its_reason(wired: Yard, change: str, reason: str) -> None:
    wired.saved("item", "change", "L2", change)

    said = wired.run("runs", "--recheck")

    assert said.status == 1
    assert reason in " ".join(said.out.split())
    assert "L1 " not in said.out.split("Worked out")[0]
    assert wired.run("runs").status == 0


def test_the_schedule_for_programs_has_every_figure(wired: Yard) -> None:
    row = _row(wired, "L1")

    assert row["verdict"] == "ok"
    assert row["drop_percent"] == pytest.approx(100 * row["drop_v"] / 12)
    assert row["ampacity_a"] == pytest.approx(10.0)
    assert row["taken"]["in_foam"] is True


def test_recheck_for_programs_gives_those_that_fail(wired: Yard) -> None:
    wired.saved("item", "change", "L3", "protection=30A")

    said = wired.run("runs", "--recheck", "--json")

    assert said.status == 1
    found = json.loads(said.out)
    assert [row["run"] for row in found["runs"]] == ["L3"]
    assert (found["checked"], found["failing"]) == (4, 1)


def test_a_run_of_which_too_little_is_known_is_named_and_fails_nothing(wired: Yard) -> None:
    wired.saved("item", "change", "L4", "load=unknown")

    said = wired.run("runs", "--recheck")

    assert said.status == 0
    assert "of 1 too little is known: L4" in said.out
    assert _row(wired, "L4")["unknown"] == ["load_a"]


def test_what_can_be_told_of_a_run_half_known_is_told(wired: Yard) -> None:
    wired.saved("item", "change", "L4", "protection=unknown", "load=30A")

    assert _row(wired, "L4")["verdict"] == "fails"


def test_a_critical_run_may_drop_less(wired: Yard) -> None:
    wired.saved("item", "change", "L1", "length=9m")
    assert _row(wired, "L1")["verdict"] == "ok"

    wired.saved("item", "change", "L1", "critical=yes")

    assert _row(wired, "L1")["drop_allowed_percent"] == 3.0
    assert _row(wired, "L1")["verdict"] == "fails"


def test_a_wire_that_carries_signals_is_left_alone(wired: Yard) -> None:
    wired.saved("item", "change", "L1", "system=data", "length=100m")

    assert _row(wired, "L1")["verdict"] == "signal"


def test_a_run_keeps_what_it_was_sized_with(wired: Yard) -> None:
    wired.saved("item", "change", "L1", "load=14A", "length=1m")
    assert _row(wired, "L1")["verdict"] == "fails"

    wired.saved("size", "conductor", "--amps", "14A", "--one-way", "1m", "--volts", "12V",
                "--insulation", "105", "--in-foam", "--to", "L1")  # fmt: skip

    row = _row(wired, "L1")
    assert (row["taken"]["insulation"], row["verdict"]) == ("105", "ok")


def test_sized_for_the_open_a_buried_run_is_still_taken_as_in_foam(wired: Yard) -> None:
    wired.saved("size", "conductor", "--amps", "14A", "--one-way", "1m", "--volts", "12V",
                "--to", "L1")  # fmt: skip
    wired.saved("item", "change", "L1", "load=14A")

    assert _row(wired, "L1")["taken"]["in_foam"] is True


def test_a_record_that_another_program_wrote_breaks_nothing(wired: Yard) -> None:
    for record in ("text", {"helper": "conductor", "inputs": {"insulation": "hot"}},
                   {"helper": "conductor", "inputs": {"bundled": [3]}}, {"helper": 3}):  # fmt: skip
        wired.do(
            lambda session, record=record: [
                {"f": "item.set", "id": session.names.find("L1").id, "set": {"sized": record}}
            ]
        )
        assert wired.run("runs").status == 0
        assert wired.run("item", "show", "L1").status == 0


def test_without_runs_it_says_how_to_add_one(yard: Yard) -> None:
    for run in ("L1", "L2", "L3", "L4"):
        yard.saved("item", "remove", run, "--why", "not wanted")

    said = yard.run("runs", "--recheck")

    assert said.status == 0
    assert "closein item add run" in said.out


def test_a_drop_of_more_than_all_is_written_out(wired: Yard) -> None:
    wired.saved("item", "change", "L2", "gauge=0.75mm2", "length=29m", "load=7A")

    percent = _row(wired, "L2")["drop_percent"]
    assert percent > 100
    assert f" {percent:.0f}/" in wired.run("runs").out
