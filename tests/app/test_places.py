"""What the user's data folder remembers, and where it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from tracker.app.places import (
    data_folder,
    last_opened,
    memory_file,
    own_phases,
    remember_last,
    user_name,
)


@pytest.mark.parametrize(
    ("environ", "folder"),
    [
        ({"CLOSEIN_DATA": "/a", "XDG_DATA_HOME": "/b"}, "/a"),
        ({"XDG_DATA_HOME": "/b"}, "/b/closein"),
        ({"CLOSEIN_DATA": "", "XDG_DATA_HOME": "/b"}, "/b/closein"),
    ],
)
def test_the_data_folder_is_the_one_named_nearest(environ: dict[str, str], folder: str) -> None:
    assert data_folder(environ) == Path(folder)


def test_without_a_word_the_system_says_where(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("XDG_DATA_HOME")

    assert data_folder({}).name == "closein"


@pytest.mark.parametrize(
    ("environ", "name"),
    [
        ({"CLOSEIN_NAME": " Ida ", "USER": "ida1"}, "Ida"),
        ({"CLOSEIN_NAME": "  ", "USER": "ida1"}, "ida1"),
        ({"LOGNAME": "ida2"}, "ida2"),
        ({"USER": "id\x1ba"}, "ida"),
        ({}, "somebody"),
    ],
)
def test_acts_are_signed_with_the_name_said_or_that_of_the_system(
    environ: dict[str, str], name: str
) -> None:
    assert user_name(environ) == name


def test_the_same_folder_has_one_memory_however_it_is_reached(tmp_path: Path) -> None:
    build, data = tmp_path / "heron", tmp_path / "data"
    build.mkdir()
    (tmp_path / "link").symlink_to(build)

    assert memory_file(data, build) == memory_file(data, tmp_path / "link")
    assert memory_file(data, build) != memory_file(data, tmp_path)


def test_the_build_opened_last_is_remembered_while_it_is_there(tmp_path: Path) -> None:
    build, data = tmp_path / "heron", tmp_path / "data"
    build.mkdir()
    assert last_opened(data) is None

    remember_last(data, build)
    assert last_opened(data) is None  # nothing marks it as a build yet

    (build / "build.toml").write_text("format = 1", "utf-8")
    assert last_opened(data) == build


def test_a_data_folder_that_can_not_be_written_or_read_is_no_fault(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_bytes(b"")
    remember_last(file, tmp_path)

    (tmp_path / "last").write_bytes(b"\xff\x00")
    assert last_opened(tmp_path) is None


@pytest.mark.parametrize(
    ("environ", "folder"),
    [
        ({"CLOSEIN_CONFIG": "/a", "XDG_CONFIG_HOME": "/b"}, "/a/phases"),
        ({"XDG_CONFIG_HOME": "/b"}, "/b/closein/phases"),
    ],
)
def test_own_templates_lie_in_the_configuration_named_nearest(
    environ: dict[str, str], folder: str
) -> None:
    assert own_phases(environ) == Path(folder)
