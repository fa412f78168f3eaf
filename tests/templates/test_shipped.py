"""Where the shipped templates are looked for."""

from __future__ import annotations

from pathlib import Path

from tracker.templates.shipped import folder


def test_the_package_folder_comes_first(tmp_path: Path) -> None:
    package = tmp_path / "tracker"
    (package / "phases").mkdir(parents=True)
    (tmp_path / "phases").mkdir()
    assert folder(package) == package / "phases"


def test_a_checkout_has_them_at_its_root(tmp_path: Path) -> None:
    (tmp_path / "phases").mkdir()
    assert folder(tmp_path / "tracker") == tmp_path / "phases"


def test_the_folder_found_here_has_templates() -> None:
    assert list(folder().glob("*.toml"))
