"""Full and read-only disks, as the operating system makes them."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.journal.desk import BUILD, Desk, reservations
from tests.journal.processes import Child, saved
from tracker.errors import NotSaved
from tracker.journal import verify


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no /dev/full")
def test_dev_full_refuses_and_the_next_attempt_elsewhere_works(desk):
    (desk.folder / "journal").mkdir()
    desk.log().symlink_to("/dev/full")

    with pytest.raises(NotSaved, match="the disk is full, so nothing was saved; make room on it"):
        desk.write("one")
    assert desk.texts() == []
    desk.log().unlink()
    desk.write("one")
    assert desk.texts() == ["one"]


def test_a_limit_on_file_size_refuses_what_does_not_fit_and_takes_it_when_it_is_lifted(tmp_path):
    folder = tmp_path / "build"
    folder.mkdir()
    child = Child(folder, tmp_path / "memory.json", "k", 12, facts=1, size=900, limit=5000)
    child.begin()
    said, complaints, status = child.end()

    assert (complaints, status) == ("", 0)
    refused = [line for line in said if line.startswith("refused")]
    assert len(refused) == 1 and "nothing was saved" in refused[0]
    ids = saved(said)
    assert len(ids) == 11
    desk = Desk(folder, tmp_path / "memory.json")
    reading = desk.journal.read()
    assert [act.id for act in reading.acts] == ids
    assert reading.faults == verify(folder, BUILD) == ()
    assert len(list((folder / "journal").iterdir())) == 1


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 64 KiB, where this user may make one."""
    place = tmp_path / "small"
    place.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(place)]
    try:
        made = subprocess.run(mount, capture_output=True, check=False).returncode == 0
    except FileNotFoundError:
        made = False
    if not made:
        pytest.skip("a small tmpfs can't be mounted by this user")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


def test_a_small_disk_fills_up_keeps_what_it_acknowledged_and_goes_on_when_there_is_room(
    small_disk, tmp_path
):
    folder = small_disk / "build"
    folder.mkdir()
    (small_disk / "ballast").write_bytes(bytes(20_000))
    desk = Desk(folder, tmp_path / "memory.json")
    acknowledged = []
    with pytest.raises(NotSaved, match="the disk is full"):
        for number in range(1000):
            acknowledged.append(desk.write(f"{number} " + "x" * 700))
    with pytest.raises(NotSaved, match="the disk is full"):
        desk.write("y" * 5000)

    assert len(acknowledged) > 20
    assert desk.open().read().acts == tuple(acknowledged)
    assert desk.read().faults == ()
    (small_disk / "ballast").unlink()
    acknowledged.append(desk.write("y" * 5000))
    assert desk.open().read().acts == tuple(acknowledged)
    assert len(list((folder / "journal").iterdir())) == 1


def test_a_disk_that_is_full_from_the_start_keeps_no_litter(small_disk, tmp_path):
    folder = small_disk / "build"
    (folder / "journal").mkdir(parents=True)
    desk = Desk(folder, tmp_path / "memory.json")
    with pytest.raises(OSError), (small_disk / "ballast").open("wb", buffering=0) as ballast:
        while ballast.write(bytes(4096)):
            pass
    for _ in range(5):
        desk.open()
        with pytest.raises(NotSaved):
            desk.write("one")

    assert len(list((folder / "journal").iterdir())) <= 1
    (small_disk / "ballast").unlink()
    desk.write("one")
    assert desk.texts() == ["one"]
    assert reservations(desk.read()) == []


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write to a read-only folder")
def test_a_folder_without_the_right_to_write_can_be_read(desk):
    desk.write("one")
    for path in (desk.folder / "journal" / "waaaaaaa.log", desk.folder / "journal", desk.folder):
        path.chmod(0o555)
    try:
        assert desk.open().read().faults == ()
        with pytest.raises(NotSaved, match="may not be written to"):
            desk.write("two")
        assert desk.texts() == ["one"]
    finally:
        desk.folder.chmod(0o755)
        (desk.folder / "journal").chmod(0o755)


def test_a_read_only_file_system_can_be_read_and_says_no(small_disk, tmp_path):
    folder = small_disk / "build"
    folder.mkdir()
    desk = Desk(folder, tmp_path / "memory.json")
    desk.write("one")
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)

    desk.open()
    assert desk.texts() == ["one"]
    with pytest.raises(NotSaved, match="may not be written to; allow that, or work in a copy"):
        desk.write("two")
    assert desk.texts() == ["one"]
    subprocess.run(["mount", "-o", "remount,rw", str(small_disk)], check=True)
    desk.write("two")
    assert desk.texts() == ["one", "two"]
    assert len(list((folder / "journal").iterdir())) == 1
