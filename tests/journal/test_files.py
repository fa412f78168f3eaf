"""Files that arrive in any order, in any pieces, come to the same journal."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journal.desk import AT, BUILD, note
from tests.journal.disks import SimulatedDisk
from tracker.act import act_id
from tracker.journal.codec import encode, root_checksum
from tracker.journal.files import Files

JOURNAL = Path("/build/journal")
NAMES = ["aaaaaaaa", "baaaaaaa", "caaaaaaa"]


def file_of(writer: str, stamps: list[int]) -> bytes:
    """A writer's file whose acts carry these stamps, ms."""
    prev, data = root_checksum(BUILD, writer), b""
    for sequence, stamp in enumerate(sorted(stamps), 1):
        line = encode(act_id(stamp, writer, sequence), prev, AT, None, writer, note(sequence))
        prev, data = line[:32].decode(), data + line
    return data


drifting = st.lists(
    st.lists(st.integers(0, 30), min_size=0, max_size=5, unique=True), min_size=3, max_size=3
)


def shown(disk: SimulatedDisk, files: Files | None = None) -> object:
    files = files or Files(JOURNAL, BUILD, disk)
    files.refresh()
    return files.reading(None, 5)


@settings(max_examples=60)
@given(drifting, st.data())
def test_pieces_that_arrive_in_any_order_read_at_each_step_as_if_read_at_once(clocks, data):
    whole = {f"{n}.log": file_of(n, s) for n, s in zip(NAMES, clocks, strict=True)}
    disk = SimulatedDisk()
    watching = Files(JOURNAL, BUILD, disk)
    here = dict.fromkeys(whole, 0)
    while any(here[name] < len(whole[name]) for name in whole):
        name = data.draw(st.sampled_from([n for n in whole if here[n] < len(whole[n])]))
        here[name] += data.draw(st.integers(1, len(whole[name]) - here[name]))
        if str(JOURNAL / name) not in disk.names:
            disk.put(JOURNAL / name, b"")
        disk.names[str(JOURNAL / name)].pending = whole[name][: here[name]]
        if data.draw(st.booleans()):
            assert shown(disk, watching) == shown(disk)
    reading = watching.reading(None, 5) if not watching.changed() else shown(disk, watching)

    assert reading == shown(disk)
    ids = [act.id for act in reading.acts]
    assert ids == sorted(ids)
    assert len(ids) == sum(map(len, clocks))
    assert reading.faults == ()


@settings(max_examples=50)
@given(drifting, st.permutations(range(3)), st.sets(st.integers(0, 2)))
def test_copies_under_other_names_and_in_other_order_change_no_act(clocks, order, again):
    contents = [file_of(n, s) for n, s in zip(NAMES, clocks, strict=True)]
    plain, mixed = SimulatedDisk(), SimulatedDisk()
    for name, data in zip(NAMES, contents, strict=True):
        plain.put(JOURNAL / f"{name}.log", data)
    for n in order:
        mixed.put(JOURNAL / f"renamed {n}.log", contents[n])
    for n in again:
        mixed.put(JOURNAL / f"again {n}.log", contents[n])

    assert shown(mixed).acts == shown(plain).acts
    assert {f.kind for f in shown(mixed).faults} <= {"repeated"}


def test_a_file_that_is_gone_takes_its_acts_with_it_and_brings_them_back():
    disk = SimulatedDisk()
    for name in NAMES:
        disk.put(JOURNAL / f"{name}.log", file_of(name, [1, 2]))
    files = Files(JOURNAL, BUILD, disk)
    assert len(shown(disk, files).acts) == 6
    gone = disk.names.pop(str(JOURNAL / "baaaaaaa.log"))
    assert len(shown(disk, files).acts) == 4
    disk.names[str(JOURNAL / "baaaaaaa.log")] = gone
    assert len(shown(disk, files).acts) == 6


def test_unchanged_files_are_not_opened_again_and_grown_ones_only_at_their_end():
    starts: list[tuple[str, int]] = []

    class Watched(SimulatedDisk):
        def read(self, file: Path, start: int) -> bytes:
            starts.append((file.stem[0], start))
            return super().read(file, start)

    disk = Watched()
    data = file_of("aaaaaaaa", [1, 2, 3])
    disk.put(JOURNAL / "aaaaaaaa.log", data[:-300])
    disk.put(JOURNAL / "baaaaaaa.log", file_of("baaaaaaa", [1]))
    files = Files(JOURNAL, BUILD, disk)
    shown(disk, files)
    shown(disk, files)
    assert sorted(starts) == [("a", 0), ("b", 0)]
    disk.names[str(JOURNAL / "aaaaaaaa.log")].pending = data
    shown(disk, files)

    assert len(starts) == 3
    assert 0 <= starts[2][1] < len(data) - 300


def test_a_longer_file_that_took_anothers_place_is_read_from_its_start():
    disk = SimulatedDisk()
    data = file_of("aaaaaaaa", [1, 2, 3])
    disk.put(JOURNAL / "aaaaaaaa.log", data[: data.index(b"\n", 300) + 1])
    files = Files(JOURNAL, BUILD, disk)
    assert shown(disk, files).faults == ()
    disk.put(JOURNAL / "aaaaaaaa.log", data.replace(b'"text":"1"', b'"text":"?"'))

    assert [f.kind for f in shown(disk, files).faults] == ["damaged"]
    assert shown(disk, files) == shown(disk)


def test_a_file_that_grew_but_no_longer_holds_its_last_line_is_read_from_its_start():
    disk = SimulatedDisk()
    data = file_of("aaaaaaaa", [1, 2, 3])
    end = data.index(b"\n", 300) + 1
    disk.put(JOURNAL / "aaaaaaaa.log", data[:end])
    files = Files(JOURNAL, BUILD, disk)
    shown(disk, files)
    disk.names[str(JOURNAL / "aaaaaaaa.log")].pending = data[:end].replace(b'2"}', b'?"}') + data

    assert "damaged" in [f.kind for f in shown(disk, files).faults]
    assert shown(disk, files) == shown(disk)
