"""The demo, made once for all tests that only look at it."""

from __future__ import annotations

import pytest

from tests.demo.copies import made
from tracker.app.session import Session


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Session:
    """The demo; look at it, don't change it."""
    return made(tmp_path_factory.mktemp("demo"))
