"""The build folder: finding one, starting one, reading what marks it."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tracker.app import folder
from tracker.app.folder import Marked
from tracker.errors import BadFile, BadInput, CloseinError, NoBuild, NotSaved

HERON = Marked("b1", "Heron", "+02:00")


@pytest.fixture
def heron(tmp_path: Path) -> Path:
    where = tmp_path / "yard" / "heron"
    folder.create(where, HERON)
    return where


def test_a_folder_that_was_begun_can_be_read(heron: Path) -> None:
    assert folder.read_mark(heron) == HERON
    assert (heron / "photos").is_dir()
    assert "journal/*.log -text" in (heron / ".gitattributes").read_text("utf-8")


@given(st.text(max_size=30), st.text(max_size=10))
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_whatever_a_build_is_called_it_can_be_read_again(
    tmp_path_factory: pytest.TempPathFactory, name: str, zone: str
) -> None:
    where = tmp_path_factory.mktemp("yard") / "build"
    try:
        folder.create(where, Marked("b1", name, zone))
    except BadInput:
        assert not where.exists()
    else:
        assert folder.read_mark(where).name.replace("\t", "").isprintable()


def test_a_build_is_found_from_anywhere_inside_it(heron: Path) -> None:
    inside = heron / "photos"

    assert folder.find(inside) == heron
    assert folder.need(None, inside) == heron
    assert folder.need(inside, Path("/")) == heron
    assert folder.find(heron.parent) is None


def test_the_last_one_opened_is_fallen_back_on_only_where_none_is_here(
    heron: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    folder.create(other, HERON)

    assert folder.need(None, tmp_path, heron) == heron
    assert folder.need(None, other, heron) == other
    assert folder.need(other, heron, heron) == other


def test_where_there_is_no_build_it_says_how_to_begin_one(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    with pytest.raises(NoBuild, match=r"no build here .*'closein start FOLDER' begins one"):
        folder.need(None, tmp_path)
    with pytest.raises(NoBuild, match=r"is no build \(it has no build\.toml\)"):
        folder.need(tmp_path / "empty", tmp_path)
    with pytest.raises(NoBuild, match="does not exist"):
        folder.need(tmp_path / "gone", tmp_path)


def test_no_build_is_begun_on_or_in_another(heron: Path) -> None:
    for where in (heron, heron / "photos", heron / "new"):
        with pytest.raises(BadInput, match="is or lies in a build already"):
            folder.create(where, HERON)


def test_no_build_is_begun_among_other_things_but_hidden_ones_are_let_be(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    (tmp_path / ".gitattributes").write_text("*.png binary\n", "utf-8")
    (tmp_path / "letter.txt").write_text("dear all", "utf-8")
    with pytest.raises(BadInput, match="holds other things"):
        folder.create(tmp_path, HERON)
    assert not (tmp_path / "photos").exists()

    (tmp_path / "letter.txt").unlink()
    folder.create(tmp_path, HERON)
    assert (tmp_path / ".gitattributes").read_text("utf-8") == "*.png binary\n"


@pytest.mark.parametrize("name", ["", "  ", "\x1b\x07"])
def test_a_build_needs_a_name_that_can_be_read(tmp_path: Path, name: str) -> None:
    with pytest.raises(BadInput, match="needs a name that can be read"):
        folder.create(tmp_path / "x", Marked("b1", name, ""))


def test_a_place_that_can_not_be_written_begins_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(NotSaved, match=r"can't be written .*nothing was begun"):
        folder.create(tmp_path / "file" / "heron", HERON)


def test_a_build_that_could_not_be_begun_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = Path.write_text

    def full(path: Path, *words: str) -> int:
        write(path, *words)
        if path.name == "build.toml":
            raise OSError(28, "No space left on device")
        return 0

    old = tmp_path / "old"
    old.mkdir()
    (old / ".gitattributes").write_text("*.png binary\n", "utf-8")
    monkeypatch.setattr(Path, "write_text", full)
    for where in (tmp_path / "heron", old):
        with pytest.raises(NotSaved, match="nothing was begun"):
            folder.create(where, HERON)

    assert [each.name for each in sorted(tmp_path.rglob("*"))] == ["old", ".gitattributes"]


def test_a_record_without_its_mark_is_said_to_be_one(heron: Path, tmp_path: Path) -> None:
    (heron / "journal").mkdir()
    (heron / "journal" / "aaaaaaaa.log").write_text("", "utf-8")
    (heron / "build.toml").unlink()

    for explicit, here in ((heron, tmp_path), (None, heron)):
        with pytest.raises(NoBuild, match=r"has a journal and no build\.toml; copy"):
            folder.need(explicit, here, tmp_path)


def test_a_file_is_never_called_a_place_to_begin_a_build(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("", "utf-8")

    with pytest.raises(NoBuild, match="is a file and no build"):
        folder.need(tmp_path / "letter.txt", tmp_path)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("format = 2", "format is 2; this release reads 1"),
        ("", "format is None"),
        ("format = 1", "id is missing or no text"),
        ('format = 1\nid = "b1"\nname = ""', "name is missing or no text"),
        ('format = 1\nid = "b1"\nname = 3', "name is missing or no text"),
        ("format = ", "is not TOML"),
        ("\xff", "can't be read"),
    ],
)
def test_a_mark_that_can_not_be_read_says_what_is_wrong(
    heron: Path, text: str, problem: str
) -> None:
    (heron / "build.toml").write_bytes(text.encode("latin-1"))

    with pytest.raises(BadFile) as found:
        folder.read_mark(heron)

    assert problem in str(found.value)
    assert isinstance(found.value, CloseinError)


def test_a_name_from_elsewhere_is_shown_without_control_characters(heron: Path) -> None:
    mark = heron / "build.toml"
    mark.write_text('format = 1\nid = "b1"\nname = "He\\u001b[31mron"\n', "utf-8")

    assert folder.read_mark(heron) == Marked("b1", "He[31mron", "")
    assert tomllib.loads(mark.read_text("utf-8"))["format"] == folder.FORMAT
