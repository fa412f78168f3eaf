"""The real program in a real terminal, driven through tmux."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.tui.conftest import begin, filled
from tests.tui.looking import PATIENCE_S, state
from tracker.app.session import Session, now_here
from tracker.app.wants import diary

ROOT = Path(__file__).parents[2]

TELL_STATUS = '"$@"; echo "ended with $?"; read -r rest'
"""Run a command, say its exit status on the screen and stay."""

pytestmark = pytest.mark.skipif(shutil.which("tmux") is None, reason="tmux is not installed")


class Terminal:
    """One tmux window with a command in it.

    Parameters
    ----------
    command: the words of the command.
    environ: variables for it, besides those of the test.
    """

    def __init__(self, command: list[str], environ: dict[str, str]) -> None:
        self.socket = f"closein-{uuid.uuid4().hex[:8]}"
        settings = [f"{name}={value}" for name, value in environ.items()]
        self.tmux("-f", os.devnull, "new-session", "-d", "-x", "80", "-y", "24", "sh")
        self.tmux("set-option", "-s", "escape-time", "0")
        words = ["env", *settings, "sh", "-c", TELL_STATUS, "sh", *command]
        self.tmux("respawn-pane", "-k", "-c", str(ROOT), *words)

    def tmux(self, *words: str) -> str:
        """Run one tmux command."""
        done = subprocess.run(
            ["tmux", "-L", self.socket, *words], capture_output=True, text=True, check=True
        )
        return done.stdout

    def keys(self, *keys: str) -> None:
        """Press keys by their tmux names."""
        self.tmux("send-keys", *keys)

    def words(self, text: str) -> None:
        """Type a text."""
        self.tmux("send-keys", "-l", "--", text)

    def seen(self) -> str:
        """What is on the screen."""
        return self.tmux("capture-pane", "-p")

    def told(self, name: str) -> str:
        """One of tmux's variables of the pane."""
        return self.tmux("display-message", "-p", f"#{{{name}}}").strip()

    def wait(self, text: str, *how: str) -> str:
        """Wait until a text is on the screen; ``how`` as for ``capture-pane``."""
        end = time.monotonic() + PATIENCE_S
        while text not in (seen := self.tmux("capture-pane", "-p", *how)):
            assert time.monotonic() < end, f"no {text!r} in\n{seen}"
            time.sleep(0.05)
        return seen

    def kill(self, name: str) -> None:
        """Send the command a signal."""
        found = subprocess.run(
            ["pgrep", "-P", self.told("pane_pid")], capture_output=True, text=True, check=True
        )
        subprocess.run(["kill", f"-{name}", found.stdout.split()[0]], check=True)

    def ended(self) -> int:
        """Wait until the command has ended; its exit status."""
        return int(self.wait("ended with ").partition("ended with ")[2].split()[0])


@pytest.fixture
def session(tmp_path: Path) -> Session:
    """The small build by the real clock, which is also the program's."""
    return filled(begin(tmp_path / "today", tmp_path / "data", clock=now_here))


@pytest.fixture
def terminal(session: Session) -> Iterator[Terminal]:
    """``closein --build`` on the small build, in a terminal of 80 by 24."""
    command = [sys.executable, "-m", "tracker", "--build", str(session.folder)]
    opened = Terminal(command, {"CLOSEIN_DATA": str(session.data), "CLOSEIN_NAME": "Runa"})
    yield opened
    subprocess.run(["tmux", "-L", opened.socket, "kill-server"], capture_output=True, check=False)


def test_the_program_opens_marks_measures_notes_and_quits(
    terminal: Terminal, session: Session
) -> None:
    terminal.wait("▸○ open")
    terminal.keys("Space")
    terminal.wait("saved: label on L1: good")
    terminal.keys("Down", "m")
    terminal.wait("lead on L1: at least 0.35 m")
    terminal.words("9in")
    terminal.keys("Enter")
    terminal.wait("✗ bad: lead on L1")
    terminal.keys("Enter")
    terminal.words("the ramp is wet")
    terminal.keys("Enter")
    terminal.wait("saved: note: the ramp is wet")
    session.refresh()
    session.do(diary.note("seen from elsewhere"))
    terminal.wait("seen from elsewhere")
    terminal.keys("Tab", "q")

    assert terminal.ended() == 0
    assert terminal.told("alternate_on") == "0"
    session.refresh()
    assert [note.text for note in session.build.notes] == ["the ramp is wet", "seen from elsewhere"]


def test_ctrl_c_quits_at_once_and_leaves_the_terminal_as_it_was(terminal: Terminal) -> None:
    terminal.wait("▸○ open")
    terminal.keys("C-c")

    assert terminal.ended() == 0
    assert terminal.told("alternate_on") == "0"


@pytest.mark.parametrize(("name", "status"), [("TERM", 143), ("HUP", 129)])
def test_a_signal_leaves_the_terminal_as_it_was(terminal: Terminal, name: str, status: int) -> None:
    terminal.wait("▸○ open")
    assert terminal.told("alternate_on") == "1"
    terminal.kill(name)

    assert terminal.ended() == status
    assert terminal.told("alternate_on") == "0"
    assert terminal.told("mouse_any_flag") == "0"


def test_without_colours_no_colour_is_sent(session: Session) -> None:
    command = [sys.executable, "-m", "tracker", "--build", str(session.folder)]
    environ = {"CLOSEIN_DATA": str(session.data), "CLOSEIN_NAME": "Runa", "NO_COLOR": "1"}
    terminal = Terminal(command, environ)
    try:
        coloured = terminal.wait("▸○ open", "-e")
    finally:
        terminal.tmux("kill-server")

    assert "[38;" not in coloured and "[48;" not in coloured


def test_keys_that_arrive_all_at_once_go_where_they_belong(
    terminal: Terminal, session: Session
) -> None:
    terminal.wait("▸○ open")
    at_once = ["w", *"spare_run", "Enter", *"Ola", "Enter", "Down", "Down", "m"]
    terminal.keys(*at_once, *"9in", "Enter", "Enter", *"too_wet", "Enter", "Tab", "2")
    terminal.wait("[2 parts")
    session.refresh()

    assert state(session, "label", "L1") == "waived"
    answers = {key[0]: heads[0] for key, heads in session.build.answers.items()}
    assert (answers["check:own/label"].why, answers["check:own/label"].second) == (
        "spare_run",
        "Ola",
    )
    assert [note.text for note in session.build.notes] == ["too_wet"]
    assert state(session, "lead", "L1") == "bad"
