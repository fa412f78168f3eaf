"""``closein note``: write in the build log."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import writing

SUMMARY = "Write a note in the build log, on items perhaps."
EXAMPLES = """\
  closein note "the rear rib is 4 mm proud, shim the furring"
  closein note "chafed, sleeved again" --on L7 H12"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("text", nargs="+", metavar="TEXT", help="what happened")
    parser.add_argument("--on", nargs="+", default=(), metavar="NAME", help="the items it is about")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Write it."""
    from tracker.app.views.log import act_words
    from tracker.app.wants.diary import note

    session = desk.session()
    act = desk.do(session, note(" ".join(args.text), args.on), args)
    desk.saved(act, act_words(session, act))
    return 0
