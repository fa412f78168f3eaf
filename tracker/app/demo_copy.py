"""The copy of the demo that a second person carried home, worked on and brought back.

It is a folder of its own with a data folder of its own, as on another computer: its acts go into
a journal file of another writer, written without knowing what happened in the first folder since.
Bringing it back copies that file, as any folder sync would.
"""

from __future__ import annotations

import shutil
from pathlib import Path

from tracker.app.session import LETTERS, Session
from tracker.errors import NotSaved


def next_writer(writer: str) -> str:
    """Another writer's name that follows from the first one's, so that nothing is drawn twice."""
    return "".join(LETTERS[(LETTERS.index(sign) + 1) % len(LETTERS)] for sign in writer)


def carried_home(first: Session, scratch: Path) -> Session:
    """A copy of a build, opened elsewhere.

    Parameters
    ----------
    first: the session on the build as it stands now.
    scratch: an existing empty folder for the copy and what is remembered of it.

    Raises
    ------
    NotSaved: the disk says no.
    """
    writer = next_writer(first.writer)
    copy = scratch / "build"
    try:
        shutil.copytree(first.folder, copy)
    except (OSError, shutil.Error) as error:
        raise NotSaved(f"{copy} can't be written ({error})") from None
    return Session(
        copy, clock=first.clock, user=first.user, new_writer=lambda: writer, data=scratch / "data"
    )


def brought_back(copy: Session, folder: Path) -> None:
    """Put the journal file of a copy beside those of the first folder.

    Raises
    ------
    NotSaved: the disk says no.
    """
    name = f"{copy.writer}.log"
    try:
        shutil.copyfile(copy.folder / "journal" / name, folder / "journal" / name)
    except OSError as error:
        raise NotSaved(f"{folder} can't be written ({error.strerror})") from None
