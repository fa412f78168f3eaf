"""The only code that touches a journal's files.

Every call is one thing that a disk may refuse, so that a test can stand a faulty or a simulated
disk in its place. Nothing here decides anything; errors are plain ``OSError``.
"""

from __future__ import annotations

import fcntl
import os
import time
from pathlib import Path
from stat import S_ISREG
from typing import NamedTuple, Protocol

SUFFIX = ".log"

_APPEND = os.O_WRONLY | os.O_APPEND | os.O_CREAT | os.O_CLOEXEC
_SETTLED_NS = 100_000_000  # longer than a file system that counts less than seconds rounds them
_FULL_SYNC: int | None = getattr(fcntl, "F_FULLFSYNC", None)  # macOS: fsync alone stops short


class Look(NamedTuple):
    """What can be seen of a file without reading it; an equal look means no news."""

    size: int
    inode: int
    changed_ns: int


class Disk(Protocol):
    """What the journal asks of a disk."""

    def looks(self, folder: Path) -> dict[str, Look]:
        """The journal files of a folder by name; none where there is no folder."""

    def read(self, file: Path, start: int) -> bytes:
        """The bytes from ``start`` to the end; none where there is no file."""

    def lock(self, file: Path) -> int:
        """Wait until nobody else holds this lock; the handle holds it until it is closed."""

    def make_folder(self, folder: Path) -> None:
        """Make a folder, which may be there already."""

    def append_to(self, file: Path, *, new: bool = False) -> int:
        """A handle that writes at the end; ``new`` insists that no such file was there."""

    def write(self, handle: int, data: bytes) -> int:
        """Write once; the count of bytes that were taken may fall short."""

    def truncate(self, handle: int, length: int) -> None:
        """Cut a file back to a length in bytes."""

    def look(self, handle: int) -> Look:
        """The look of an open file."""

    def sync(self, handle: int) -> None:
        """Return once the bytes of a file would outlast a loss of power."""

    def sync_folder(self, folder: Path) -> None:
        """Return once the names in a folder would outlast a loss of power."""

    def close(self, handle: int) -> None:
        """Give a handle back, with the lock it holds."""


class RealDisk:
    """The disk of this computer: unbuffered calls of the operating system."""

    def __init__(self) -> None:
        self._listed: tuple[str, int, list[str]] = ("", 0, [])

    def looks(self, folder: Path) -> dict[str, Look]:
        found = {}
        place = os.fspath(folder)
        for name in self._names(place):
            try:
                status = os.stat(f"{place}/{name}")
            except FileNotFoundError:  # gone since the folder was listed, or a dead link
                continue
            if S_ISREG(status.st_mode):
                found[name] = Look(status.st_size, status.st_ino, status.st_mtime_ns)
        return found

    def _names(self, folder: str) -> list[str]:
        """The names of journal files; listed anew unless the folder was long at rest by then."""
        try:
            changed_ns = os.stat(folder).st_mtime_ns
            if self._listed[:2] == (folder, changed_ns):
                return self._listed[2]
            rests = changed_ns % 1_000_000_000 and changed_ns + _SETTLED_NS < time.time_ns()
            names = [n for n in os.listdir(folder) if n.endswith(SUFFIX) and n[0] != "."]
        except (FileNotFoundError, NotADirectoryError):
            return []
        self._listed = (folder if rests else "", changed_ns, names)
        return names

    def read(self, file: Path, start: int) -> bytes:
        try:
            handle = os.open(file, os.O_RDONLY | os.O_CLOEXEC)
        except FileNotFoundError:
            return b""
        try:
            pieces = []
            while piece := os.pread(handle, 1 << 20, start):
                pieces.append(piece)
                start += len(piece)
            return b"".join(pieces)
        finally:
            os.close(handle)

    def lock(self, file: Path) -> int:
        handle = os.open(file, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o666)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX)
        except BaseException:
            os.close(handle)
            raise
        return handle

    def make_folder(self, folder: Path) -> None:
        os.makedirs(folder, exist_ok=True)

    def append_to(self, file: Path, *, new: bool = False) -> int:
        return os.open(file, _APPEND | (os.O_EXCL if new else 0), 0o666)

    def write(self, handle: int, data: bytes) -> int:
        return os.write(handle, data)

    def truncate(self, handle: int, length: int) -> None:
        os.ftruncate(handle, length)

    def look(self, handle: int) -> Look:
        status = os.fstat(handle)
        return Look(status.st_size, status.st_ino, status.st_mtime_ns)

    def sync(self, handle: int) -> None:
        if _FULL_SYNC is not None:
            try:
                fcntl.fcntl(handle, _FULL_SYNC)
                return
            except OSError:  # a file system that knows only the plain kind
                pass
        os.fsync(handle)

    def sync_folder(self, folder: Path) -> None:
        handle = os.open(folder, os.O_RDONLY | os.O_CLOEXEC)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)

    def close(self, handle: int) -> None:
        os.close(handle)
