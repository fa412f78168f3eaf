"""The fold of many acts, and reading them, against decoding the same lines as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from tests.bench.acts import WRITERS, many_acts, unread
from tests.bench.clock import in_turn, ratio_line
from tracker.act import Act, stamp_of
from tracker.build.fold import fold
from tracker.journal import Journal
from tracker.journal.codec import BODY_START, checksum_of, encode, root_checksum
from tracker.journal.memory import Memory

ACTS, ROUNDS = 20_000, 9
BUILD_ID = "bench"


def write_journal(folder: Path, acts: list[Act]) -> list[bytes]:
    """Write the acts as their writers would have, and give all the lines without newline."""
    (folder / "journal").mkdir(parents=True)
    every: list[bytes] = []
    for writer in WRITERS:
        prev, lines = root_checksum(BUILD_ID, writer), []
        for act in acts:
            if f"-{writer}-" in act.id:
                line = encode(act.id, prev, act.at, act.when, act.by, act.facts)
                prev = line[: BODY_START - 1].decode()
                lines.append(line)
        (folder / "journal" / f"{writer}.log").write_bytes(b"".join(lines))
        every += [line.rstrip(b"\n") for line in lines]
    assert checksum_of(every[0][BODY_START:]) == every[0][: BODY_START - 1].decode()
    return every


def folding(folder: Path) -> Iterator[str]:
    """The lines of the report.

    Parameters
    ----------
    folder: an empty folder that the acts may be written into.
    """
    acts = many_acts(ACTS)
    lines = write_journal(folder / "build", acts)
    bodies = [line[BODY_START:] for line in lines]
    now_ms = stamp_of(acts[-1].id)

    def read_all() -> int:
        memory = Memory(folder / "memory.json")
        journal = Journal(folder / "build", BUILD_ID, memory=memory, new_writer=lambda: "dddddddd")
        return len(journal.read(now_ms).acts)

    if unread(acts) or read_all() != ACTS:
        raise SystemExit("bench: the build does not take the acts that are measured")
    took = in_turn(
        ROUNDS,
        {
            "json": lambda: [json.loads(body) for body in bodies],
            "fold": lambda: fold(acts),
            "read": read_all,
        },
    )
    base = took["json"]
    yield ratio_line(f"fold of {ACTS} acts", took["fold"], "json.loads of their lines", base, 2)
    yield ratio_line(f"reading {ACTS} acts", took["read"], "json.loads of their lines", base, 1.6)
