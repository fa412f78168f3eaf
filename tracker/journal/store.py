"""A build's journal, as the session uses it: read it, write to it, verify it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from tracker.errors import CloseinError, NotSaved
from tracker.journal.disk import Disk, RealDisk
from tracker.journal.files import Files
from tracker.journal.memory import Memory
from tracker.journal.pen import Pen, not_saved
from tracker.journal.report import Fault, Reading


class Journal:
    """The journal of one build folder; used by one thread at a time.

    Parameters
    ----------
    folder: the build folder.
    build_id: from its ``build.toml``.
    memory: what this computer remembers of the folder.
    new_writer: gives a random writer id, 8 characters of a-z and 2-7.
    disk: where the files lie.
    """

    def __init__(
        self,
        folder: Path,
        build_id: str,
        *,
        memory: Memory,
        new_writer: Callable[[], str],
        disk: Disk | None = None,
    ) -> None:
        self._folder, self._build_id = folder, build_id
        self._memory, self._new_writer = memory, new_writer
        self._lock = folder / ".lock"
        self._disk: Disk = disk or RealDisk()
        self._files = Files(folder / "journal", build_id, self._disk)
        self._doubt: str | None = None

    def read(self, now_ms: int | None = None) -> Reading:
        """The journal as it stands. Changes no byte and takes no lock.

        Parameters
        ----------
        now_ms: the reader's clock, milliseconds since 1970, for acts stamped ahead of it.
        """
        try:
            self._files.refresh()
        except OSError as error:
            raise _cannot_read(self._folder, error) from error
        return self._files.reading(self._memory.load(self._build_id), now_ms)

    def changed(self) -> bool:
        """Whether :meth:`read` would bring news; looks at sizes and times only."""
        try:
            return self._files.changed()
        except OSError:
            return True  # reading says what is wrong

    @contextmanager
    def writing(self, now_ms: int | None = None) -> Iterator[Pen]:
        """Lock the folder, read what is new and give the pen that writes to it.

        Parameters
        ----------
        now_ms: as for :meth:`read`.

        Raises ``NotSaved`` where the folder can't be written to, and after a failed save whose
        outcome is unknown, until a new ``Journal`` is made.
        """
        if self._doubt:
            raise NotSaved(self._doubt)
        try:
            lock = self._disk.lock(self._lock)
        except OSError as error:
            raise not_saved(self._folder, error) from error
        try:
            try:
                self._files.refresh()
            except OSError as error:
                raise not_saved(self._folder, error) from error
            pen = Pen(
                self._folder,
                self._build_id,
                self._files,
                self._memory,
                self._disk,
                self._new_writer,
                now_ms,
            )
            try:
                yield pen
            finally:
                self._doubt = pen.doubt
        finally:
            with suppress(OSError):
                self._disk.close(lock)


def verify(
    folder: Path,
    build_id: str,
    *,
    memory: Memory | None = None,
    disk: Disk | None = None,
    now_ms: int | None = None,
) -> tuple[Fault, ...]:
    """Walk every file of a journal from its first byte and say what is wrong; changes nothing.

    Parameters
    ----------
    folder, build_id, disk: as for :class:`Journal`.
    memory: without it lost last lines can't be noticed, and nobody's file is one's own.
    now_ms: the clock, milliseconds since 1970, for acts stamped ahead of it.
    """
    files = Files(folder / "journal", build_id, disk or RealDisk())
    try:
        files.refresh()
    except OSError as error:
        raise _cannot_read(folder, error) from error
    return files.reading(memory.load(build_id) if memory else None, now_ms).faults


def _cannot_read(folder: Path, error: OSError) -> CloseinError:
    name = error.filename or folder / "journal"
    return CloseinError(
        f"{name} can't be read ({error.strerror or error}); check the disk and who may read it"
    )
