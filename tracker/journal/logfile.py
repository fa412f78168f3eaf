"""One writer's file: taken in as far as it has grown, with what was met on the way."""

from __future__ import annotations

from typing import NamedTuple

from tracker.act import VERSION, Act
from tracker.journal.codec import Unreadable, checksum_of, decode, root_checksum
from tracker.journal.report import Fault, fault


class Mark(NamedTuple):
    """A fault of one line, before it is put into words."""

    kind: str
    line: int
    evidence: bytes
    extent: str = ""


class LogFile:
    """What has been read of one file of a journal.

    Parameters
    ----------
    name: of the file, inside the journal folder.
    build_id: the build that its first line should belong to.
    """

    def __init__(self, name: str, build_id: str) -> None:
        self.name = name
        self.acts: list[Act | None] = []
        """By line; None where a line does not count."""
        self.lines: dict[str, int] = {}
        """Checksum of each sound line -> its number, from 1, in the order of the file."""
        self.end = 0
        """Length up to and with the last newline, bytes."""
        self.last_line = b""
        self.rest = b""
        """What stands behind the last newline."""
        self.tail: str | None = None
        """Checksum that the next line should name; None where a damaged line hides it."""
        self.last_id = ""
        self.newest = ""
        """The greatest id, of an act that counts or of a newer version."""
        self.stranger = False
        self._build_id = build_id
        self._marks: list[Mark] = []
        self._damaged: list[tuple[int, bytes]] = []

    @property
    def sound(self) -> bool:
        """Nothing in it keeps its writer from carrying on."""
        return not self._damaged and not any(m.kind in ("gap", "stranger") for m in self._marks)

    def take(self, data: bytes) -> None:
        """Take in the bytes that stand from ``end`` on."""
        *lines, self.rest = data.split(b"\n")
        for line in lines:
            try:
                found = decode(line)
            except Unreadable:
                self._damaged.append((len(self.acts) + 1, line))
                self.acts.append(None)
                self.tail = None
            else:
                self._admit(line, *found)
        if lines:
            self.end += len(data) - len(self.rest)
            self.last_line = lines[-1]

    def add(self, line: bytes, checksum: str, prev: str, act: Act) -> None:
        """Take in one line, without its newline, that now stands at ``end`` and was decoded."""
        self._admit(line, checksum, prev, act)
        self.end += len(line) + 1
        self.last_line, self.rest = line, b""

    def _admit(self, line: bytes, checksum: str, prev: str, act: Act) -> None:
        number = len(self.acts) + 1
        if checksum in self.lines:  # says nothing new, so it does not break the chain either
            self._marks.append(Mark("repeated", number, line))
            self.acts.append(None)
            return
        self.lines[checksum] = number
        if prev != self.tail:
            if number == 1:
                self._begin(line, prev, act)
            elif self.tail is not None:
                self._marks.append(Mark("gap", number, self.tail.encode() + line))
        self.tail = checksum
        self.last_id = act.id
        if act.id > self.newest:
            self.newest = act.id
        if act.v > VERSION:
            self._marks.append(Mark("foreign", number, line, str(act.v)))
            self.acts.append(None)
        else:
            self.acts.append(act)

    def _begin(self, line: bytes, prev: str, act: Act) -> None:
        if prev == self._root(act):
            return
        if sequence_of(act.id) == 1:
            self.stranger = True
            self._marks.append(Mark("stranger", 1, line))
        else:
            self._marks.append(Mark("gap", 1, line))

    def _root(self, act: Act) -> str:
        return root_checksum(self._build_id, act.id.split("-", 2)[1])

    def counting(self) -> list[Act]:
        """Its acts that count."""
        return [] if self.stranger else [act for act in self.acts if act is not None]

    def whole_rest(self) -> tuple[str, Act] | None:
        """Checksum and act of a rest that is whole but for its newline."""
        try:
            checksum, prev, act = decode(self.rest)
        except Unreadable:
            return None
        tail = self.tail if self.acts else self._root(act)
        return (checksum, act) if prev == tail and act.v <= VERSION else None

    def last_sound(self) -> tuple[int, str] | None:
        """Length and checksum of the last sound line, to be remembered."""
        return (self.end, next(reversed(self.lines))) if self.lines else None

    def lacks(self, length: int, checksum: str) -> bool:
        """Whether the line that was once the last is gone, and not merely damaged."""
        if checksum in self.lines or self.stranger:
            return False
        if self.rest and (whole := self.whole_rest()) and whole[0] == checksum:
            return False
        return not (self._damaged and self.end + len(self.rest) >= length)

    def faults(self) -> list[Fault]:
        """What was met in its whole lines."""
        if self.stranger:
            return [fault(m.kind, self.name, *m[1:]) for m in self._marks if m.kind == "stranger"]
        found = [fault(m.kind, self.name, *m[1:]) for m in self._marks if m.kind != "repeated"]
        repeated = [m for m in self._marks if m.kind == "repeated"]
        if repeated:
            found.append(repeats(self.name, repeated[0].line, len(repeated)))
        return sorted(found + self._damage(), key=lambda f: f.line)

    def _damage(self) -> list[Fault]:
        """One fault for each stretch of damaged lines, however long."""
        stretches: list[list[tuple[int, bytes]]] = []
        for number, line in self._damaged:
            if stretches and stretches[-1][-1][0] == number - 1:
                stretches[-1].append((number, line))
            else:
                stretches.append([(number, line)])
        found = []
        for stretch in stretches:
            first, last = stretch[0][0], stretch[-1][0]
            extent = "this line" if first == last else f"lines {first} to {last}"
            evidence = checksum_of(b"\n".join(line for _, line in stretch)).encode()
            found.append(fault("damaged", self.name, first, evidence, extent))
        return found


def sequence_of(identifier: str) -> int:
    """The number of an act in its writer's file, from 1."""
    return int(identifier.rsplit("-", 1)[1])


def repeats(file: str, line: int, count: int) -> Fault:
    """The notice that ``count`` lines of a file, the first at ``line``, say nothing new."""
    extent = "1 line repeats" if count == 1 else f"{count} lines repeat"
    return fault("repeated", file, line, b"", extent)
