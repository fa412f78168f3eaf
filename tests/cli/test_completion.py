from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.yard import Yard, environment
from tracker.cli.completion_words import everything_typed
from tracker.cli.main import COMMANDS
from tracker.templates.load import shipped

LINES = {
    "closein st": {"start", "stuck"},
    "closein part re": {"receive"},
    "closein todo pre": {"pre-foam"},
    "closein todo --zone r": {"roof"},
    "closein item show L1": {"L1"},
    "closein phases adopt fr": {"framing"},
    "closein plan ex": {"export"},
    "closein completion z": {"zsh"},
    "closein --build @ todo pre": {"pre-foam"},
}


def test_every_command_and_second_word_is_known_with_its_options() -> None:
    typed = {one.path: one for one in everything_typed()}

    assert {path[0] for path in typed} == set(COMMANDS)
    assert "--json" in typed["part", "receive"].options
    assert typed["part", "receive"].names == "part"
    assert typed["todo",].values["--zone"] == "zone"
    assert set(shipped()) <= set(typed["phases", "adopt"].words)
    assert "--at" not in typed["part", "receive"].values


def test_an_unknown_shell_is_refused(yard: Yard) -> None:
    assert "bash" in yard.refused("completion", "cmd")


@pytest.fixture
def tools(tmp_path: Path) -> dict[str, str]:
    """The environment of a shell that finds this checkout's command."""
    folder = tmp_path / "bin"
    folder.mkdir()
    command = folder / "closein"
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m tracker "$@"\n', "utf-8")
    command.chmod(0o755)
    return environment() | {"PATH": f"{folder}{os.pathsep}{os.environ['PATH']}"}


def completed(script: str, shell: str, tools: dict[str, str], folder: Path) -> list[set[str]]:
    done = subprocess.run(
        [shell, "-c", script], env=tools, cwd=folder, capture_output=True, text=True, check=True
    )
    assert done.stderr == ""
    return [set(line.split()) for line in done.stdout.splitlines()]


@pytest.mark.skipif(shutil.which("bash") is None, reason="no bash here")
def test_bash_completes_words_options_and_names(yard: Yard, tools: dict[str, str]) -> None:
    lines = [line.replace("@", str(yard.folder)) for line in LINES]
    script = 'eval "$(closein completion bash)"\n' + "".join(
        f"COMP_WORDS=({line}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); _closein; "
        'echo "${COMPREPLY[*]}"\n'
        for line in lines
    )

    assert completed(script, "bash", tools, yard.folder) == list(LINES.values())


@pytest.mark.skipif(shutil.which("fish") is None, reason="no fish here")
def test_fish_completes_words_options_and_names(yard: Yard, tools: dict[str, str]) -> None:
    lines = [line.replace("@", str(yard.folder)) for line in LINES]
    script = "closein completion fish | source\n" + "".join(
        f'echo (complete -C "{line}" | string replace -r "\\t.*" "")\n' for line in lines
    )

    assert completed(script, "fish", tools, yard.folder) == list(LINES.values())


@pytest.mark.skipif(shutil.which("zsh") is None, reason="no zsh here")
def test_the_script_for_zsh_is_sound_and_loads(yard: Yard, tools: dict[str, str]) -> None:
    script = 'eval "$(closein completion zsh)"; print ${_comps[closein]}'

    assert completed(script, "zsh", tools, yard.folder)[-1] >= {"_closein"}
