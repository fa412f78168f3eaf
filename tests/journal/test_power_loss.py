"""A disk that loses power before each of its operations: what was acknowledged is there."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.journal.desk import BUILD, Desk, kinds
from tests.journal.disks import PowerLost, SimulatedDisk
from tests.journal.test_torn_tails import DATA, ENDS, LOG, REMEMBERED
from tracker.journal import Memory
from tracker.journal.memory import Remembered

FOLDER = Path("/build")
MANY = 200


class KeptMemory(Memory):
    """A memory that knows what it held before; the last of it may not have reached the disk."""

    def __init__(self, value: Remembered | None = None) -> None:
        super().__init__(None)
        self.history: list[Remembered | None] = [None]
        if value:
            super().save(value)
            self.history.append(value)

    def save(self, value: Remembered) -> None:
        super().save(value)
        self.history.append(value)

    def after_power_loss(self) -> Iterator[KeptMemory]:
        """As last saved, as saved before that, and lost."""
        for value in dict.fromkeys([repr(v) for v in self.history[-3:]] + ["None"]):
            found = next((v for v in self.history if repr(v) == value), None)
            yield KeptMemory(found)


def outcomes(desk: Desk, crash_at: int, texts: str) -> tuple[list[str], bool]:
    """Write these acts with the power lost at an operation: what was acknowledged; was it lost."""
    assert isinstance(desk.disk, SimulatedDisk)
    desk.disk.crash_at = desk.disk.count + crash_at
    acknowledged: list[str] = []
    try:
        for text in texts:
            desk.write(text)
            acknowledged.append(text)
    except PowerLost:
        return acknowledged, True
    return acknowledged, False


def check(disk: SimulatedDisk, memory: KeptMemory, acknowledged: list[str], tried: str) -> None:
    """Open, write, open again: everything acknowledged is there, nothing that was never tried."""
    desk = Desk(FOLDER, memory, "x", disk=disk)
    desk.now += 100_000
    present = desk.texts()
    assert present[: len(acknowledged)] == acknowledged
    assert present == list(tried[: len(present)])
    assert {*kinds(desk.read())} <= {"torn", "torn-complete", "arriving"}
    desk.write("new")
    assert desk.texts() == [*present, "new"]
    desk.open()
    assert desk.texts() == [*present, "new"]
    assert {*kinds(desk.read())} <= {"arriving"}


def test_power_lost_at_any_operation_of_the_first_acts_loses_nothing_acknowledged():
    states = 0
    for crash_at in range(1, MANY):
        memory = KeptMemory()
        desk = Desk(FOLDER, memory, disk=SimulatedDisk())
        acknowledged, lost = outcomes(desk, crash_at, "abc")
        if not lost:
            assert states > 1000
            return
        assert isinstance(desk.disk, SimulatedDisk)
        for disk in desk.disk.after_power_loss(stride=2):
            for found in memory.after_power_loss():
                check(disk_copy(disk), found, acknowledged, "abc")
                states += 1
    pytest.fail("no run passed without a loss of power")


def disk_copy(disk: SimulatedDisk) -> SimulatedDisk:
    copy = SimulatedDisk()
    for path, inode in disk.names.items():
        copy.put(Path(path), inode.pending)
    return copy


@pytest.mark.parametrize("cut", [1, 40, ENDS[1] - ENDS[0] - 1])
def test_power_lost_again_while_a_torn_tail_is_put_aside_loses_nothing_acknowledged(cut):
    whole = cut == ENDS[1] - ENDS[0] - 1
    for crash_at in range(1, MANY):
        memory = KeptMemory(REMEMBERED[0])
        start = SimulatedDisk()
        start.put(LOG, DATA[: ENDS[0] + cut])
        desk = Desk(FOLDER, memory, "y", disk=start)
        desk.now += 50_000
        acknowledged, lost = outcomes(desk, crash_at, "cd")
        if not lost:
            return
        tried = "abcd" if whole else "acd"
        known = ["a", *(["b"] if whole and acknowledged else []), *acknowledged]
        for disk in start.after_power_loss(stride=7):
            torn = DATA[ENDS[0] : ENDS[0] + cut]
            assert any(torn in inode.pending for inode in disk.names.values()), "bytes were lost"
            for found in memory.after_power_loss():
                if found.load(BUILD) is None and whole and not acknowledged:
                    continue  # whose rest it is was forgotten: it waits, as any other person's
                check(disk_copy(disk), found, known, tried)
    pytest.fail("no run passed without a loss of power")


def test_an_act_that_a_process_died_over_before_syncing_is_synced_before_others_build_on_it():
    memory = KeptMemory()
    desk = Desk(FOLDER, memory, disk=SimulatedDisk())
    desk.write("a")
    disk = desk.disk
    assert isinstance(disk, SimulatedDisk)
    inode = disk.names[str(LOG)]
    older = memory.history[-1]
    desk.write("b")
    inode.durable = inode.durable[: ENDS[0]]
    memory.save(older)

    again = Desk(FOLDER, memory, "x", disk=disk)
    again.now += 100_000
    again.write("c")

    for left in disk.after_power_loss():
        assert Desk(FOLDER, None, disk=left).texts() == ["a", "b", "c"]


def test_a_disk_that_forgets_to_sync_would_be_found_out():
    class Forgetful(SimulatedDisk):
        def sync(self, handle: int) -> None:
            self._step()

    desk = Desk(FOLDER, KeptMemory(), disk=Forgetful())
    desk.write("a")
    assert isinstance(desk.disk, SimulatedDisk)

    found = [Desk(FOLDER, None, disk=left).texts() for left in desk.disk.after_power_loss()]
    assert [] in found
