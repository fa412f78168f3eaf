"""README.md is what a stranger has: its walk works as written, its pictures are there."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

README = Path(__file__).parent.parent / "README.md"
UNTIL_ALL_IS_ANSWERED = ("release", "close")
"""The walk ends before every check is answered, so these two are refused in it."""


def blocks(section: str, kind: str = "") -> list[str]:
    """The fenced blocks of a kind under a heading."""
    text = README.read_text("utf-8").split(f"\n## {section}\n")[1].split("\n## ")[0]
    found, fence = [], None
    for line in text.splitlines():
        if fence is None and line.startswith("```"):
            fence, lines = line[3:], []
        elif line == "```":
            if fence == kind:
                found.append("\n".join(lines))
            fence = None
        elif fence is not None:
            lines.append(line)
    return found


@pytest.mark.parametrize("section", ["See it", "Test it"])
def test_a_section_has_one_command_of_one_line_that_makes_its_own_environment(section: str) -> None:
    (command,) = blocks(section)

    assert "\n" not in command
    assert command.startswith("python3 -m venv ") and "pip install" in command


def test_the_first_day_works_as_it_is_written(tmp_path: Path) -> None:
    here = tmp_path
    environ = os.environ | {"CLOSEIN_NAME": "Ida", "EDITOR": "true"}
    (body,) = blocks("A first day, in ten minutes", "toml")
    for command in "\n".join(blocks("A first day, in ten minutes")).splitlines():
        words = shlex.split(command)
        if words[0] == "cd":
            here /= words[1]
            (here / "plan.toml").write_text(body, "utf-8")
            continue
        assert words[0] == "closein"
        said = subprocess.run(
            [sys.executable, "-m", "tracker", *words[1:]],
            cwd=here,
            env=environ | {"PYTHONPATH": str(README.parent)},
            capture_output=True,
            text=True,
        )
        expected = 2 if words[1] in UNTIL_ALL_IS_ANSWERED else 0
        assert said.returncode == expected, f"{command}\n{said.stdout}{said.stderr}"


def test_every_picture_is_there() -> None:
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README.read_text("utf-8"))

    assert pictures
    assert all((README.parent / picture).is_file() for picture in pictures)
