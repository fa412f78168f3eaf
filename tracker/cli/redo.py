"""``closein redo``: bring back what was taken back."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk

SUMMARY = "Bring back what was undone last, while nothing newer was done here."
EXAMPLES = """\
  closein redo
  closein redo k7wq-12
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("act", nargs="?", metavar="ACT", help="its name, as 'closein log' shows it")
    parser.add_argument("--json", action="store_true", help="print the act for programs")


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Bring it back and say what it was."""
    from tracker.app.views.log import act_words

    session = desk.session()
    act = session.redo(args.act)
    desk.saved(act, act_words(session, act))
    return 0
