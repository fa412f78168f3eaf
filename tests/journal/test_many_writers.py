"""Four writers at once, and a reader that watches them."""

from __future__ import annotations

import threading
from itertools import chain
from pathlib import Path

from tests.journal.desk import BUILD, Desk, kinds
from tests.journal.processes import Child, saved
from tracker.journal import verify

EACH = 130
FACTS = 40


def test_four_writers_from_one_barrier_lose_nothing_and_the_reader_never_sees_a_part(tmp_path):
    folder = tmp_path / "build"
    folder.mkdir()
    memories = ["shared.json", "shared.json", "own-1.json", "own-2.json"]
    children = [
        Child(folder, tmp_path / memory, prefix, EACH, FACTS, 400)
        for prefix, memory in zip("abcd", memories, strict=True)
    ]
    said: dict[int, list[str]] = {}
    listeners = [
        threading.Thread(target=lambda n=n, c=c: said.__setitem__(n, c.lines.readlines()))
        for n, c in enumerate(children)
    ]
    reader = Desk(folder, None)
    counts = []
    for thread in listeners:
        thread.start()
    for child in children:
        child.begin()
    before: tuple[str, ...] = ()
    while any(thread.is_alive() for thread in listeners):
        reading = reader.journal.read()
        ids = tuple(act.id for act in reading.acts)
        assert all(len(act.facts) == FACTS for act in reading.acts)
        assert {*kinds(reading)} <= {"arriving"}
        assert set(before) <= set(ids)
        before = ids
        counts.append(len(ids))
    for thread in listeners:
        thread.join()
    assert [child.end()[1:] for child in children] == [("", 0)] * 4

    acknowledged = [saved([line.strip() for line in said[n]]) for n in range(4)]
    assert [len(ids) for ids in acknowledged] == [EACH] * 4
    reading = reader.open().read()
    assert reading.faults == ()
    assert [act.id for act in reading.acts] == sorted(chain(*acknowledged))
    assert len({act.id for act in reading.acts}) == 4 * EACH >= 500
    for number, prefix in enumerate("abcd"):
        mine = [act for act in reading.acts if act.by == prefix]
        assert [act.id for act in mine] == acknowledged[number]
        assert [act.facts[0]["text"] for act in mine] == [f"{prefix}:{n}" for n in range(EACH)]
    assert verify(folder, BUILD) == ()
    assert len(set(counts)) > 3, "the reader saw nothing of the writing"
    assert one_line_an_act(folder) == 4 * EACH


def one_line_an_act(folder: Path) -> int:
    return sum(f.read_bytes().count(b"\n") for f in (folder / "journal").glob("*.log"))
