"""``closein demo``: an invented build to look at and to try things on."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.cli.desk import Desk
from tracker.errors import BadInput

if TYPE_CHECKING:
    from tracker.app.session import Session

SUMMARY = "Make a fresh copy of an invented build, and open the screen on it."
EXAMPLES = """\
  closein demo                        a scratch copy, opened on the screen
  closein demo --into heron           only make the copy, in a new folder
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("--into", metavar="FOLDER", help="only make the copy, there")
    parser.add_argument("--json", action="store_true", help="with --into: print it for programs")


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Make the copy; without ``--into`` open the screen on it."""
    from tracker.app.demo import make
    from tracker.app.session import now_here

    if desk.build is not None:
        raise BadInput("demo makes a build of its own; name its folder with --into, not --build")
    if args.into is not None:
        if not args.into.strip():
            raise BadInput("--into needs a folder after it")
        into = Path(args.into)
        return _told(make(into, now_here()), into, desk)
    if desk.as_json:
        raise BadInput("--json goes with --into FOLDER; without it the screen opens")
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise BadInput("the screen needs a terminal; 'closein demo --into FOLDER' makes the copy")
    session = make(_scratch(), now_here())
    from tracker.tui import run as screen

    status: int = screen(session)
    desk.say(f"the copy stays in {session.folder}; it is yours to change or delete")
    return status


def _scratch() -> Path:
    """A new folder for a copy, in the user's data folder."""
    import secrets

    from tracker.app.places import data_folder

    return data_folder() / "demo" / secrets.token_hex(4)


def _told(session: Session, into: Path, desk: Desk) -> int:
    """Say what was made and what to try on it."""
    from shlex import quote

    words = f"{session.marked.name}, in {into}"
    if desk.as_json:
        acts = len(session.build.acts)
        desk.json({"id": session.marked.id, "saved": words, "folder": str(into), "acts": acts})
        return 0
    desk.say(f"made: {words}")
    desk.say("Vehicle, people and figures are made up. Try:")
    for command in ("todo", "log", "todo pre-foam --zone walls --bay B3", ""):
        desk.say(f"  closein --build {quote(str(into))} {command}".rstrip())
    return 0
