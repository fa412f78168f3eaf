"""The yard for the tests of this room."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app import yard
from tracker.app.session import Session


@pytest.fixture
def bare(tmp_path: Path) -> Session:
    """A build with nothing but its vehicle."""
    return yard.start(tmp_path / "heron", tmp_path / "data")


@pytest.fixture
def heron(bare: Session) -> Session:
    """A build with a phase, zones, bays, runs, holes and parts."""
    return yard.furnish(bare)
