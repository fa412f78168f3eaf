"""What every test of the journal sits at: a folder, a memory, writers with known names."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tracker.act import Act, Fact
from tracker.journal import Disk, Fault, Journal, Memory, Reading

BUILD = "b-7f3a"
AT = "2025-03-01T10:11:12+01:00"
NOW = 1_740_820_272_000

_LETTERS = "abcdefghijklmnopqrstuvwxyz234567"


def note(text: object) -> list[Fact]:
    """The facts of one small act."""
    return [{"f": "note.written", "text": str(text)}]


def writers(prefix: str = "w") -> Iterator[str]:
    """Writer ids that no two calls with other prefixes share: w + 'aaaaaaa', 'aaaaaab' ..."""
    number = 0
    while True:
        digits, rest = "", number
        while len(digits) < 8 - len(prefix):
            digits, rest = _LETTERS[rest % 32] + digits, rest // 32
        yield prefix + digits
        number += 1


class Desk:
    """One person's computer in front of a build folder.

    Parameters
    ----------
    folder: the build folder.
    memory: file in the data folder, or a memory that is already there.
    prefix: of the writer ids that begin here.
    disk: another disk than the real one.
    """

    def __init__(
        self,
        folder: Path,
        memory: Path | Memory | None = None,
        prefix: str = "w",
        disk: Disk | None = None,
    ) -> None:
        self.folder = folder
        self.memory = memory if isinstance(memory, Memory) else Memory(memory)
        self.new_writer = writers(prefix).__next__
        self.disk = disk
        self.now = NOW
        self.journal = self.open()

    def open(self) -> Journal:
        """Start the program anew."""
        self.journal = Journal(
            self.folder, BUILD, memory=self.memory, new_writer=self.new_writer, disk=self.disk
        )
        return self.journal

    def read(self) -> Reading:
        return self.journal.read(self.now)

    def write(self, text: object) -> Act:
        return self.write_facts(note(text))

    def write_facts(self, facts: list[Fact]) -> Act:
        self.now += 1000
        with self.journal.writing(self.now) as pen:
            return pen.append(facts, at=AT, by="Ida", now_ms=self.now)

    def texts(self) -> list[str]:
        return texts(self.read())

    def log(self, name: str = "waaaaaaa") -> Path:
        return self.folder / "journal" / f"{name}.log"


def texts(reading: Reading) -> list[str]:
    """What the notes of a reading say, in order."""
    return [fact["text"] for act in reading.acts for fact in act.facts]


def kinds(faults: Reading | tuple[Fault, ...]) -> list[str]:
    """The kinds of faults, in order."""
    return [f.kind for f in (faults.faults if isinstance(faults, Reading) else faults)]


def reservations(reading: Reading) -> list[Fault]:
    """The faults that stand until they are accepted."""
    return [f for f in reading.faults if f.reservation]
