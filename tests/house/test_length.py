"""Files stay short enough to be read in one sitting."""

from __future__ import annotations

import warnings
from pathlib import Path
from statistics import median

from tests.house.source import ROOT, source_files

WARN_LINES, MOST_LINES, USUAL_LINES = 300, 400, 150


def _lines(file: Path) -> int:
    return len(file.read_text(encoding="utf-8").splitlines())


def _over(limit: int) -> list[str]:
    files = [*source_files(), *sorted((ROOT / "tests").rglob("*.py"))]
    return [
        f"{file.relative_to(ROOT)} has {lines} lines"
        for file in files
        if (lines := _lines(file)) > limit
    ]


def test_no_file_is_longer_than_the_limit() -> None:
    for long in _over(WARN_LINES):
        warnings.warn(f"{long}; think of splitting it", stacklevel=1)

    assert _over(MOST_LINES) == []


def test_most_files_of_the_program_are_short() -> None:
    assert median(_lines(file) for file in source_files()) <= USUAL_LINES
