"""What every test stands on: no test reads or writes the real user's data folder."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import settings

# Machines differ too much in speed for a deadline to mean anything but noise.
settings.register_profile("closein", deadline=None)
settings.load_profile("closein")


@pytest.fixture(autouse=True)
def own_user_folders(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch):
    """A home of its own for each test; commands started by the test inherit it."""
    home: Path = tmp_path_factory.mktemp("home")
    monkeypatch.setenv("HOME", str(home))
    for name, folder in {
        "XDG_DATA_HOME": ".local/share",
        "XDG_STATE_HOME": ".local/state",
        "XDG_CONFIG_HOME": ".config",
        "XDG_CACHE_HOME": ".cache",
    }.items():
        monkeypatch.setenv(name, str(home / folder))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.delenv("FORCE_COLOR", raising=False)
    return home
