"""A disk that refuses its nth operation, n rising until it passes; once, and for ever."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.journal.desk import BUILD, Desk, kinds, note, reservations
from tests.journal.disks import FaultyDisk, SimulatedDisk
from tests.journal.test_torn_tails import DATA, ENDS, LOG, REMEMBERED
from tracker.errors import BadInput, CloseinError, NotSaved
from tracker.journal import Memory

FOLDER = Path("/build")
MANY = 200

MANNERS = {
    "nothing taken": {},
    "half taken, then an error": {"taken": 50},
    "half taken, a short count": {"taken": 50, "short": True},
    "nothing taken, a short count": {"short": True},
    "all taken, then an error": {"taken": 100},
    "all but the newline taken, then an error": {"taken": -1},
    "all but the newline taken, a short count": {"taken": -1, "short": True},
    "full": {"taken": 50, "code": errno.ENOSPC},
}

Start = Callable[[], tuple[SimulatedDisk, Memory]]


def empty() -> tuple[SimulatedDisk, Memory]:
    return SimulatedDisk(), Memory(None)


def with_tail(cut: int) -> tuple[SimulatedDisk, Memory]:
    """One act acknowledged, and a second one cut off."""
    disk, memory = SimulatedDisk(), Memory(None)
    disk.put(LOG, DATA[: ENDS[0] + cut])
    memory.save(REMEMBERED[0])
    return disk, memory


STARTS: dict[str, Start] = {
    "an empty folder": empty,
    "a tail to put aside": lambda: with_tail(40),
    "a tail that lacks its newline": lambda: with_tail(ENDS[1] - ENDS[0] - 1),
}


@pytest.mark.parametrize("manner", MANNERS)
@pytest.mark.parametrize("forever", [False, True], ids=["once", "for ever"])
@pytest.mark.parametrize("start", STARTS)
def test_whatever_the_disk_refuses_what_was_acknowledged_is_there(start, forever, manner):
    for nth in range(1, MANY):
        real, memory = STARTS[start]()
        known = Desk(FOLDER, memory, "x", disk=real).texts()
        faulty = FaultyDisk(real, nth, forever=forever, **MANNERS[manner])
        desk = Desk(FOLDER, memory, "y", disk=faulty)
        desk.now += 100_000
        acknowledged, doubted = list(known), []
        for text in ("one", "two", "three"):
            try:
                desk.write(text)
                acknowledged.append(text)
            except NotSaved:
                if desk.journal._doubt:
                    doubted.append(text)
        if not faulty.failed:
            assert acknowledged == [*known, "one", "two", "three"]
            return

        again = Desk(FOLDER, memory, "z", disk=real)
        again.now += 200_000
        present = again.texts()
        assert set(acknowledged) <= set(present), (nth, faulty.log)
        assert set(present) <= {*acknowledged, *doubted[:1]}, (nth, faulty.log)
        assert reservations(again.read()) == [], (nth, faulty.log)
        again.write("after")
        assert again.texts() == [*present, "after"]
        again.open()
        assert again.texts() == [*present, "after"]
        assert {*kinds(again.read())} <= {"arriving"}, (nth, faulty.log)
    pytest.fail("no run passed without a fault")


@pytest.mark.parametrize("start", STARTS)
def test_what_was_refused_once_is_taken_at_the_next_attempt_unless_its_fate_is_unknown(start):
    refused = 0
    for nth in range(1, MANY):
        real, memory = STARTS[start]()
        faulty = FaultyDisk(real, nth, taken=50, code=errno.ENOSPC)
        desk = Desk(FOLDER, memory, "y", disk=faulty)
        desk.now += 100_000
        try:
            desk.write("one")
        except NotSaved as error:
            refused += 1
            if "may or may not be kept" in str(error):
                with pytest.raises(NotSaved, match="may or may not be kept"):
                    desk.write("two")
                desk.open()
                known = desk.texts()
                desk.write("two")
                assert desk.texts() == [*known, "two"]
                continue
            assert "one" not in Desk(FOLDER, memory, disk=real).texts()
            desk.write("one")
        assert Desk(FOLDER, memory, disk=real).texts().count("one") == 1
        if not faulty.failed:
            break
    assert refused > 5


def test_a_refused_reading_is_one_sentence_and_the_next_one_works():
    disk = SimulatedDisk()
    disk.put(LOG, DATA)
    for nth in (1, 2):
        faulty = FaultyDisk(disk, nth)
        desk = Desk(FOLDER, None, disk=faulty)

        with pytest.raises(CloseinError, match="can't be read"):
            desk.read()
        assert desk.journal.changed()
        assert desk.texts() == ["a", "b", "c"]


def test_a_failed_sync_is_not_tried_again():
    real, memory = empty()
    desk = Desk(FOLDER, memory, disk=real)
    desk.write("zero")
    faulty = FaultyDisk(real, 0)
    desk.disk = faulty
    desk.open()
    desk.write("one")
    before = len(faulty.log)
    desk.write("two")
    faulty.nth = faulty.count + 1 + faulty.log[before:].index("sync")
    before = len(faulty.log)

    with pytest.raises(NotSaved, match="may or may not be kept"):
        desk.write("three")

    assert faulty.log[before:].count("sync") == 1
    assert memory.load(BUILD).sequence == 3
    with pytest.raises(NotSaved), desk.journal.writing():
        pass


@pytest.mark.parametrize(
    ("code", "says"),
    [
        (errno.ENOSPC, "the disk is full, so nothing was saved; make room"),
        (errno.EDQUOT, "the disk is full, so nothing was saved; make room"),
        (errno.EFBIG, "may not grow any longer here, so nothing was saved"),
        (errno.EROFS, "nothing was saved, for it may not be written to"),
        (errno.EACCES, "nothing was saved, for it may not be written to"),
        (errno.EIO, "refused by the test"),
    ],
)
def test_the_sentence_says_what_to_do(code, says):
    desk = Desk(FOLDER, Memory(None), disk=FaultyDisk(SimulatedDisk(), 1, forever=True, code=code))

    with pytest.raises(NotSaved, match=says) as caught:
        desk.write("one")
    assert str(caught.value).startswith("/build: ")
    assert caught.value.exit_status == 3


def test_facts_that_cannot_be_stored_leave_the_folder_as_it_was():
    disk = SimulatedDisk()
    desk = Desk(FOLDER, Memory(None), disk=disk)
    with pytest.raises(BadInput, match="can't be stored"):
        desk.write("half a pair \ud800")
    with (
        pytest.raises(ValueError),
        desk.journal.writing() as pen,
    ):
        pen.append(note("x"), at="yesterday", by="Ida", now_ms=1)

    assert disk.names == {}
    desk.write("fine")
    assert desk.texts() == ["fine"]
