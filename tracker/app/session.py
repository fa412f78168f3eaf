"""One session on a build: the one place that joins the journal and the state.

A session is given its clock, user name and source of writer names. What a person wants comes in
as an intent, a function from the state to facts or an error; it is decided under the lock, on
the newest state, written, and only then acknowledged.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from copy import copy
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from tracker.act import Act, Fact, short_id
from tracker.app.folder import Marked, read_mark
from tracker.app.places import data_folder, memory_file, remember_last, user_name
from tracker.build import undo
from tracker.build.coverage import Coverage
from tracker.build.fold import EMPTY, fold
from tracker.build.names import Names
from tracker.build.state import Build
from tracker.errors import BadInput, CloseinError
from tracker.journal import Fault, Journal, Memory
from tracker.journal.codec import checksum_of

Intent = Callable[[Build], Sequence[Fact]]
"""What a person wants: facts that follow from the state, or an error that says why not."""

LETTERS = "abcdefghijklmnopqrstuvwxyz234567"


def now_here() -> datetime:
    """The clock: now, with this machine's offset."""
    return datetime.now().astimezone()


def random_writer() -> str:
    """A new writer's name: eight letters and digits."""
    return "".join(LETTERS[byte % 32] for byte in os.urandom(8))


@dataclass(frozen=True, slots=True)
class Reservation:
    """A fault of the record that stands until somebody accepts it: its stable key and words."""

    key: str
    text: str


def _not_understood(refs: Sequence[str]) -> Reservation:
    """One reservation for all that can't be read here; what comes later makes another of it."""
    seal = checksum_of(" ".join(refs).encode())[:10]
    acts = list(dict.fromkeys(short_id(ref.rpartition("/")[0]) for ref in refs))
    listed = ", ".join(acts[:5]) + (f" and {len(acts) - 5} more" if len(acts) > 5 else "")
    return Reservation(
        f"unread-{seal}",
        f"part of {listed} can't be read by this release of closein and does not count here; "
        "update closein, or accept that with a reason",
    )


class Session:
    """A build, open.

    Parameters
    ----------
    folder: the build folder.
    clock: gives the time now, with an offset.
    user: the name acts are signed with.
    new_writer: gives a fresh writer's name.
    data: the user's data folder.
    """

    def __init__(
        self,
        folder: Path,
        *,
        clock: Callable[[], datetime] = now_here,
        user: str | None = None,
        new_writer: Callable[[], str] = random_writer,
        data: Path | None = None,
    ) -> None:
        self.folder = folder
        self.data = data if data is not None else data_folder()
        self.clock = clock
        self.user = user or user_name()
        self.marked: Marked = read_mark(folder)
        memory = Memory(memory_file(self.data, folder))
        self.journal = Journal(folder, self.marked.id, memory=memory, new_writer=new_writer)
        self.memory = memory
        self.build: Build = EMPTY
        self.faults: tuple[Fault, ...] = ()
        self._cover: Coverage | None = None
        self._names: Names | None = None
        self.refresh()
        remember_last(self.data, folder)

    def refresh(self) -> bool:
        """Read what others have written since; True where the state changed.

        Raises :class:`CloseinError` where the folder is gone: nothing is known of it then, which
        is not the same as a build without a record.
        """
        if not self.folder.is_dir():
            raise CloseinError(
                f"{self.folder}: the build folder is gone; what is shown was read before, "
                "so put it back and go on"
            )
        reading = self.journal.read(now_ms=self._now_ms())
        return self._take(reading.acts, reading.faults)

    def changed(self) -> bool:
        """A cheap look whether ``refresh`` would bring news."""
        return self.journal.changed()

    def _take(self, acts: tuple[Act, ...], faults: tuple[Fault, ...]) -> bool:
        self.faults = faults
        known = self.build.acts
        if acts == known:
            return False
        carried_on = acts[: len(known)] == known
        self._set(fold(acts[len(known) :], self.build) if carried_on else fold(acts))
        return True

    def _set(self, build: Build) -> None:
        self.build = build
        self._cover = self._names = None

    @property
    def cover(self) -> Coverage:
        """What the hold points of this state cover."""
        if self._cover is None:
            self._cover = Coverage(self.build)
        return self._cover

    @property
    def names(self) -> Names:
        """The names in this state."""
        if self._names is None:
            self._names = Names(self.build)
        return self._names

    @property
    def reservations(self) -> tuple[Reservation, ...]:
        """What stands against a release: faults of the record that nobody has accepted."""
        found = [Reservation(fault.key, fault.text) for fault in self.faults if fault.reservation]
        if self.build.unknown:
            found.append(_not_understood(self.build.unknown))
        return tuple(row for row in found if row.key not in self.build.accepted)

    @property
    def notices(self) -> tuple[str, ...]:
        """What is worth saying of the record and stands in nobody's way."""
        return tuple(fault.text for fault in self.faults if not fault.reservation)

    def do(self, intent: Intent, *, when: datetime | None = None, by: str | None = None) -> Act:
        """Decide, write and acknowledge.

        Parameters
        ----------
        intent: from the newest state to facts.
        when: when it happened, where that was earlier; with an offset.
        by: who did it, else the session's user.

        Raises
        ------
        CloseinError: whatever the intent refuses; NotSaved where the disk did not take it.
        Nothing is written in either case.
        """
        moment = self.clock()
        if when is not None and when > moment:
            raise BadInput(f"--when {when.isoformat()} lies ahead of now")
        with self.journal.writing(now_ms=self._now_ms()) as pen:
            self._take(pen.reading.acts, pen.reading.faults)
            facts = list(intent(self.build))
            if not facts:
                raise BadInput("that changes nothing")
            act = pen.append(
                facts,
                at=moment.isoformat(timespec="seconds"),
                by=by or self.user,
                now_ms=int(moment.timestamp() * 1000),
                when=when.isoformat(timespec="seconds") if when is not None else None,
            )
        self._set(fold([act], self.build))
        return act

    def undo(self, which: str | None = None, also: bool = False) -> Act:
        """Undo an act: the newest of this machine's, or the one named; ``also`` what rests on it.

        On another machine, or after a restored copy, 'this machine's' acts begin anew.
        """
        return self.do(lambda build: undo.undo(build, self.writer, which, also))

    def redo(self, which: str | None = None) -> Act:
        """Bring back what was undone."""
        return self.do(lambda build: undo.redo(build, self.writer, which))

    @property
    def writer(self) -> str:
        """The writer whose file this machine appends to, or ''."""
        remembered = self.memory.load(self.marked.id)
        return remembered.writer if remembered is not None else ""

    def still(self) -> Session:
        """The session as it is now, for another thread to read whatever is done here."""
        twin = copy(self)
        twin._cover = twin._names = None
        return twin

    def supposing(self, build: Build, moment: datetime) -> Session:
        """The session at a moment to come, in a state that is only supposed; only to be read."""
        twin = self.still()
        twin.build, twin.clock = build, lambda: moment
        return twin

    def now(self) -> datetime:
        """The session's clock."""
        return self.clock()

    def _now_ms(self) -> int:
        return int(self.clock().timestamp() * 1000)
