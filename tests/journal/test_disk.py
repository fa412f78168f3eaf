"""The real disk: what it sees, and that no file is missed."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from tracker.journal import RealDisk


def test_a_file_that_comes_right_after_another_is_not_missed(tmp_path):
    disk = RealDisk()
    for n in range(300):
        (tmp_path / f"{n}.log").write_bytes(b"x")
        assert len(disk.looks(tmp_path)) == n + 1


def test_a_folder_long_at_rest_is_seen_to_change(tmp_path):
    disk = RealDisk()
    (tmp_path / "a.log").write_bytes(b"x")
    old = time.time_ns() - 60 * 10**9 + 1
    os.utime(tmp_path, ns=(old, old))
    assert set(disk.looks(tmp_path)) == {"a.log"}
    (tmp_path / "a.log").write_bytes(b"xyz")
    assert disk.looks(tmp_path)["a.log"].size == 3
    (tmp_path / "b.log").write_bytes(b"x")
    assert set(disk.looks(tmp_path)) == {"a.log", "b.log"}
    (tmp_path / "a.log").unlink()
    assert set(disk.looks(tmp_path)) == {"b.log"}


@pytest.mark.parametrize("age_ns", [0, 60 * 10**9], ids=["just now", "on a whole second"])
def test_a_file_is_not_missed_where_the_folders_time_is_too_coarse_to_tell(tmp_path, age_ns):
    disk = RealDisk()
    moment = time.time_ns() - age_ns
    moment -= moment % 10**9 if age_ns else 0
    for name in ("a.log", "b.log"):
        (tmp_path / name).write_bytes(b"x")
        os.utime(tmp_path, ns=(moment, moment))
        seen = disk.looks(tmp_path)
    assert set(seen) == {"a.log", "b.log"}


def test_one_disk_keeps_two_folders_apart(tmp_path):
    disk = RealDisk()
    old = time.time_ns() - 60 * 10**9 + 1
    for name in "ab":
        (tmp_path / name).mkdir()
        (tmp_path / name / f"{name}.log").write_bytes(b"x")
        os.utime(tmp_path / name, ns=(old, old))
    for name in "abab":
        assert set(disk.looks(tmp_path / name)) == {f"{name}.log"}


def test_no_folder_and_no_file_are_nothing_yet(tmp_path):
    assert RealDisk().looks(tmp_path / "none") == {}
    assert RealDisk().read(tmp_path / "none.log", 0) == b""


def test_a_long_file_is_read_whole_and_from_anywhere(tmp_path):
    data = bytes(range(256)) * 10_000
    (tmp_path / "a.log").write_bytes(data)

    assert RealDisk().read(tmp_path / "a.log", 0) == data
    assert RealDisk().read(tmp_path / "a.log", 2_000_001) == data[2_000_001:]


def test_appending_goes_to_the_end_whoever_wrote_last(tmp_path):
    disk = RealDisk()
    file = tmp_path / "a.log"
    one, two = disk.append_to(file), disk.append_to(file)
    disk.write(one, b"1")
    disk.write(two, b"2")
    disk.write(one, b"3")
    disk.truncate(two, 2)
    disk.sync(one)
    disk.sync_folder(tmp_path)
    assert disk.look(one).size == 2
    disk.close(one)
    disk.close(two)

    assert file.read_bytes() == b"12"
    with pytest.raises(FileExistsError):
        disk.append_to(file, new=True)


def test_handles_do_not_pass_to_other_programs(tmp_path):
    disk = RealDisk()
    for handle in (disk.append_to(tmp_path / "a.log"), disk.lock(tmp_path / ".lock")):
        assert not os.get_inheritable(handle)
        disk.close(handle)


def test_only_the_disk_and_the_memory_import_the_operating_system():
    room = Path(__file__).parents[2] / "tracker" / "journal"
    users = {
        source.name
        for source in room.glob("*.py")
        if any(line in ("import os", "import fcntl") for line in source.read_text().splitlines())
    }
    assert users == {"disk.py", "memory.py"}
