from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.yard import Yard
from tracker.app.session import Session
from tracker.build.item import VEHICLE


def test_a_build_begins_with_nothing_but_a_folder(yard: Yard, tmp_path: Path) -> None:
    said = yard.anywhere("start", str(tmp_path / "wagtail"))
    session = Session(tmp_path / "wagtail")

    assert (said.status, said.err) == (0, "")
    assert said.out.startswith("saved ") and "closein phases adopt" in said.out
    assert session.marked.name == "wagtail"
    assert [fact["f"] for act in session.build.acts for fact in act.facts] == ["item.added"]
    assert session.build.items[VEHICLE].fields == {}


def test_what_is_known_of_the_vehicle_is_taken_in_any_unit(yard: Yard, tmp_path: Path) -> None:
    folder = tmp_path / "wagtail"
    words = ("--name", "The Wagtail", "--body", "box body", "--length", "25 ft", "--furring", "1in")
    said = yard.anywhere("start", str(folder), *words, "--datum", "front bulkhead", "--json")

    session = Session(folder)
    saved = json.loads(said.out)
    assert saved["id"] == session.build.acts[0].id
    assert saved["folder"] == str(folder)
    assert session.marked.name == "The Wagtail"
    assert session.build.items[VEHICLE].fields == {
        "body": "box body",
        "length_m": pytest.approx(7.62),
        "furring_m": 0.0254,
        "datum": "front bulkhead",
    }


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("--length", "7.6"), "needs a unit"),
        (("--length", "76 m"), "outside 1 to 20 m"),
        (("--body", "boat"), "body can't be 'boat'"),
        (("--lenght", "7m"), "did you mean --length"),
        (("--name", " "), "needs a name"),
    ],
)
def test_wrong_input_makes_no_folder(
    yard: Yard, tmp_path: Path, words: tuple[str, ...], why: str
) -> None:
    said = yard.anywhere("start", str(tmp_path / "wagtail"), *words)

    assert said.status == 2 and why in said.err
    assert not (tmp_path / "wagtail").exists()


def test_no_build_begins_inside_another(yard: Yard) -> None:
    before = yard.files()

    for folder in (yard.folder, yard.folder / "photos", yard.folder / "new"):
        assert "build already" in yard.anywhere("start", str(folder)).err
    assert yard.files() == before
    assert "names its folder itself" in yard.run("start").err


def test_a_folder_whose_first_act_was_never_saved_is_begun_again(
    yard: Yard, tmp_path: Path
) -> None:
    folder = tmp_path / "wagtail"
    yard.anywhere("start", str(folder), "--name", "The Wagtail")
    for file in (folder / "journal").iterdir():
        file.unlink()

    assert yard.anywhere("start", str(folder), "--length", "6m").status == 0
    session = Session(folder)
    assert session.marked.name == "The Wagtail"
    assert session.build.items[VEHICLE].get("length_m") == 6.0


def test_control_signs_in_a_folders_name_do_not_reach_the_terminal(
    yard: Yard, tmp_path: Path
) -> None:
    said = yard.anywhere("start", str(tmp_path / "wag\ntail"))

    assert "the build 'wagtail' begins in" in said.out.splitlines()[0]
    assert said.out.splitlines()[0].endswith("wagtail")
