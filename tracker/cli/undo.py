"""``closein undo``: take an act back."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk

SUMMARY = "Take an act back: your newest on this computer, or the one you name."
EXAMPLES = """\
  closein undo
  closein undo k7wq-12 --with       and what rests on it
  closein redo                      brings it back
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("act", nargs="?", metavar="ACT", help="its name, as 'closein log' shows it")
    parser.add_argument("--with", dest="also", action="store_true", help="what rests on it, too")
    parser.add_argument("--json", action="store_true", help="print the act for programs")


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Undo it and say what that was."""
    from tracker.app.views.log import act_words

    session = desk.session()
    act = session.undo(args.act, args.also)
    desk.saved(act, act_words(session, act))
    return 0
