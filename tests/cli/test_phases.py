from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.yard import Yard
from tracker.templates.load import shipped
from tracker.templates.shipped import path_of


def test_the_list_needs_no_build_and_names_every_phase(
    yard: Yard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLOSEIN_DATA", str(tmp_path / "nothing-opened"))
    rows = json.loads(yard.anywhere("phases", "--json").out)

    assert [row["name"] for row in rows] == list(shipped())
    assert not any(row["adopted"] for row in rows)
    said = yard.anywhere("phases")
    assert said.status == 0
    assert "pre-foam" in said.out and all(len(line) <= 80 for line in said.out.splitlines())


def test_phases_are_taken_up_one_act_each_and_only_once(yard: Yard) -> None:
    out = yard.saved("phases", "adopt", "framing", "insulation")
    assert out.count("saved ") == 2
    assert "it comes after strip-out" in out and "rough-in-wiring" in out
    acts = len(yard.session.build.acts)

    said = yard.run("phases", "adopt", "framing", "insulation")

    assert (said.status, said.err) == (0, "")
    assert said.out.count("nothing new, nothing written") == 2
    assert len(yard.session.build.acts) == acts
    rows = json.loads(yard.run("phases", "--json").out)
    assert {row["name"] for row in rows if row["adopted"]} == {"framing", "insulation"}


def test_what_was_taken_up_is_told_to_programs(yard: Yard) -> None:
    first = json.loads(yard.run("phases", "adopt", "framing", "--json").out)
    both = json.loads(yard.run("phases", "adopt", "framing", "deck", "--json").out)

    assert first["id"] == yard.session.build.acts[-2].id
    assert [row["id"] is None for row in both] == [True, False]


def test_an_unknown_phase_takes_up_none(yard: Yard) -> None:
    assert "did you mean insulation?" in yard.refused("phases", "adopt", "deck", "insulatoin")


def test_a_template_is_checked_and_its_fault_named_with_its_line(
    yard: Yard, tmp_path: Path
) -> None:
    own = tmp_path / "framing.toml"
    text = path_of("framing").read_text("utf-8")
    own.write_text(text, "utf-8")
    assert f"{own}: in order; " in yard.anywhere("phases", "check", str(own)).out

    number = next(i for i, line in enumerate(text.splitlines(), 1) if line.startswith("class = "))
    lines = text.splitlines()
    lines[number - 1] = 'class = "wittness"'
    own.write_text("\n".join(lines), "utf-8")
    said = yard.anywhere("phases", "check", str(own))

    assert (said.status, said.out) == (2, "")
    assert said.err.startswith(f"closein: {own}:{number}: ")
    assert "did you mean witness?" in said.err
    assert "there is no file" in yard.anywhere("phases", "check", "nowhere.toml").err
