from __future__ import annotations

from pathlib import Path

import pytest

from tests.journal.desk import Desk


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A fresh build folder on the real disk, with a memory beside it."""
    folder = tmp_path / "build"
    folder.mkdir()
    return Desk(folder, tmp_path / "memory.json")
