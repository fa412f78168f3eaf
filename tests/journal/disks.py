"""Disks that fail, and a disk that loses its power."""

from __future__ import annotations

import errno
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path
from typing import Any

from tracker.journal.disk import SUFFIX, Disk, Look

OPERATIONS = frozenset(name for name in vars(Disk) if not name.startswith("_"))


class PowerLost(BaseException):
    """The computer stops here; no code of the program runs on."""


class FaultyDisk:
    """A disk that refuses its nth operation, or every one from the nth on.

    Parameters
    ----------
    inner: the disk that does what is not refused.
    nth: counted from 1; 0 for never.
    forever: it stays broken.
    taken: of a write that is refused, so many parts in a hundred are written first;
        if negative, all but so many bytes.
    short: such a write does not raise but returns the count of what it wrote.
    code: the error.
    """

    def __init__(
        self,
        inner: Disk,
        nth: int,
        *,
        forever: bool = False,
        taken: int = 0,
        short: bool = False,
        code: int = errno.EIO,
    ) -> None:
        self.inner, self.nth, self.forever = inner, nth, forever
        self.taken, self.short, self.code = taken, short, code
        self.count = 0
        self.failed = False
        self.log: list[str] = []

    def __getattr__(self, name: str) -> Callable[..., Any]:
        if name not in OPERATIONS:
            raise AttributeError(name)

        def operation(*args: Any, **named: Any) -> Any:
            self.count += 1
            self.log.append(name)
            real = getattr(self.inner, name)
            if self.nth and (self.count == self.nth or (self.forever and self.count > self.nth)):
                self.failed = True
                if name == "close":  # as on Linux: an error, but the handle is gone
                    real(*args)
                if name == "write":
                    data, taken = args[1], self.taken
                    part = data[:taken] if taken < 0 else data[: len(data) * taken // 100]
                    count = real(args[0], part) if part else 0
                    if self.short:
                        return count
                raise OSError(self.code, "refused by the test")
            return real(*args, **named)

        return operation


@dataclass
class Inode:
    """A file: what is in it, and what of that would outlast a loss of power."""

    number: int
    pending: bytes = b""
    durable: bytes = b""


@dataclass
class SimulatedDisk:
    """A disk in memory that knows what was synced.

    Parameters
    ----------
    crash_at: the operation, from 1, before which the power is lost; 0 for never.
    names: path -> file, as the program sees it.
    durable_names: those names that would outlast a loss of power.
    """

    crash_at: int = 0
    names: dict[str, Inode] = field(default_factory=dict)
    durable_names: dict[str, Inode] = field(default_factory=dict)
    folders: dict[str, bool] = field(default_factory=dict)
    """Folders made by the program -> whether their names would outlast a loss of power."""
    count: int = 0
    tick: int = 0
    handles: dict[int, Inode] = field(default_factory=dict)

    def _step(self) -> None:
        self.count += 1
        if self.count == self.crash_at:
            raise PowerLost

    def looks(self, folder: Path) -> dict[str, Look]:
        self._step()
        found = {}
        for path, inode in self.names.items():
            if Path(path).parent == folder and path.endswith(SUFFIX):
                found[Path(path).name] = self._look(inode)
        return found

    def _look(self, inode: Inode) -> Look:
        return Look(len(inode.pending), inode.number, hash(inode.pending))

    def read(self, file: Path, start: int) -> bytes:
        self._step()
        inode = self.names.get(str(file))
        return inode.pending[start:] if inode else b""

    def _handle(self, inode: Inode) -> int:
        self.tick += 1
        self.handles[self.tick] = inode
        return self.tick

    def lock(self, file: Path) -> int:
        self._step()
        return self._handle(Inode(0))

    def make_folder(self, folder: Path) -> None:
        self._step()
        self.folders.setdefault(str(folder), False)

    def append_to(self, file: Path, *, new: bool = False) -> int:
        self._step()
        if str(file) in self.names and new:
            raise FileExistsError(errno.EEXIST, "there is one", str(file))
        if str(file) not in self.names:
            self.tick += 1
            self.names[str(file)] = Inode(self.tick)
        return self._handle(self.names[str(file)])

    def write(self, handle: int, data: bytes) -> int:
        self._step()
        self.handles[handle].pending += data
        return len(data)

    def truncate(self, handle: int, length: int) -> None:
        self._step()
        inode = self.handles[handle]
        inode.pending = inode.pending[:length]

    def look(self, handle: int) -> Look:
        self._step()
        return self._look(self.handles[handle])

    def sync(self, handle: int) -> None:
        self._step()
        self.handles[handle].durable = self.handles[handle].pending

    def sync_folder(self, folder: Path) -> None:
        self._step()
        for path, inode in self.names.items():
            if Path(path).parent == folder:
                self.durable_names[path] = inode
        for path in self.folders:
            if Path(path).parent == folder:
                self.folders[path] = True

    def close(self, handle: int) -> None:
        self._step()
        del self.handles[handle]

    def file(self, name: str) -> bytes:
        """The bytes of the file of this name."""
        return next(i.pending for path, i in self.names.items() if Path(path).name == name)

    def put(self, path: Path, data: bytes) -> None:
        """Lay a file on the disk, for good."""
        self.tick += 1
        self.names[str(path)] = self.durable_names[str(path)] = Inode(self.tick, data, data)

    def after_power_loss(self, stride: int = 11) -> Iterator[SimulatedDisk]:
        """Every disk that may be found afterwards, every ``stride`` bytes of what was unsynced."""
        if not all(self.folders.values()):
            yield SimulatedDisk()
        choices = []
        for path, inode in self.names.items():
            states: list[bytes | None] = list(_leftovers(inode, stride))
            if path not in self.durable_names:
                states.append(None)
            choices.append([(path, state) for state in states])
        for states_of_all in product(*choices):
            disk = SimulatedDisk()
            for path, state in states_of_all:
                if state is not None:
                    disk.put(Path(path), state)
            yield disk


def _leftovers(inode: Inode, stride: int) -> Iterator[bytes]:
    """What a file may hold afterwards: unsynced bytes kept, dropped, cut, zeroed."""
    pending, durable = inode.pending, inode.durable
    yield pending
    if pending == durable:
        return
    yield durable
    if pending.startswith(durable):
        unsynced = pending[len(durable) :]
        yield durable + bytes(len(unsynced))
        for kept in {*range(stride, len(unsynced), stride), 1, len(unsynced) - 1}:
            yield durable + unsynced[:kept]
            yield durable + unsynced[:kept] + bytes(len(unsynced) - kept)
