"""Starting writers as real processes, and hearing what they say."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


class Child:
    """A process that waits to be told to begin.

    Parameters
    ----------
    folder, memory: of the build, and what this writer's computer remembers of it.
    prefix: of its writer ids.
    count, facts, size: so many acts of so many facts of so many bytes each.
    limit: no file may grow beyond so many bytes.
    """

    def __init__(
        self,
        folder: Path,
        memory: Path,
        prefix: str,
        count: int,
        facts: int = 1,
        size: int = 0,
        limit: int | None = None,
    ) -> None:
        words = [folder, memory, prefix, count, facts, size, *([limit] if limit else [])]
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.journal.child", *map(str, words)],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        assert self.process.stdout is not None
        self.lines = self.process.stdout
        assert self.lines.readline() == "ready\n"

    def begin(self) -> None:
        """Let it begin."""
        assert self.process.stdin is not None
        self.process.stdin.write("\n")
        self.process.stdin.flush()

    def end(self) -> tuple[list[str], str, int]:
        """What it said that was not heard yet, its complaints, its exit status."""
        said, complaints = self.process.communicate(timeout=60)
        return said.splitlines(), complaints, self.process.returncode


def saved(said: list[str]) -> list[str]:
    """The ids that were acknowledged."""
    return [line.split()[2] for line in said if line.startswith("saved ") and line.count(" ") == 2]
