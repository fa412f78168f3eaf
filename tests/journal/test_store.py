"""The journal as the session uses it."""

from __future__ import annotations

import fcntl
import os
import threading
from pathlib import Path

import pytest

from tests.journal.desk import AT, Desk, kinds, note, texts
from tracker.act import Act
from tracker.errors import CloseinError, NotSaved
from tracker.journal import RealDisk
from tracker.journal.codec import root_checksum


def everything_in(folder: Path) -> dict[str, bytes]:
    return {str(p): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_an_act_is_what_is_read_back(desk):
    with desk.journal.writing() as pen:
        act = pen.append(
            [{"f": "x", "pair": (1, 2), "text": "größer\n"}], at=AT, by="Ida", now_ms=5, when=AT
        )

    assert act == Act("000000000005-waaaaaaa-1", AT, "Ida", act.facts, AT)
    assert act.facts == ({"f": "x", "pair": [1, 2], "text": "größer\n"},)
    assert desk.open().read().acts == (act,)


def test_the_pen_reads_what_others_wrote_and_what_it_wrote_itself(desk, tmp_path):
    other = Desk(desk.folder, tmp_path / "other.json", "x")
    desk.read()
    other.write("theirs")
    with desk.journal.writing() as pen:
        assert texts(pen.reading) == ["theirs"]
        pen.append(note("mine"), at=AT, by="Ida", now_ms=desk.now + 5000)
        assert texts(pen.reading) == ["theirs", "mine"]
        pen.append(note("mine too"), at=AT, by="Ida", now_ms=desk.now + 5000)
        assert texts(pen.reading) == ["theirs", "mine", "mine too"]

    assert desk.texts() == ["theirs", "mine", "mine too"]


def test_changed_tells_of_news_and_only_of_news(desk, tmp_path):
    assert not desk.journal.changed()
    other = Desk(desk.folder, tmp_path / "other.json", "x")
    other.write("a")
    assert desk.journal.changed()
    desk.read()
    assert not desk.journal.changed()
    desk.write("b")
    assert not desk.journal.changed()
    other.write("c")
    assert desk.journal.changed()


def test_reading_changes_no_byte_and_makes_no_file(desk):
    desk.write("a")
    with desk.log().open("ab") as file:
        file.write(b"torn")
    (desk.folder / ".lock").unlink()
    before = everything_in(desk.folder)

    assert kinds(desk.open().read()) == ["torn"]
    desk.journal.changed()
    assert everything_in(desk.folder) == before


def test_a_decision_that_fails_inside_the_lock_writes_nothing_and_frees_it(desk):
    desk.write("a")
    before = everything_in(desk.folder)
    with pytest.raises(ZeroDivisionError), desk.journal.writing():
        raise ZeroDivisionError

    assert everything_in(desk.folder) == before
    desk.write("b")
    assert desk.texts() == ["a", "b"]


def test_the_lock_is_held_while_the_pen_is_out_and_the_lock_file_stays(desk):
    with desk.journal.writing():
        inode = (desk.folder / ".lock").stat().st_ino
        handle = os.open(desk.folder / ".lock", os.O_RDWR)
        with pytest.raises(BlockingIOError):
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    os.close(handle)

    assert (desk.folder / ".lock").stat().st_ino == inode


def test_who_waits_for_the_lock_sees_what_was_written_meanwhile(desk, tmp_path):
    other = Desk(desk.folder, tmp_path / "other.json", "x")
    other.read()
    seen: list[list[str]] = []

    def wait() -> None:
        with other.journal.writing() as pen:
            seen.append(texts(pen.reading))

    with desk.journal.writing() as pen:
        thread = threading.Thread(target=wait)
        thread.start()
        thread.join(0.05)
        assert thread.is_alive()
        pen.append(note("a"), at=AT, by="Ida", now_ms=1)
    thread.join(5)

    assert seen == [["a"]]


def test_numbers_of_a_writer_go_on_from_one_program_to_the_next(desk):
    ids = []
    for n in range(3):
        desk.open()
        ids.append(desk.write(n).id)

    assert [i.split("-", 1)[1] for i in ids] == ["waaaaaaa-1", "waaaaaaa-2", "waaaaaaa-3"]


def test_each_line_names_the_one_before_and_the_first_its_build_and_writer(desk):
    for n in range(3):
        desk.write(n)
    lines = desk.log().read_text().splitlines()

    assert f'"prev":"{root_checksum("b-7f3a", "waaaaaaa")}"' in lines[0]
    assert f'"prev":"{lines[0][:32]}"' in lines[1]
    assert f'"prev":"{lines[1][:32]}"' in lines[2]


def test_a_folder_that_is_gone_is_said_so_and_not_made_again(desk):
    desk.folder.rmdir()

    with pytest.raises(NotSaved, match="the build folder is gone"):
        desk.write("a")
    assert not desk.folder.exists()


def test_a_journal_folder_that_went_while_the_program_ran_is_noticed(desk):
    desk.write("a")
    desk.log().unlink()
    desk.log().parent.rmdir()

    assert kinds(desk.read()) == ["shorter"]
    desk.write("b")
    assert desk.texts() == ["b"]


def test_a_file_that_cannot_be_read_is_one_sentence(desk):
    class Unreadable:
        def __init__(self, inner: object) -> None:
            self.inner = inner

        def __getattr__(self, name: str) -> object:
            return getattr(self.inner, name)

        def read(self, file: Path, start: int) -> bytes:
            raise PermissionError(13, "Permission denied", str(file))

    desk.write("a")
    desk.disk = Unreadable(RealDisk())
    desk.open()
    with pytest.raises(CloseinError, match=r"waaaaaaa\.log can't be read \(Permission denied\)"):
        desk.read()
    with pytest.raises(NotSaved, match="may not be written to"):
        desk.write("b")


@pytest.mark.parametrize("writer", ["me", "WAAAAAAA", "../aaaaa", "waaaaaaa1", "waaaaaa1"])
def test_a_writer_id_of_another_form_is_refused_before_anything_is_made(desk, writer):
    desk.new_writer = lambda: writer
    desk.open()
    with pytest.raises(ValueError, match="is no writer id"):
        desk.write("a")

    assert not (desk.folder / "journal").exists()
