from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.yard import Yard
from tracker.act import short_id


def test_the_newest_act_is_undone_and_brought_back(yard: Yard) -> None:
    yard.saved("check", "gas-tight", "--good")
    name = short_id(yard.session.build.acts[-1].id)

    undone = yard.saved("undo")
    after = yard.run("check", "gas-tight").out
    back = yard.saved("redo")

    assert f"undid {name}: gas-tight on the vehicle: good" in undone
    assert "open (1): vehicle" in after
    assert f"brought back {name}: gas-tight on the vehicle: good" in back
    assert "good (1): vehicle" in yard.run("check", "gas-tight").out


def test_an_act_is_undone_by_its_name(yard: Yard) -> None:
    yard.saved("check", "gas-tight", "--good")
    name = short_id(yard.session.build.acts[-1].id)
    yard.saved("check", "shell-dry", "--at", "port", "--good")

    said = json.loads(yard.run("undo", name, "--json").out)

    assert said["saved"] == f"undid {name}: gas-tight on the vehicle: good"
    assert "undone already" in yard.refused("undo", name)


def test_what_others_were_built_on_is_undone_only_with_them(yard: Yard) -> None:
    runs = short_id(yard.session.build.acts[3].id)
    yard.saved("check", "label", "--at", "L1", "--good")

    assert "rest on" in yard.refused("undo", runs)
    assert "undid" in yard.saved("undo", runs, "--with")
    assert "no run is called 'L1'" in yard.refused("check", "label", "--at", "L1", "--good")


def test_a_waiver_is_not_undone_but_taken_back_with_a_reason(yard: Yard) -> None:
    yard.saved("check", "bay-photo", "--at", "B1", "--waive", "flat battery")

    assert "stays in the record" in yard.refused("undo")


def test_nothing_to_bring_back_is_refused(yard: Yard) -> None:
    assert "nothing to bring back" in yard.refused("redo")
    assert "no act is called 'nope'" in yard.refused("redo", "nope")


def test_a_data_folder_that_keeps_nothing_is_said_so(
    yard: Yard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    monkeypatch.setenv("CLOSEIN_DATA", str(tmp_path / "file" / "data"))

    said = yard.run("note", "a cold morning")

    assert (said.status, said.out[:6]) == (0, "saved ")
    assert "nothing can be remembered in" in said.err and said.err.count("\n") == 1
