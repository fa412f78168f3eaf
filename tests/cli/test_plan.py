from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from tests.cli.yard import Yard


def editor(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, old: str, new: str) -> None:
    """An editor that puts one text in the place of another."""
    script = tmp_path / "editor.py"
    script.write_text(
        "import sys, pathlib\np = pathlib.Path(sys.argv[1])\n"
        f"p.write_text(p.read_text('utf-8').replace({old!r}, {new!r}), 'utf-8')\n",
        "utf-8",
    )
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.setenv("EDITOR", f"{sys.executable} {script}")


def test_out_and_in_again_writes_nothing(yard: Yard, tmp_path: Path) -> None:
    plan = tmp_path / "plan.toml"
    assert yard.run("plan", "export", str(plan)).status == 0
    before = yard.files()

    said = yard.run("plan", "import", str(plan))

    assert (said.status, said.out) == (0, "nothing differs, so nothing was written\n")
    assert yard.files() == before
    assert yard.run("plan", "export").out == plan.read_text("utf-8")
    assert "--force" in yard.refused("plan", "export", str(plan))


def test_thirty_runs_and_thirty_holes_are_one_act(yard: Yard, tmp_path: Path) -> None:
    plan = tmp_path / "plan.toml"
    plan.write_text(
        "".join(
            f'[[run]]\nname = "R{n}"\nbay = "B{n % 3 + 1}"\nlength = "{n} ft"\n'
            f'[[hole]]\nname = "P{n}"\ncarries = ["R{n}"]\n'
            for n in range(1, 31)
        ),
        "utf-8",
    )
    acts = len(yard.session.build.acts)

    out = yard.saved("plan", "import", str(plan))

    assert "the plan: 60 added" in out
    assert len(yard.session.build.acts) == acts + 1
    yard.saved("undo")
    assert "R7" not in yard.session.names.by_kind["run"]


def test_a_fault_names_its_line_and_nothing_is_taken(yard: Yard, tmp_path: Path) -> None:
    plan = tmp_path / "plan.toml"
    plan.write_text('[[run]]\nname = "R1"\n[[run]]\nname = "R2"\nlenght = 3\n', "utf-8")

    refused = yard.refused("plan", "import", str(plan))
    assert refused.startswith(f"{plan}:5: ") and "did you mean" in refused
    assert "can't be read" in yard.refused("plan", "import", "nowhere.toml")
    plan.write_bytes(b"\xff\xfe")
    assert "not UTF-8" in yard.refused("plan", "import", str(plan))


def test_a_full_disk_leaves_the_plan_that_was_there(
    yard: Yard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = tmp_path / "plan.toml"
    kept.write_text("mine", "utf-8")
    write = Path.write_text

    def full(path: Path, *words: str) -> int:
        write(path, "")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_text", full)
    for name in ("plan.toml", "new.toml"):
        said = yard.run("plan", "export", str(tmp_path / name), "--force")
        assert (said.status, "No space left" in said.err) == (3, True)

    assert kept.read_text("utf-8") == "mine"
    assert {each.name for each in tmp_path.glob("*.toml*")} == {"plan.toml"}
    assert not list(tmp_path.glob(".*.new"))


def test_an_edit_shows_the_difference_and_is_one_act(
    yard: Yard, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    editor(monkeypatch, tmp_path, 'name = "L1"', 'name = "L1"\nto = "lamp"')
    saved = json.loads(yard.run("plan", "edit", "--json").out)

    assert saved["changes"] == ["~ wire run L1: to unknown -> lamp"]
    assert yard.session.names.find("L1").get("to") == "lamp"
    assert list((tmp_path / "data" / "edits").iterdir()) == []


def test_a_faulty_edit_writes_nothing_and_keeps_the_text_for_another_try(
    yard: Yard, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    editor(monkeypatch, tmp_path, 'name = "L1"', 'name = "L1"\ntoo = "lamp"')
    refused = yard.refused("plan", "edit")
    (kept,) = (tmp_path / "data" / "edits").glob("*.toml")
    assert str(kept) in refused and "nothing was written" in refused
    assert 'too = "lamp"' in kept.read_text("utf-8")
    assert "--again" in yard.refused("plan", "edit")

    editor(monkeypatch, tmp_path, "too =", "to =")
    yard.saved("plan", "edit", "--again")

    assert yard.session.names.find("L1").get("to") == "lamp"
    assert not kept.exists()


def test_a_fault_on_a_terminal_offers_to_edit_again(
    yard: Yard, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    editor(monkeypatch, tmp_path, 'name = "L1"\n', 'name = "L1"\ntoo = "lamp"\n')
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    asked: list[str] = []

    def answer(question: str) -> str:
        asked.append(question)
        editor(monkeypatch, tmp_path, "too =", "to =")
        return "y"

    monkeypatch.setattr("builtins.input", answer)

    assert yard.run("plan", "edit").status == 0
    assert asked == ["edit again? [Y/n] "]
    assert yard.session.names.find("L1").get("to") == "lamp"


def test_an_editor_that_fails_leaves_nothing_behind(
    yard: Yard, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.setenv("EDITOR", str(tmp_path / "no-such-editor"))

    assert "set EDITOR" in yard.refused("plan", "edit")
    assert list((tmp_path / "data" / "edits").iterdir()) == []


def test_what_others_did_while_the_editor_was_open_stays(
    yard: Yard, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    editor(monkeypatch, tmp_path, 'name = "L1"', 'name = "L1"\nto = "lamp"')
    from tracker.cli import plan

    opened = plan._open_editor

    def and_meanwhile(path: Path) -> None:
        opened(path)
        yard.saved("item", "change", "L2", "bay=B3")

    monkeypatch.setattr(plan, "_open_editor", and_meanwhile)
    yard.run("plan", "edit")

    names = yard.session.names
    assert names.find("L1").get("to") == "lamp"
    assert names.find("L2").get("bay") == [names.find("B3").id]
