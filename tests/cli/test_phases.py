from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.yard import Yard
from tracker.templates.load import shipped
from tracker.templates.shipped import example, path_of


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


def own_sauna(folder: Path, text: str | None = None) -> Path:
    """The example as a template of one's own in a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "sauna.toml"
    path.write_text(example() if text is None else text, "utf-8")
    return path


def test_own_templates_are_listed_with_where_they_come_from(
    yard: Yard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLOSEIN_CONFIG", str(tmp_path / "config"))
    own_sauna(tmp_path / "config" / "phases")
    deck = path_of("deck").read_text("utf-8")
    (yard.folder / "phases").mkdir()
    (yard.folder / "phases" / "deck.toml").write_text(deck, "utf-8")
    (yard.folder / "phases" / "porch.toml").write_text("[phase]\n", "utf-8")

    rows = {row["name"]: row for row in json.loads(yard.run("phases", "--json").out)}

    assert rows["sauna"]["from"] == "yours"
    assert (rows["deck"]["from"], rows["deck"]["in_place_of"]) == ("this build", ["shipped"])
    assert rows["framing"]["from"] == "shipped"
    assert "porch.toml" in rows["porch"]["fault"]
    out = " ".join(yard.run("phases").out.split())
    assert "can't be taken up: " in out and "goes before the one from: shipped" in out
    assert "porch.toml" in yard.refused("phases", "adopt", "porch")
    assert "sauna: Sauna corner, 2 tasks" in yard.saved("phases", "adopt", "sauna")


def test_a_changed_template_changes_no_build_until_it_is_taken(yard: Yard) -> None:
    own_sauna(yard.folder / "phases")
    yard.saved("phases", "adopt", "sauna")
    yard.saved("item", "change", "pre-cedar", "valid_h=12h")
    before = yard.session.build.items["task:sauna/board-walls"].fields
    text = example().replace("edition = 1 ", "edition = 2 ").replace("crew = 2\n", "crew = 3\n")
    text = text.replace("valid_h = 72 ", "valid_h = 24 ")
    own_sauna(yard.folder / "phases", text.replace('"foil-joints"', '"foil-taped"'))

    again = yard.run("phases", "adopt", "sauna").out
    assert "nothing new, nothing written" in again and "closein phases diff sauna" in again
    assert yard.session.build.items["task:sauna/board-walls"].fields == before

    out = yard.run("phases", "diff").out
    assert "sauna: edition 1 here, 2 in the template (this build)" in out
    assert "  + check foil-taped: Every joint of the foil is taped and none is torn." in out
    assert "  ~ task board-walls: crew 2 -> 3" in out
    assert "  = hold point pre-cedar: valid_h stays 12, set by hand; the template has 24" in out
    assert "  - check foil-joints: no more in the template; it stays here" in out

    said = yard.saved("phases", "adopt", "sauna", "--newer")
    assert "sauna: 1 items added, 2 fields changed, 1 fields set by hand kept" in said
    items = yard.session.build.items
    assert items["task:sauna/board-walls"].fields["crew"] == 3
    assert items["hold:sauna/pre-cedar"].fields["valid_h"] == 12.0
    assert "nothing written" in yard.run("phases", "adopt", "sauna", "--newer").out


def test_answers_to_an_older_wording_are_pointed_at(yard: Yard) -> None:
    own_sauna(yard.folder / "phases")
    yard.saved("phases", "adopt", "sauna")
    yard.saved("check", "foil-joints", "--good")
    text = example().replace("Every joint of the foil is taped", "Every joint is taped twice")
    own_sauna(yard.folder / "phases", text)

    out = " ".join(yard.run("phases", "diff", "sauna").out.split())

    assert "it has 1 answers already: look whether they still hold" in out


def test_what_was_never_taken_up_has_no_newer_one(yard: Yard) -> None:
    assert "deck is not in this build" in yard.refused("phases", "diff", "deck")
    assert "without --newer" in yard.refused("phases", "adopt", "deck", "--newer")


def test_the_example_is_printed_and_in_order(yard: Yard, tmp_path: Path) -> None:
    path = own_sauna(tmp_path / "mine", yard.anywhere("phases", "example").out)

    assert "in order; Sauna corner" in yard.anywhere("phases", "check", str(path)).out
