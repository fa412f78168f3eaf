"""``closein demo`` as it is typed."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

import tracker.tui
from tracker.app.session import Session
from tracker.cli.main import main


@pytest.fixture(autouse=True)
def own_data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """What is remembered lies in a folder of the test's own."""
    monkeypatch.setenv("CLOSEIN_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("CLOSEIN_NAME", "Ida")
    return tmp_path / "data"


def test_into_a_folder_it_makes_the_copy_and_says_what_to_try(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    into = tmp_path / "my heron"

    assert main(["demo", "--into", str(into)]) == 0

    said = capsys.readouterr().out
    assert "invented" in said
    assert f"closein --build '{into}' todo\n" in said
    assert all(len(line) <= 80 for line in said.replace(str(into), "").splitlines())


def test_every_command_it_says_to_try_works(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    main(["demo", "--into", "heron"])
    lines = [line.split()[1:] for line in capsys.readouterr().out.splitlines()[2:]]

    assert len(lines) >= 3
    for words in lines:
        if len(words) > 2:  # without a command it is the screen
            assert main(words) == 0
            assert capsys.readouterr().out


def test_todo_on_it_shows_the_hold_point_with_open_checks_blockers_and_shortages(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["demo", "--into", str(tmp_path / "heron")])
    capsys.readouterr()

    assert main(["--build", str(tmp_path / "heron"), "todo", "--json"]) == 0

    shown = json.loads(capsys.readouterr().out)
    assert shown["hold_point"]["slug"] == "pre-foam"
    assert shown["hold_point"]["days"] == 16
    assert shown["open"] and shown["blockers"] and shown["shortages"]
    assert shown["reservations"] == []


def test_for_programs_it_prints_the_new_id_each_time(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told = []
    for name in ("one", "two"):
        assert main(["demo", "--into", str(tmp_path / name), "--json"]) == 0
        told.append(json.loads(capsys.readouterr().out))

    assert told[0]["id"] != told[1]["id"]
    assert told[0]["acts"] == told[1]["acts"] > 100
    assert told[0]["folder"] == str(tmp_path / "one")


@pytest.mark.parametrize(
    "words",
    [
        ["demo"],
        ["demo", "--json"],
        ["demo", "--into", ""],
        ["demo", "--into", "full"],
        ["--build", "full", "demo", "--into", "new"],
    ],
)
def test_what_can_not_be_done_is_one_sentence_and_makes_nothing(
    words: list[str],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").write_text("mine")
    before = sorted(tmp_path.rglob("*"))

    assert main(words) == 2

    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("closein: ") and said.err.count("\n") == 1
    assert sorted(tmp_path.rglob("*")) == before


def test_without_a_folder_the_screen_opens_on_a_new_copy_each_time(
    own_data: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Session] = []

    def screen(session: Session) -> int:
        opened.append(session)
        return 0

    monkeypatch.setattr(tracker.tui, "run", screen)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)

    assert main(["demo"]) == main(["demo"]) == 0

    one, two = (session.folder for session in opened)
    assert one != two
    assert one.is_relative_to(own_data) and two.is_relative_to(own_data)
    assert opened[0].marked.id != opened[1].marked.id
    assert str(one) in capsys.readouterr().out


def test_making_a_copy_imports_nothing_of_the_screen(tmp_path: Path) -> None:
    code = (
        "import sys; from tracker.cli.main import main; "
        "main(['demo', '--into', sys.argv[1], '--json']); "
        "print(sorted({'textual', 'rich', 'asyncio'} & set(sys.modules)), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "heron")],
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stderr.strip() == "[]"
