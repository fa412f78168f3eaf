"""The commands as real processes: streams, signals and what is imported."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.yard import Yard, environment


def closein(yard: Yard, *words: str, **more: object) -> subprocess.CompletedProcess[str]:
    """One command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "tracker", "--build", str(yard.folder), *words],
        env=environment(),
        stdin=subprocess.DEVNULL,
        stdout=more.get("stdout", subprocess.PIPE),  # type: ignore[arg-type]
        stderr=subprocess.PIPE,
        text=True,
        timeout=60,
    )


def test_a_check_is_marked_read_back_and_the_gate_is_shut(yard: Yard) -> None:
    marked = closein(yard, "check", "gas-tight", "--good")
    gate = closein(yard, "todo", "--gate")

    assert (marked.returncode, marked.stderr) == (0, "")
    assert marked.stdout.startswith("saved ")
    assert (gate.returncode, gate.stderr) == (1, "")
    assert "1 good" in gate.stdout


def test_a_mistake_is_one_sentence_and_no_traceback(yard: Yard) -> None:
    before = yard.files()

    done = closein(yard, "check", "gas-tigth", "--good")

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "closein: no check is called 'gas-tigth'; did you mean gas-tight?\n"
    assert yard.files() == before


def test_a_reader_that_goes_away_is_no_fault(yard: Yard) -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)

    done = closein(yard, "log", stdout=write_end)
    os.close(write_end)

    assert (done.returncode, done.stderr) == (141, "")


@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"])
def test_a_closed_stream_is_no_fault(yard: Yard, closed: str) -> None:
    asked = [sys.executable, str(yard.folder)]
    for words in ("check gas-tight --good", "todo", "say"):
        done = subprocess.run(
            ["sh", "-c", f'"$0" -m tracker --build "$1" {words} {closed}', *asked],
            env=environment(),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            timeout=60,
        )
        assert done.returncode == (2 if words == "say" else 0), done
        assert "Traceback" not in done.stderr

    assert yard.session.build.acts[-1].facts[0]["result"] == "good"
    assert not yard.session.faults


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no /dev/full here")
def test_output_that_finds_no_room_is_one_sentence(yard: Yard) -> None:
    with open("/dev/full", "w") as full:
        done = closein(yard, "check", "gas-tight", "--good", stdout=full)

    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert "what was recorded stays recorded" in done.stderr
    assert yard.session.build.acts[-1].facts[0]["result"] == "good"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written_to_is_said_so(yard: Yard) -> None:
    (yard.folder / "journal").chmod(0o500)
    for file in (yard.folder / "journal").iterdir():
        file.chmod(0o400)
    before = yard.files()

    done = closein(yard, "check", "gas-tight", "--good")

    (yard.folder / "journal").chmod(0o700)
    assert (done.returncode, done.stdout) == (3, "")
    assert "nothing was saved" in done.stderr
    assert yard.files() == before


def test_signs_that_the_terminal_cannot_show_break_nothing(yard: Yard) -> None:
    yard.do(lambda session: [{"f": "note.written", "text": "2.5 mm² ✓ 日本"}])

    done = subprocess.run(
        [sys.executable, "-m", "tracker", "--build", str(yard.folder), "log"],
        env={**environment(), "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"},
        capture_output=True,
        text=True,
    )

    assert (done.returncode, done.stderr) == (0, "")
    assert "note: 2.5 mm? ? ??" in done.stdout


def test_what_is_typed_with_broken_bytes_is_one_sentence(yard: Yard) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tracker", "--build", str(yard.folder), "todo", b"\xff\xfe"],
        env=environment(),
        capture_output=True,
        text=True,
    )

    assert done.returncode == 2
    assert done.stderr.count("\n") == 1 and "Traceback" not in done.stderr


@pytest.mark.parametrize(
    "words",
    [
        ("todo",),
        ("check", "gas-tight", "--good"),
        ("log",),
        ("verify",),
        ("settle",),
        ("release", "pre-foam", "--zone", "port", "--second", "Ola"),
    ],
)
def test_no_command_loads_the_screen_or_anything_of_its_weight(
    yard: Yard, words: tuple[str, ...]
) -> None:
    code = (
        "import sys; from tracker.cli.main import main; main(sys.argv[1:]);"
        "heavy = {'textual', 'rich', 'asyncio', 'platformdirs', 'subprocess', 'sqlite3'};"
        "print(sorted(heavy & set(sys.modules)), file=sys.stderr)"
    )

    done = subprocess.run(
        [sys.executable, "-c", code, "--build", str(yard.folder), *words],
        env=environment(),
        capture_output=True,
        text=True,
    )

    assert done.stderr.splitlines()[-1] == "[]"
