"""Lines removed, moved, doubled, converted: what is kept, and what is said."""

from __future__ import annotations

from itertools import combinations, permutations

import pytest

from tests.journal.desk import kinds, reservations
from tests.journal.test_torn_tails import DATA, REMEMBERED, reopened, written

LINES = DATA.splitlines(keepends=True)
FIVE, _ = written("abcde")
FIVE_LINES = FIVE.splitlines(keepends=True)


def test_any_lines_removed_before_the_last_leave_a_gap_for_each_hole():
    for count in range(1, 5):
        for removed in combinations(range(4), count):
            kept = [n for n in range(5) if n not in removed]
            desk = reopened(b"".join(FIVE_LINES[n] for n in kept), None)
            holes = sum(1 for n in kept if n - 1 in removed)

            assert desk.texts() == ["abcde"[n] for n in kept]
            assert kinds(desk.read()) == ["gap"] * holes


def test_lines_in_any_other_order_keep_every_act_and_are_a_reservation():
    for order in permutations(range(4)):
        desk = reopened(b"".join(FIVE_LINES[n] for n in order), None)

        assert desk.texts() == list("abcd")
        assert bool(reservations(desk.read())) == (order != tuple(range(4)))


@pytest.mark.parametrize("place", range(5))
@pytest.mark.parametrize("line", range(5))
def test_a_doubled_line_counts_once_wherever_it_stands(line, place):
    doubled = [*FIVE_LINES[: place + 1], FIVE_LINES[line], *FIVE_LINES[place + 1 :]]
    desk = reopened(b"".join(doubled), None)

    assert desk.texts() == list("abcde")
    assert "repeated" in kinds(desk.read())
    assert bool(reservations(desk.read())) == (line > place + 1)


def test_a_doubled_file_counts_once_and_is_not_carried_on():
    desk = reopened(DATA + DATA, REMEMBERED[2])

    assert desk.texts() == list("abc")
    desk.write("d")
    assert desk.disk.file("waaaaaaa.log") == DATA + DATA
    assert desk.texts() == list("abcd")


@pytest.mark.parametrize(
    "converted",
    [
        DATA.replace(b"\n", b"\r\n"),
        DATA.replace(b"\n", b"\r"),
        DATA.replace(b"\n", b"\n\n"),
        DATA.decode().encode("utf-16"),
        b"\xef\xbb\xbf" + DATA,
        DATA.upper(),
    ],
    ids=["crlf", "cr", "blank-lines", "utf-16", "byte-order-mark", "capitals"],
)
def test_a_converted_file_changes_no_act_and_is_a_reservation_for_its_owner(converted):
    desk = reopened(converted, REMEMBERED[2])
    kept = desk.texts()

    assert set(kept) <= set("abc")
    assert reservations(desk.read())
    desk.write("new")
    assert desk.texts() == [*kept, "new"]
    assert desk.disk.file("waaaaaaa.log") == converted


def test_a_line_of_one_file_moved_into_another_keeps_its_act():
    other = reopened(DATA, None)
    other.write("x")
    line = other.disk.file("xaaaaaaa.log")
    desk = reopened(DATA + line, None)

    assert desk.texts() == ["a", "b", "c", "x"]
    assert kinds(desk.read()) == ["gap"]


def test_an_emptied_file_is_noticed_by_whoever_remembers_it():
    desk = reopened(b"", REMEMBERED[2])

    assert kinds(desk.read()) == ["shorter"]
    desk.write("new")
    assert desk.texts() == ["new"]
    assert desk.disk.file("waaaaaaa.log") == b""


def test_lines_swapped_in_a_file_that_is_open_are_noticed_at_the_next_look():
    desk = reopened(DATA, None)
    assert desk.read().faults == ()
    inode = next(iter(desk.disk.names.values()))
    inode.pending = LINES[0] + LINES[2] + LINES[1]

    assert desk.journal.changed()
    assert desk.texts() == list("abc")
    assert reservations(desk.read())
