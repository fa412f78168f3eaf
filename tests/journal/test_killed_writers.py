"""Real processes killed while they write: what they printed is there, and all of it or nothing."""

from __future__ import annotations

import random
import time
from collections import Counter
from pathlib import Path

import pytest

from tests.journal.desk import Desk, reservations
from tests.journal.processes import Child, saved


def size_of(folder: Path) -> int:
    return sum(f.stat().st_size for f in (folder / "journal").glob("*.log"))


def wait_for_growth(folder: Path, times: int) -> None:
    """Return at the moment the journal has grown so many times."""
    until = time.monotonic() + 20
    before = size_of(folder)
    while times:
        now = size_of(folder)
        if now != before:
            before, times = now, times - 1
        assert time.monotonic() < until, "the writer never wrote"


class Scene:
    """One folder that is killed over and over, and everything that was ever acknowledged in it."""

    def __init__(self, tmp_path: Path, facts: int) -> None:
        self.folder, self.memory, self.facts = tmp_path / "build", tmp_path / "memory.json", facts
        self.folder.mkdir()
        (self.folder / "journal").mkdir()
        self.acknowledged: list[str] = []

    def check(self, child: Child) -> bool:
        """Whether the kill hit, after the folder was read, written to and read again."""
        said, complaints, status = child.end()
        assert complaints == ""
        self.acknowledged += saved(said)
        desk = Desk(self.folder, self.memory, "d")
        desk.now = time.time_ns() // 1_000_000
        first = desk.read()
        assert set(self.acknowledged) <= {act.id for act in first.acts}
        assert reservations(first) == []
        assert all(len(act.facts) in (1, self.facts) for act in first.acts)
        assert max(Counter(act.id for act in first.acts).values(), default=1) == 1
        assert Desk(self.folder, self.memory, "d").journal.read(desk.now) == first
        act = desk.write("after the kill")
        self.acknowledged.append(act.id)
        assert desk.open().read().acts == (*first.acts, act)
        return status == -9


@pytest.mark.parametrize("aim", ["growth", "a moment"])
def test_a_writer_killed_as_its_file_grows_loses_nothing_it_printed(tmp_path, aim):
    scene = Scene(tmp_path, facts=1)
    hits = 0
    for attempt in range(40):
        child = Child(scene.folder, scene.memory, "k", 5000, size=200)
        child.begin()
        if aim == "growth":
            wait_for_growth(scene.folder, 1 + attempt % 4)
        else:
            assert child.lines.readline() == "begin 0\n"
            time.sleep(random.Random(attempt).uniform(0, 0.01))
        child.process.kill()
        hits += scene.check(child)
        if hits == 16:
            break
    assert hits == 16
    assert len(scene.acknowledged) > hits


def test_a_writer_killed_during_a_large_import_leaves_all_of_it_or_nothing(tmp_path):
    scene = Scene(tmp_path, facts=2000)
    hits = 0
    for attempt in range(40):
        child = Child(scene.folder, scene.memory, "k", 1000, facts=2000, size=400)
        child.begin()
        if attempt % 2:
            wait_for_growth(scene.folder, 1)
        else:
            assert child.lines.readline() == "begin 0\n"
            time.sleep(random.Random(attempt).uniform(0, 0.03))
        child.process.kill()
        hits += scene.check(child)
        if hits == 16:
            break
    desk = Desk(scene.folder, None)
    whole = sum(len(act.facts) == 2000 for act in desk.read().acts)
    torn = len(list((scene.folder / "journal").glob("*.rest-*")))
    assert hits == 16
    assert whole + torn > 0, "no kill came near a write"
