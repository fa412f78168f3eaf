"""What if, on the demo: the answer changes, and not a byte of what is written anywhere."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.demo.copies import made
from tracker.app.session import now_here
from tracker.cli.main import main

Ask = Callable[..., dict[str, Any]]

WHAT_IF = (
    ("--without", "grommet"),
    ("--without", "masking-film", "cable-2-5"),
    ("--absent", "Ola"),
    ("--absent", "Ola", "--without", "camera", "--rain", "--temp", "-2C", "--no-power"),
    ("--next", "--absent", "Ola"),
    ("--next", "--crew", "3", "--hours", "9", "--dry", "--temp", "15C"),
)


def every_file(folder: Path) -> dict[str, tuple[bytes, int]]:
    """What lies in a folder, and when it was last written."""
    return {
        str(file.relative_to(folder)): (file.read_bytes(), file.stat().st_mtime_ns)
        for file in folder.rglob("*")
        if file.is_file()
    }


@pytest.fixture
def ask(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Ask:
    """Asks ``closein today`` on a copy of the demo that was asked once before."""
    monkeypatch.setenv("CLOSEIN_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("CLOSEIN_NAME", "Runa")
    made(tmp_path, now_here())

    def asked(*words: str) -> dict[str, Any]:
        status = main(["--build", str(tmp_path / "build"), "today", "--json", *words])
        out, err = capsys.readouterr()
        assert (status, err) == (0, "")
        found: dict[str, Any] = json.loads(out)
        return found

    return asked


def test_whatever_is_asked_the_build_and_what_is_remembered_stay_as_they_are(
    ask: Ask, tmp_path: Path
) -> None:
    plain = ask()
    before = every_file(tmp_path)
    assert any(name.endswith(".log") for name in before)

    answers = [ask(*words) for words in WHAT_IF]

    assert every_file(tmp_path) == before
    assert all(answer != plain for answer in answers)


def test_without_a_part_that_the_plan_takes_or_a_helper_the_plan_is_another(ask: Ask) -> None:
    plain = ask()

    alone = ask("--absent", "Ola")
    bare = ask("--without", "grommet")

    assert alone["day"]["people"] == plain["day"]["people"] - 1
    assert alone["day"]["absent"] == ["Ola"]
    assert bare["day"]["without"] == ["grommet"]
    missing = {row["cause"] for row in bare["not_possible"] if row["kind"] == "part"}
    assert "grommet" in missing
