"""Writing one act: on the disk before it is acknowledged, or not there at all."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from errno import EACCES, EDQUOT, EFBIG, ENOENT, ENOSPC, EPERM, EROFS
from pathlib import Path

from tracker.act import Act, Fact, act_id, stamp_of
from tracker.errors import BadInput, NotSaved
from tracker.journal.codec import GREATEST_STAMP_MS, encode_act, is_writer, root_checksum
from tracker.journal.disk import SUFFIX, Disk, Look
from tracker.journal.files import Files, carries_on
from tracker.journal.logfile import LogFile, sequence_of
from tracker.journal.memory import Memory, Remembered
from tracker.journal.report import Reading

_NEVER = Look(-1, -1, -1)


class Pen:
    """Appends acts while the build folder is locked; got from ``Journal.writing``."""

    def __init__(
        self,
        folder: Path,
        build_id: str,
        files: Files,
        memory: Memory,
        disk: Disk,
        new_writer: Callable[[], str],
        now_ms: int | None,
    ) -> None:
        self.doubt: str | None = None
        """Why nothing can be written any more before the folder is opened anew."""
        self._folder, self._build_id, self._files = folder, build_id, files
        self._memory, self._disk, self._new_writer = memory, disk, new_writer
        self._now_ms = now_ms

    @property
    def reading(self) -> Reading:
        """The journal as it stands under the lock, with what was appended so far."""
        return self._files.reading(self._memory.load(self._build_id), self._now_ms)

    def append(
        self, facts: Sequence[Fact], *, at: str, by: str, now_ms: int, when: str | None = None
    ) -> Act:
        """Write one act; it is saved once this returns.

        Parameters
        ----------
        facts: what happened, as plain JSON objects.
        at: when it was typed, ISO 8601 with offset.
        by: who typed it.
        now_ms: the clock, milliseconds since 1970.
        when: when it happened, where that was earlier; ISO 8601 with offset.

        Raises ``NotSaved`` where the disk does not take it, ``BadInput`` for text that can't be
        stored, ``ValueError`` for a moment without offset.
        """
        if self.doubt:
            raise NotSaved(self.doubt)
        try:
            before, file = self._own()
        except OSError as error:
            raise not_saved(self._folder, error) from error
        whole = file.whole_rest() if file.rest else None
        prev, last = (whole[0], whole[1].id) if whole else (before.checksum, file.last_id)
        newest = max(self._files.newest, last)
        stamp = min(max(now_ms, stamp_of(newest) + 1 if newest else 0), GREATEST_STAMP_MS)
        sequence = sequence_of(last) + 1 if last else 1
        identifier = act_id(stamp, before.writer, sequence)
        try:
            line, checksum, act = encode_act(identifier, prev, at, when, by, facts)
        except UnicodeEncodeError as error:
            raise BadInput("the text holds signs that can't be stored; type it again") from error
        look = self._put(file, b"\n" + line if whole else line, keep_rest=bool(whole))
        self._files.grown(file, look, line[:-1], (checksum, prev, act))
        seen = self._seen(before, file.name)
        self._memory.save(
            Remembered(self._build_id, before.writer, sequence, file.end, checksum, seen)
        )
        return act

    def _own(self) -> tuple[Remembered, LogFile]:
        """What is remembered of the file to go on with, and that file: a new one if need be."""
        old = self._memory.load(self._build_id)
        file = self._files.files.get(old.writer + SUFFIX) if old else None
        if old is not None and carries_on(file, old):
            return old, file or LogFile(old.writer + SUFFIX, self._build_id)
        seen = dict(old.seen) if old else {}
        if old and old.length:
            seen[old.writer + SUFFIX] = (old.length, old.checksum)
        if file and file.end:  # its last act may be one that a process died over before syncing it
            self._sync(file.name)
        writer = self._new_writer()
        while writer + SUFFIX in self._files.files:
            writer = self._new_writer()
        if not is_writer(writer):
            raise ValueError(f"{writer!r} is no writer id: 8 characters of a-z and 2-7")
        root = root_checksum(self._build_id, writer)
        new = Remembered(self._build_id, writer, 0, 0, root, seen)
        self._memory.save(new)
        return new, LogFile(writer + SUFFIX, self._build_id)

    def _sync(self, name: str) -> None:
        handle = self._disk.append_to(self._files.path(name))
        try:
            self._disk.sync(handle)
        finally:
            self._disk.close(handle)

    def _seen(self, before: Remembered, own: str) -> dict[str, tuple[int, str]]:
        """How the other files end; where acts are missing from one, how it should end."""
        seen = dict(before.seen)
        for name, file in self._files.files.items():
            last = file.last_sound()
            if name == own or file.stranger or last is None:
                continue
            if name not in seen or not file.lacks(*seen[name]):
                seen[name] = last
        return seen

    def _put(self, file: LogFile, data: bytes, *, keep_rest: bool) -> Look:
        """Write ``data`` at the end of a file: all of it for good, or nothing."""
        disk = self._disk
        size = file.end + len(file.rest)
        try:
            if not file.end:
                disk.make_folder(self._files.folder)
            handle = disk.append_to(self._files.path(file.name))
        except OSError as error:
            raise not_saved(self._folder, error) from error
        try:
            try:
                if file.rest and not keep_rest:
                    self._set_aside(file, handle)
                    size = file.end
                self._write(handle, data)
            except OSError as error:
                self._cut(handle, size)
                raise not_saved(self._folder, error) from error
            self._settle(handle, new=not file.end)
            with suppress(OSError):
                look = disk.look(handle)
                if look.size == size + len(data):
                    return look
            return _NEVER  # somebody else wrote too: read it all again
        finally:
            with suppress(OSError):
                disk.close(handle)

    def _write(self, handle: int, data: bytes) -> None:
        if self._disk.write(handle, data) != len(data):
            raise OSError(ENOSPC, "only a part of it was taken")

    def _set_aside(self, file: LogFile, handle: int) -> None:
        """Keep an act that was cut off in a file of its own, then cut it from the journal."""
        disk, number = self._disk, 0
        while True:
            number += 1
            name = file.name.removesuffix(SUFFIX) + f".rest-{number}"
            try:
                side = disk.append_to(self._files.folder / name, new=True)
                break
            except FileExistsError:
                continue
        try:
            self._write(side, file.rest)
            disk.sync(side)
        finally:
            disk.close(side)
        disk.sync_folder(self._files.folder)
        disk.truncate(handle, file.end)
        file.rest = b""

    def _cut(self, handle: int, size: int) -> None:
        """Take back whatever was written beyond ``size`` bytes."""
        try:
            if self._disk.look(handle).size > size:
                self._disk.truncate(handle, size)
                self._disk.sync(handle)
        except OSError as error:
            self._give_up(error)

    def _settle(self, handle: int, *, new: bool) -> None:
        """Wait until the act would outlast a loss of power."""
        try:
            self._disk.sync(handle)
            if new:
                self._disk.sync_folder(self._files.folder)
                self._disk.sync_folder(self._folder)
        except OSError as error:
            self._give_up(error)

    def _give_up(self, error: OSError) -> None:
        self.doubt = (
            f"the disk failed while it was saving ({error.strerror or error}): the last act may or "
            "may not be kept; check the disk, then open the build again and look in the log"
        )
        raise NotSaved(self.doubt) from error


def not_saved(folder: Path, error: OSError) -> NotSaved:
    """The sentence for a disk that said no before anything was kept."""
    if error.errno in (ENOSPC, EDQUOT):
        cure = "the disk is full, so nothing was saved; make room on it and do it again"
    elif error.errno == EFBIG:
        cure = "a file may not grow any longer here, so nothing was saved; raise that limit"
    elif error.errno in (EROFS, EACCES, EPERM):
        cure = "nothing was saved, for it may not be written to; allow that, or work in a copy"
    elif error.errno == ENOENT:
        cure = "the build folder is gone, so nothing was saved; put it back and do it again"
    else:
        why = error.strerror or str(error)
        cure = f"the disk refused ({why}), so nothing was saved; check the disk and do it again"
    return NotSaved(f"{folder}: {cure}")
