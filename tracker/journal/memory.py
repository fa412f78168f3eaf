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

_format = json.JSONEncoder(separators=(",", ":")).encode
_PIECE = 1 << 16


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
        self._handle = -1  # kept open, for every act reads and writes it
        self._writable = False
        self._bytes = b""
        self._value: Remembered | None = None
        self._unsaved = file is None

    def __del__(self) -> None:
        if self._handle >= 0:
            os.close(self._handle)

    @property
    def kept(self) -> bool:
        """Whether what was told last is on disk and will be known to the next program."""
        return not self._unsaved

    def load(self, build_id: str) -> Remembered | None:
        """What is remembered of this build, or None. Never raises for a bad file."""
        if not self._unsaved:
            data = self._read()
            if data != self._bytes:
                self._value, self._bytes = _parse(data), data
        value = self._value
        return value if value is not None and value.build == build_id else None

    def save(self, value: Remembered) -> None:
        """Remember this. Only while the build folder is locked, after a load. No ``OSError``.

        Overwritten in place and padded to its old length: half of an overwrite is broken, and
        so forgotten, and nothing has to be allocated, renamed or cut.
        """
        self._value = value
        if self._file is None:
            return
        data = _text(value).encode().rjust(len(self._bytes))
        try:
            if not self._writable:
                self._open(self._file, os.O_RDWR | os.O_CREAT)
            self._unsaved = os.pwrite(self._handle, data, 0) != len(data)
        except OSError:
            self._unsaved = True
        self._bytes = data

    def _read(self) -> bytes:
        try:
            if self._handle < 0 and self._file is not None:
                self._open(self._file, os.O_RDWR)
            data = b""
            while piece := os.pread(self._handle, _PIECE, len(data)):
                data += piece
                if len(piece) < _PIECE:
                    break
            return data
        except OSError:
            return b""

    def _open(self, file: Path, how: int) -> None:
        if how & os.O_CREAT:
            os.makedirs(file.parent, exist_ok=True)
        try:
            handle = os.open(file, how | os.O_CLOEXEC, 0o600)
            self._writable = True
        except PermissionError:
            handle = os.open(file, os.O_RDONLY | os.O_CLOEXEC)
        if self._handle >= 0:
            os.close(self._handle)
        self._handle = handle


def _text(value: Remembered) -> str:
    """JSON, put together by hand: an act waits for it."""
    seen = _format(value.seen) if value.seen else "{}"
    return (
        f'{{"build":{_format(value.build)},"writer":"{value.writer}","sequence":{value.sequence},'
        f'"length":{value.length},"checksum":"{value.checksum}","seen":{seen}}}\n'
    )


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
