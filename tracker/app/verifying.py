"""Looking over a build's record from its first byte, without changing one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from tracker.app.folder import read_mark
from tracker.app.places import data_folder, memory_file
from tracker.app.session import now_here
from tracker.build.fold import fold
from tracker.journal import Fault, Journal, Memory, verify


@dataclass(frozen=True, slots=True)
class Overlook:
    """What was found.

    Parameters
    ----------
    folder: the build folder.
    name: the build's name.
    files: journal files there are.
    acts: acts that count.
    faults: everything that is not as it should be, with file and line.
    accepted: of those, the keys somebody accepted, and why.
    """

    folder: Path
    name: str
    files: int
    acts: int
    faults: tuple[Fault, ...]
    accepted: Mapping[str, str]


def look_over(folder: Path, data: Path | None = None) -> Overlook:
    """Walk every file of a build's journal.

    Parameters
    ----------
    folder: the build folder.
    data: the user's data folder, which remembers how files ended.
    """
    marked = read_mark(folder)
    now_ms = int(now_here().timestamp() * 1000)
    memory = Memory(memory_file(data if data is not None else data_folder(), folder))
    faults = verify(folder, marked.id, memory=memory, now_ms=now_ms)
    journal = Journal(folder, marked.id, memory=memory, new_writer=str)
    acts = journal.read(now_ms).acts
    accepted = {key: row.why for key, row in fold(acts).accepted.items()}
    files = len(list((folder / "journal").glob("*.log")))
    return Overlook(folder, marked.name, files, len(acts), faults, accepted)
