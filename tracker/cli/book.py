"""``closein book``: book the day of a close-in."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import writing

SUMMARY = "Book the day of a close-in; 'none' drops the booking."
EXAMPLES = """\
  closein book pre-foam 2027-04-18
  closein book pre-foam 2027-04-24 --zone roof
  closein book pre-foam none
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("hold", metavar="HOLDPOINT", help="the hold point")
    parser.add_argument("day", metavar="DATE", help="like 2027-04-18, or none")
    parser.add_argument("--zone", metavar="Z", help="for this zone alone")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Record the booking."""
    from tracker.app.views.log import act_words
    from tracker.app.wants import holds

    session = desk.session()
    act = desk.do(session, holds.book(args.hold, args.day, zone=args.zone), args)
    desk.saved(act, act_words(session, act))
    today = session.now().date().isoformat()
    if args.day[:1].isdigit() and args.day < today:
        desk.warn(f"{args.day} is past already; book it again if it was a slip")
    return 0
