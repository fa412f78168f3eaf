"""Every single bit of a small journal flipped: never a changed act, never silence."""

from __future__ import annotations

import pytest

from tests.journal.desk import kinds, reservations
from tests.journal.test_torn_tails import DATA, REMEMBERED, reopened

ACTS = reopened(DATA, None).read().acts


def flipped(bit: int) -> bytes:
    data = bytearray(DATA)
    data[bit // 8] ^= 1 << bit % 8
    return bytes(data)


@pytest.mark.parametrize("remembered", [None, REMEMBERED[2]], ids=["reader", "owner"])
def test_no_flipped_bit_changes_an_act_or_passes_unnoticed(remembered):
    last_newline = range(8 * len(DATA) - 8, 8 * len(DATA))
    for bit in range(8 * len(DATA)):
        desk = reopened(flipped(bit), remembered)
        reading = desk.read()

        assert len(reading.acts) < 3, bit
        assert set(map(repr, reading.acts)) < set(map(repr, ACTS)), bit
        assert len(reading.acts) >= 1, bit
        if remembered is None and bit in last_newline:
            assert kinds(reading) == ["arriving"], bit
        else:
            assert reservations(reading), bit


def test_after_any_flipped_bit_recording_goes_on_and_no_byte_of_the_file_is_touched():
    for bit in range(0, 8 * len(DATA)):
        desk = reopened(flipped(bit), REMEMBERED[2])
        before = desk.read()
        act = desk.write("new")

        assert desk.disk.file("waaaaaaa.log") == flipped(bit), bit
        after = desk.open().read()
        assert after.acts == (*before.acts, act), bit
        assert reservations(after) == reservations(before), bit
