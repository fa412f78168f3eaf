"""What this computer remembers of a build folder, kept outside it in the user's data folder.

It tells a folder that was carried on here from a copy, a restored backup or a synchronised one,
and it is the only way to notice that last lines were lost. It is never relied upon: a lost,
broken or unwritable memory means that nothing is remembered, and a new writer's file begins.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple


class Remembered(NamedTuple):
    """The folder as it stood after the last act that was done here.

    Parameters
    ----------
    build: id of the build.
    writer: whose file is carried on here.
    sequence: number of its last act, 0 before the first.
    length: length of its file, bytes.
    checksum: that of its last line, or of the root before the first.
    seen: for every other file its length (bytes) and the checksum of its last sound line.
    """

    build: str
    writer: str
    sequence: int
    length: int
    checksum: str
    seen: Mapping[str, tuple[int, str]]


class Memory:
    """One small file that remembers one build folder.

    Parameters
    ----------
    file: where it is kept, or None to remember only as long as the program runs.
    """

    def __init__(self, file: Path | None) -> None:
        self._file = file
        self._bytes = b""
        self._value: Remembered | None = None
        self._unsaved = file is None

    def load(self, build_id: str) -> Remembered | None:
        """What is remembered of this build, or None. Never raises for a bad file."""
        if self._file is not None and not self._unsaved:
            try:
                data = self._read(self._file)
            except OSError:
                data = b""
            if data != self._bytes:
                self._value, self._bytes = _parse(data), data
        value = self._value
        return value if value is not None and value.build == build_id else None

    def save(self, value: Remembered) -> None:
        """Remember this. Call it only while the build folder is locked. Never raises ``OSError``.

        Overwritten in place and padded to its old length: half of an overwrite is broken, and
        so forgotten, and nothing has to be allocated, renamed or cut.
        """
        self._value = value
        if self._file is None:
            return
        data = json.dumps(value._asdict(), separators=(",", ":")).encode() + b"\n"
        self._bytes = data = data.rjust(len(self._bytes))
        try:
            self._write(self._file, data)
            self._unsaved = False
        except OSError:
            self._unsaved = True

    def _read(self, file: Path) -> bytes:
        handle = os.open(file, os.O_RDONLY | os.O_CLOEXEC)
        try:
            return os.read(handle, 1 << 24)
        finally:
            os.close(handle)

    def _write(self, file: Path, data: bytes) -> None:
        flags = os.O_WRONLY | os.O_CREAT | os.O_CLOEXEC
        try:
            handle = os.open(file, flags, 0o600)
        except FileNotFoundError:
            os.makedirs(file.parent, exist_ok=True)
            handle = os.open(file, flags, 0o600)
        try:
            if os.write(handle, data) != len(data):
                raise OSError("the memory was not written whole")
        finally:
            os.close(handle)


def _parse(data: bytes) -> Remembered | None:
    try:
        raw = json.loads(data)
        value = Remembered(**raw)
        seen = {str(name): (int(length), str(sum_)) for name, (length, sum_) in raw["seen"].items()}
        texts = (value.build, value.writer, value.checksum)
        counts = (value.sequence, value.length)
        sound = all(type(t) is str for t in texts) and all(type(c) is int for c in counts)
    except (ValueError, TypeError, LookupError, AttributeError, RecursionError):
        return None
    return value._replace(seen=seen) if sound and value.writer.isalnum() else None
