"""Copies of one build folder, worked on apart and brought together again."""

from __future__ import annotations

import shutil
from pathlib import Path

from tests.journal.desk import BUILD, Desk, kinds, reservations
from tracker.journal import Journal, verify


def carry(source: Desk, target: Desk) -> None:
    """What a folder sync or a version control system does: newer files go over, none are lost."""
    for log in (source.folder / "journal").glob("*.log"):
        there = target.folder / "journal" / log.name
        if not there.exists() or there.stat().st_size < log.stat().st_size:
            shutil.copyfile(log, there)


def logs(desk: Desk) -> dict[str, bytes]:
    return {log.name: log.read_bytes() for log in (desk.folder / "journal").glob("*.log")}


def copy_of(desk: Desk, folder: Path, memory: Path, prefix: str) -> Desk:
    shutil.copytree(desk.folder, folder)
    copy = Desk(folder, memory, prefix)
    copy.now = desk.now
    return copy


def test_two_copies_on_one_computer_are_worked_on_apart_and_merged_both_ways(desk, tmp_path):
    desk.write("before")
    copy = copy_of(desk, tmp_path / "copy", tmp_path / "copy.json", "x")
    for n in (1, 2):
        desk.write(f"here {n}")
        copy.write(f"there {n}")

    assert desk.texts() == ["before", "here 1", "here 2"]
    assert copy.texts() == ["before", "there 1", "there 2"]
    carry(copy, desk)
    carry(desk, copy)

    assert desk.read() == copy.read()
    assert sorted(desk.texts()) == ["before", "here 1", "here 2", "there 1", "there 2"]
    assert desk.read().faults == () == verify(copy.folder, BUILD)
    for either, other in ((desk, copy), (copy, desk)):
        either.open()
        either.write("after")
        carry(either, other)
        assert either.read() == other.read()
        assert either.texts()[-1] == "after"
    assert sorted(logs(desk)) == ["waaaaaaa.log", "xaaaaaaa.log"]


def test_two_peoples_copies_never_write_to_one_file(desk, tmp_path):
    desk.write("before")
    theirs = copy_of(desk, tmp_path / "theirs", tmp_path / "theirs.json", "x")
    for round_ in range(4):
        for one in (desk, theirs):
            one.open()
            one.write(round_)
        before = logs(desk) | {k: v for k, v in logs(theirs).items() if k[0] == "x"}
        carry(desk, theirs)
        carry(theirs, desk)
        assert logs(desk) == logs(theirs) == before
        assert desk.read() == theirs.read()
    assert len(desk.read().acts) == 9
    assert sorted(logs(desk)) == ["waaaaaaa.log", "xaaaaaaa.log"]


def test_a_copy_laid_over_its_original_with_fewer_acts_is_noticed_and_never_forked(desk, tmp_path):
    desk.write("one")
    shutil.copytree(desk.folder, tmp_path / "backup")
    desk.write("two")
    lost = desk.log().read_bytes()
    shutil.rmtree(desk.folder)
    shutil.copytree(tmp_path / "backup", desk.folder)
    desk.open()

    assert kinds(desk.read()) == ["shorter"]
    desk.write("three")
    assert desk.texts() == ["one", "three"]
    assert len(logs(desk)) == 2
    desk.log().write_bytes(lost)
    assert desk.texts() == ["one", "two", "three"]
    assert desk.read().faults == ()


def test_another_build_under_the_same_path_is_not_mixed_with_what_is_remembered(desk, tmp_path):
    desk.write("one")
    shutil.rmtree(desk.folder)
    desk.folder.mkdir()
    journal = Journal(desk.folder, "b-other", memory=desk.memory, new_writer=lambda: "zaaaaaaa")

    assert journal.read().faults == ()
    with journal.writing() as pen:
        pen.append([], at="2025-03-01T10:11:12Z", by="Bo", now_ms=1)
    assert [log.name for log in (desk.folder / "journal").iterdir()] == ["zaaaaaaa.log"]
    assert journal.read().faults == ()
    assert set(kinds(verify(desk.folder, BUILD))) == {"stranger"}


def test_a_conflicted_copy_that_a_sync_program_made_adds_its_acts_once(desk, tmp_path):
    for n in "ab":
        desk.write(n)
    conflicted = desk.log("waaaaaaa (conflicted copy)")
    conflicted.write_bytes(desk.log().read_bytes())
    for n in "cd":
        desk.write(n)

    assert desk.texts() == ["a", "b", "c", "d"]
    assert kinds(desk.read()) == ["repeated"]
    assert reservations(desk.read()) == []


def test_two_programs_of_one_person_share_the_memory_and_the_file(desk, tmp_path):
    other = Desk(desk.folder, tmp_path / "memory.json", "x")
    for n in range(4):
        (desk, other)[n % 2].write(n)
        other.now = desk.now = max(desk.now, other.now)

    assert desk.texts() == other.texts() == ["0", "1", "2", "3"]
    assert sorted(logs(desk)) == ["waaaaaaa.log"]


def test_an_act_is_stamped_after_all_it_could_see_whatever_the_clock_says(desk, tmp_path):
    desk.write("one")
    other = Desk(desk.folder, tmp_path / "other.json", "a")
    other.now -= 10**9
    other.write("two")
    desk.now -= 10**9
    desk.write("three")

    assert desk.texts() == ["one", "two", "three"]
