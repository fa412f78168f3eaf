"""Lines cut at every byte, then reopened, written to and reopened again."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.journal.desk import BUILD, Desk, kinds, note
from tests.journal.disks import SimulatedDisk
from tracker.journal import Journal, Memory
from tracker.journal.memory import Remembered

FOLDER = Path("/build")
LOG = FOLDER / "journal" / "waaaaaaa.log"


def written(texts: str) -> tuple[bytes, list[Remembered]]:
    """The file of these acts, and what was remembered after each."""
    memory = Memory(None)
    desk = Desk(FOLDER, memory, disk=SimulatedDisk())
    remembered = []
    for text in texts:
        desk.write(text)
        value = memory.load(BUILD)
        assert value is not None
        remembered.append(value)
    assert isinstance(desk.disk, SimulatedDisk)
    return desk.disk.file("waaaaaaa.log"), remembered


def reopened(data: bytes, remembered: Remembered | None, prefix: str = "x") -> Desk:
    memory = Memory(None)
    if remembered:
        memory.save(remembered)
    disk = SimulatedDisk()
    disk.put(LOG, data)
    desk = Desk(FOLDER, memory, prefix, disk=disk)
    desk.now += 100_000
    return desk


DATA, REMEMBERED = written("abc")
ENDS = [i + 1 for i, byte in enumerate(DATA) if byte == 10]


@pytest.mark.parametrize("acknowledged", [1, 2])
def test_a_tail_cut_at_any_byte_loses_nothing_that_was_acknowledged(acknowledged):
    start, end = ENDS[acknowledged - 1], ENDS[acknowledged]
    for cut in range(start, end + 1):
        desk = reopened(DATA[:cut], REMEMBERED[acknowledged - 1])
        expected = list("abc"[: acknowledged + (cut >= end - 1)])
        found = desk.read()

        assert desk.texts() == expected, cut
        assert kinds(found) == (
            [] if cut in (start, end) else ["torn-complete"] if cut == end - 1 else ["torn"]
        ), cut
        desk.write("new")
        assert desk.texts() == [*expected, "new"], cut
        desk.open()
        assert desk.texts() == [*expected, "new"], cut
        assert desk.read().faults == (), cut
        desk.write("newer")
        desk.open()
        assert desk.texts() == [*expected, "new", "newer"], cut
        torn = start < cut < end - 1
        side = [n for n in desk.disk.names if ".rest-" in n]
        assert [desk.disk.names[n].pending for n in side] == ([DATA[start:cut]] if torn else [])


def test_a_first_act_cut_at_any_byte_is_put_aside_too():
    root = REMEMBERED[0]
    fresh = Desk(FOLDER, Memory(None), disk=SimulatedDisk())
    with fresh.journal.writing() as pen:
        before, _ = pen._own()
    assert before.writer == root.writer
    for cut in range(1, ENDS[0]):
        desk = reopened(DATA[:cut], before)
        expected = ["a"] if cut == ENDS[0] - 1 else []

        assert desk.texts() == expected
        desk.write("new")
        assert desk.open().read().faults == ()
        assert desk.texts() == [*expected, "new"]


def test_acknowledged_bytes_that_went_are_never_taken_for_a_torn_tail():
    for cut in range(ENDS[0], ENDS[2] - 1):
        desk = reopened(DATA[:cut], REMEMBERED[2])
        expected = list("abc"[: DATA[:cut].count(b"\n")])
        if cut == ENDS[1] - 1:
            expected = ["a"]

        assert "shorter" in kinds(desk.read()), cut
        assert desk.texts() == expected, cut
        desk.write("new")
        assert desk.disk.file("waaaaaaa.log") == DATA[:cut], cut
        assert desk.texts() == [*expected, "new"], cut


def test_another_persons_tail_is_never_touched_wherever_it_is_cut():
    for cut in range(1, len(DATA)):
        desk = reopened(DATA[:cut], None)
        whole = list("abc"[: DATA[:cut].count(b"\n")])

        assert desk.texts() == whole
        assert kinds(desk.read()) == ([] if cut in ENDS else ["arriving"])
        desk.write("new")
        assert desk.disk.file("waaaaaaa.log") == DATA[:cut]
        assert desk.texts() == [*whole, "new"]
        assert desk.open().read().acts[-1].facts == tuple(note("new"))


def test_a_file_that_arrives_byte_by_byte_reads_as_if_it_had_come_at_once():
    desk = reopened(b"", None)
    inode = desk.disk.names[str(LOG)]
    reader: Journal = desk.journal
    for cut in range(1, len(DATA) + 1):
        inode.pending = DATA[:cut]
        assert reader.changed()
        assert reader.read() == reopened(DATA[:cut], None).journal.read()
        assert not reader.changed()
