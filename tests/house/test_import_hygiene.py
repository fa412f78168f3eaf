"""A command loads what it needs and no more: looked at in fresh processes, never by the clock."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tracker.cli.main import COMMANDS

HEAVY = ("textual", "rich", "asyncio", "tracker.tui")
"""What only the screen may load."""

SLOW = (*HEAVY, "subprocess", "tempfile", "logging", "random", "http", "urllib.request", "email")
"""What the daily commands may not load either: each costs as much as the command itself."""

PROBE = """
import sys
from tracker.cli.main import main
status = main(sys.argv[2:])
found = [name for name in sys.argv[1].split() if name in sys.modules]
sys.stdout.flush()
print("\\nstatus", status, "loaded", *found)
"""

RUNS: dict[str, list[list[str]]] = {
    "todo": [["todo"], ["todo", "--json"], ["todo", "--gate"]],
    "log": [["log"], ["log", "--json"]],
    "phases": [["phases"]],
    "item": [["item", "list"]],
    "part": [["part", "list"]],
    "inbox": [["inbox"]],
    "verify": [["verify"]],
    "say": [["say", "the second lamp flickers"]],
    "note": [["note", "a trestle is on loan until Sunday"], ["undo"], ["redo"]],
    "plan": [["plan", "export"]],
    "runs": [["runs"], ["runs", "--recheck"]],
    "size": [
        ["size"],
        ["size", "drop", "--size", "14AWG", "--amps", "5", "--one-way", "3m", "--volts", "12"],
        ["size", "foam", "--from-build"],
    ],
    "completion": [["completion", "bash"]],
}
"""Commands run in earnest on the demo, in this order, besides the help of every one."""


def _run(names: tuple[str, ...], words: list[str], at: Path) -> tuple[int, list[str], str]:
    """Exit status, which of ``names`` were loaded, and all that was said."""
    home = {"HOME": str(at), "XDG_DATA_HOME": str(at / "data")}
    done = subprocess.run(
        [sys.executable, "-c", PROBE, " ".join(names), *words],
        cwd=at,
        env={**os.environ, **home},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
    )
    said = done.stdout + done.stderr
    lines = done.stdout.splitlines()
    assert lines and lines[-1].startswith("status "), said
    _, status, _, *loaded = lines[-1].split(" ")
    return int(status), loaded, said


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the demo build, made by the command itself."""
    folder = tmp_path_factory.mktemp("demo") / "build"
    status, loaded, said = _run(HEAVY, ["demo", "--into", str(folder)], folder.parent)
    assert (status, loaded) == (0, []), said
    return folder


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["no-such-command"]])
def test_closein_without_a_command_loads_no_screen(words: list[str], tmp_path: Path) -> None:
    assert _run(SLOW, words, tmp_path)[1] == []


@pytest.mark.parametrize("command", COMMANDS)
def test_the_help_of_a_command_loads_no_screen(command: str, tmp_path: Path) -> None:
    status, loaded, said = _run(HEAVY, [command, "--help"], tmp_path)

    assert (status, loaded) == (0, []), said


@pytest.mark.parametrize("command", RUNS)
def test_a_command_at_work_loads_no_screen(command: str, demo: Path) -> None:
    for words in RUNS[command]:
        status, loaded, said = _run(HEAVY, ["--build", str(demo), *words], demo.parent)

        assert status in (0, 1), said
        assert loaded == [], words


@pytest.mark.parametrize(
    "words", [["todo"], ["todo", "--json"], ["log"], ["check", "--help"], ["runs"], ["size"]]
)
def test_the_daily_commands_load_nothing_slow(words: list[str], demo: Path) -> None:
    assert _run(SLOW, ["--build", str(demo), *words], demo.parent)[1] == []


def test_the_probe_sees_what_is_loaded(tmp_path: Path) -> None:
    assert _run(("argparse", "json", "textual"), ["todo", "--help"], tmp_path)[1] == ["argparse"]
