"""Taking up phases."""

from __future__ import annotations

from pathlib import Path

import pytest

from tracker.app.session import Session
from tracker.app.views.templates import templates_view
from tracker.app.wants import phases
from tracker.errors import BadInput, UnknownName
from tracker.templates.load import shipped
from tracker.templates.shipped import path_of


def test_a_phase_is_one_act_with_all_its_items(bare: Session) -> None:
    act = bare.do(phases.adopt(["framing"]))

    phase = phases.template("framing")
    assert len(act.facts) == 1
    for kind, rows in (("task", phase.tasks), ("check", phase.checks)):
        assert {item.slug for item in bare.cover.by_kind[kind]} == {row.key for row in rows}


def test_taking_a_phase_up_again_gives_nothing_new(bare: Session) -> None:
    bare.do(phases.adopt(["framing"]))

    assert list(phases.adopt(["framing"])(bare.build)) == []
    assert phases.news(bare.build, phases.template("framing")) is None


def test_phases_that_come_before_are_told_not_forced(bare: Session) -> None:
    phase = phases.template("insulation")
    assert "rough-in-wiring" in phases.comes_after(bare.build, phase)

    bare.do(phases.adopt(["rough-in-wiring", "insulation"]))

    assert "rough-in-wiring" not in phases.comes_after(bare.build, phase)


def test_an_unknown_phase_is_an_error_before_anything_is_taken_up(bare: Session) -> None:
    with pytest.raises(UnknownName, match="did you mean framing"):
        phases.adopt(["deck", "framin"])
    with pytest.raises(BadInput, match="no file"):
        phases.adopt(["nowhere/x.toml"])


def test_a_template_of_ones_own_is_taken_up_by_its_path(bare: Session, tmp_path: Path) -> None:
    own = tmp_path / "framing.toml"
    own.write_text(path_of("framing").read_text("utf-8"), "utf-8")

    bare.do(phases.adopt([str(own)]))

    assert "phase:framing" in bare.build.items


def test_the_list_says_which_phases_are_taken_up_and_how_much_is_in_them(bare: Session) -> None:
    bare.do(phases.adopt(["framing"]))
    rows = {row["name"]: row for row in templates_view(bare.build)}

    assert tuple(rows) == shipped()
    assert rows["framing"]["adopted"] and not rows["deck"]["adopted"]
    assert rows["insulation"]["hold_points"][0] == "pre-foam"
    assert rows["framing"]["tasks"] == len(phases.template("framing").tasks)
