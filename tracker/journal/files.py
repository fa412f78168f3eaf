"""All files of one journal together: read as far as they have grown, merged in order of id."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import chain
from operator import itemgetter
from pathlib import Path

from tracker.act import Act, stamp_of
from tracker.journal.codec import decode
from tracker.journal.disk import SUFFIX, Disk, Look
from tracker.journal.doubles import settle
from tracker.journal.logfile import LogFile
from tracker.journal.memory import Remembered
from tracker.journal.report import Fault, Reading, fault

AHEAD_MS = 3_600_000
"""A stamp that is further ahead of the reader's clock is noticed."""

_identifier = itemgetter(0)


class Files:
    """What has been read of a journal so far.

    Parameters
    ----------
    folder: the journal folder; it may be absent.
    build_id: the build it should belong to.
    disk: where it lies.
    """

    def __init__(self, folder: Path, build_id: str, disk: Disk) -> None:
        self.files: dict[str, LogFile] = {}
        self.newest = ""
        """The greatest id in any file of this build, '' for none."""
        self.folder = folder
        self._build_id, self._disk = build_id, disk
        self._paths: dict[str, Path] = {}
        self._looks: dict[str, Look] = {}
        self._acts: list[Act] = []
        self._kept: tuple[Act, ...] | None = ()
        self._doubles: list[Fault] = []

    def path(self, name: str) -> Path:
        """Where the file of this name lies."""
        path = self._paths.get(name)
        if path is None:
            path = self._paths[name] = self.folder / name
        return path

    def changed(self) -> bool:
        """Whether a file was added, taken away or changed since it was read."""
        return self._disk.looks(self.folder) != self._looks

    def refresh(self) -> None:
        """Read what is new; files that look as before are not opened."""
        looks = self._disk.looks(self.folder)
        if looks == self._looks:
            return
        with _no_sweeping():
            for name, look in looks.items():
                if look != self._looks.get(name):
                    self.files[name] = self._read(name, look)
        for name in self.files.keys() - looks.keys():
            del self.files[name]
        self._looks = looks
        self._merge()

    def _read(self, name: str, look: Look) -> LogFile:
        path = self.path(name)
        before, file = self._looks.get(name), self.files.get(name)
        if before and file and before.inode == look.inode and before.size < look.size:
            known = file.last_line + b"\n" if file.end else b""
            data = self._disk.read(path, file.end - len(known))
            if data.startswith(known):
                file.take(data[len(known) :])
                return file
        file = LogFile(name, self._build_id)
        file.take(self._disk.read(path, 0))
        return file

    def _merge(self) -> None:
        acts = list(chain.from_iterable(file.counting() for file in self.files.values()))
        acts.sort(key=_identifier)
        self._doubles = []
        if len(set(map(_identifier, acts))) != len(acts):
            acts, self._doubles = settle(self.files.values())
        self._acts, self._kept = acts, None
        own = (file.newest for file in self.files.values() if not file.stranger)
        self.newest = max(own, default="")

    def grown(self, file: LogFile, look: Look, line: bytes, found: tuple[str, str, Act]) -> None:
        """Take in the line that was just written here.

        Parameters
        ----------
        file: the writer's file, perhaps new.
        look: the look of the file now.
        line: without its newline.
        found: what it says, as decoded.
        """
        self._looks[file.name] = look
        self.files[file.name] = file
        act = found[2]
        newest = not file.rest and act.id > self.newest
        if file.rest:  # was whole but for the newline that is there now
            file.add(file.rest, *decode(file.rest))
        file.add(line, *found)
        if not newest:
            self._merge()
            return
        self.newest = act.id
        self._acts.append(act)
        self._kept = None

    def reading(self, remembered: Remembered | None, now_ms: int | None) -> Reading:
        """The acts and the faults, as seen by who remembers this.

        Parameters
        ----------
        remembered: of this build folder, if anything is.
        now_ms: the reader's clock, milliseconds since 1970; None looks for no act ahead of it.
        """
        if self._kept is None:
            self._kept = tuple(self._acts)
        acts = self._kept
        faults = list(self._doubles)
        for file in self.files.values():
            faults += file.faults()
            if now_ms is not None and not file.stranger:
                faults += _ahead(file, now_ms)
            if file.rest:
                own = remembered is not None and file.name == remembered.writer + SUFFIX
                whole = file.whole_rest() if own and carries_on(file, remembered) else None
                kind = "torn-complete" if whole else "arriving"
                if own and carries_on(file, remembered) and not whole:
                    kind = "torn"
                faults.append(fault(kind, file.name, len(file.acts) + 1, file.rest))
                if whole and whole[1].id not in map(_identifier, acts):
                    acts = tuple(sorted((*acts, whole[1]), key=_identifier))
        faults += self._missing(remembered)
        faults.sort(key=lambda f: (f.file, f.line))
        return Reading(acts, tuple(faults))

    def _missing(self, remembered: Remembered | None) -> list[Fault]:
        if remembered is None:
            return []
        ends = dict(remembered.seen)
        if remembered.length:
            ends[remembered.writer + SUFFIX] = (remembered.length, remembered.checksum)
        found = []
        for name, (length, checksum) in ends.items():
            file = self.files.get(name)
            if file is None or file.lacks(length, checksum):
                line = len(file.acts) + 1 if file else 1
                found.append(fault("shorter", name, line, checksum.encode()))
        return found


@contextmanager
def _no_sweeping() -> Iterator[None]:
    """No search for garbage while nothing but lasting values is made: it takes a third of it."""
    sweeping = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if sweeping:
            gc.enable()


def carries_on(file: LogFile | None, remembered: Remembered | None) -> bool:
    """Whether a writer's file ends as it is remembered, so that its writer may go on in it.

    What stands behind the remembered end may be the rest of one act, and the newline of the
    last one may be missing; anything else was done by somebody else.
    """
    if remembered is None:
        return False
    if file is None or not file.acts:
        return remembered.length == 0
    if not file.sound:
        return False
    if (file.end, file.tail) == (remembered.length, remembered.checksum):
        return True
    whole = file.whole_rest() if file.rest else None
    length = file.end + len(file.rest) + 1
    return whole is not None and (length, whole[0]) == (remembered.length, remembered.checksum)


def _ahead(file: LogFile, now_ms: int) -> list[Fault]:
    limit = now_ms + AHEAD_MS
    if not file.newest or stamp_of(file.newest) <= limit:
        return []
    for number, act in enumerate(file.acts, 1):
        if act is not None and stamp_of(act.id) > limit:
            return [fault("ahead", file.name, number, act.id.encode())]
    return []
