"""A fresh small build for each test of a command."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.yard import Yard, make


@pytest.fixture
def yard(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Yard:
    """A small build; its owner is Ida, and what is remembered of it lies in a folder of its own."""
    monkeypatch.setenv("CLOSEIN_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("CLOSEIN_NAME", "Ida")
    monkeypatch.chdir(tmp_path)
    make(tmp_path / "heron")
    return Yard(tmp_path / "heron", capsys)
