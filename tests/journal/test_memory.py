"""What is remembered outside the folder: kept, or cleanly forgotten."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.journal.desk import Desk
from tracker.journal import Memory
from tracker.journal.memory import Remembered, _parse

VALUE = Remembered("b", "waaaaaaa", 3, 600, "0" * 32, {"xaaaaaaa.log": (200, "1" * 32)})


def test_what_is_saved_is_loaded_by_the_next_program(tmp_path):
    file = tmp_path / "data" / "closein" / "memory.json"
    Memory(file).save(VALUE)

    assert Memory(file).load("b") == VALUE
    assert Memory(file).load("another build") is None
    assert json.loads(file.read_text())["writer"] == "waaaaaaa"


def test_names_that_need_escapes_come_back(tmp_path):
    odd = VALUE._replace(build='b"\\\n', seen={'x"\udcff\n.log': (1, "2" * 32)})
    Memory(tmp_path / "m").save(odd)

    assert Memory(tmp_path / "m").load(odd.build) == odd


def test_a_shorter_memory_written_over_a_longer_one_is_whole(tmp_path):
    memory = Memory(tmp_path / "m")
    memory.save(VALUE)
    memory.save(VALUE._replace(seen={}))

    assert Memory(tmp_path / "m").load("b") == VALUE._replace(seen={})


def test_what_another_program_saved_meanwhile_is_loaded(tmp_path):
    one, two = Memory(tmp_path / "m"), Memory(tmp_path / "m")
    one.save(VALUE)
    assert two.load("b") == VALUE
    two.save(VALUE._replace(sequence=4))

    assert one.load("b") == VALUE._replace(sequence=4)


@given(st.binary(max_size=60) | st.recursive(
    st.none() | st.integers() | st.text(max_size=4),
    lambda inner: st.lists(inner, max_size=3)
    | st.dictionaries(st.sampled_from([*VALUE._fields, "x"]), inner, max_size=7),
).map(lambda value: json.dumps(value).encode()))  # fmt: skip
def test_nonsense_in_the_memory_is_nothing_remembered(data):
    assert _parse(data) is None


def test_any_part_of_a_memory_is_nothing_remembered_or_the_whole(tmp_path):
    Memory(tmp_path / "m").save(VALUE)
    data = (tmp_path / "m").read_bytes()
    for cut in range(len(data) + 1):
        assert _parse(data[:cut]) in (None, VALUE)
    assert _parse(data) == VALUE


@pytest.mark.parametrize(
    "field", [{"writer": "../x"}, {"writer": 5}, {"sequence": "3"}, {"seen": {"a": [1]}}]
)
def test_a_memory_with_one_wrong_field_is_nothing_remembered(field):
    raw = VALUE._asdict() | field
    assert _parse(json.dumps(raw).encode()) is None


def test_a_lost_or_broken_memory_begins_a_new_file_and_loses_nothing(tmp_path):
    folder = tmp_path / "build"
    folder.mkdir()
    Desk(folder, tmp_path / "m", "w").write("one")
    (tmp_path / "m").unlink()
    Desk(folder, tmp_path / "m", "x").write("two")
    (tmp_path / "m").write_bytes(b'{"build":')
    last = Desk(folder, tmp_path / "m", "y")
    last.write("three")

    assert last.texts() == ["one", "two", "three"]
    assert last.read().faults == ()
    assert len(list((folder / "journal").iterdir())) == 3


def test_a_memory_that_cannot_be_written_is_kept_as_long_as_the_program_runs(tmp_path):
    (tmp_path / "file").write_text("no folder")
    desk = Desk(tmp_path, tmp_path / "file" / "memory.json")
    for n in range(3):
        desk.write(n)

    assert [log.name for log in (tmp_path / "journal").iterdir()] == ["waaaaaaa.log"]
    assert desk.texts() == ["0", "1", "2"]


def test_no_memory_file_at_all_remembers_as_long_as_it_lives():
    memory = Memory(None)
    memory.save(VALUE)

    assert memory.load("b") == VALUE
    assert Memory(None).load("b") is None


def test_a_memory_gives_its_file_back(tmp_path):
    descriptors = Path("/dev/fd")
    before = len(list(descriptors.iterdir()))
    for _ in range(5):
        memory = Memory(tmp_path / "m")
        memory.save(VALUE)
        del memory

    assert len(list(descriptors.iterdir())) == before
