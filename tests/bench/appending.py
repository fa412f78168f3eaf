"""An acknowledged append against a bare write and fsync of the same bytes."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from tests.bench.acts import BEGAN_MS
from tests.bench.clock import ratio_line, timed
from tracker.journal import Journal
from tracker.journal.memory import Memory

ROUNDS = 400
FACT = {"f": "point.answered", "check": "check:1", "subject": "run:1", "result": "good"}


def appending(folder: Path) -> Iterator[str]:
    """The lines of the report.

    Parameters
    ----------
    folder: an empty folder on the disk to be measured.
    """
    build = folder / "build"
    build.mkdir()
    memory = Memory(folder / "memory.json")
    journal = Journal(build, "bench", memory=memory, new_writer=lambda: "aaaaaaaa")
    log = build / "journal" / "aaaaaaaa.log"
    count = 0

    def append() -> None:
        nonlocal count
        count += 1
        with journal.writing(BEGAN_MS + count) as pen:
            pen.append(
                [FACT], at="2026-03-14T09:26:53+01:00", by="Mara Lindqvist", now_ms=BEGAN_MS + count
            )

    append()
    line = log.read_bytes()
    bare = os.open(folder / "bare.log", os.O_WRONLY | os.O_CREAT | os.O_APPEND)

    def write() -> None:
        os.write(bare, line)
        os.fsync(bare)

    ours, theirs = [], []
    for _ in range(ROUNDS):
        ours.append(timed(append))
        theirs.append(timed(write))
    os.close(bare)
    yield ratio_line("acknowledged append", median(ours), "write and fsync", median(theirs), 1.5)
