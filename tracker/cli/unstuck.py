"""``closein unstuck``: clear a blocker."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import writing

SUMMARY = "Clear a blocker, with the day and the hours it cost."
EXAMPLES = """\
  closein unstuck stuck2 --lost 3h
  closein unstuck out-glands --on yesterday"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("name", metavar="NAME", help="the blocker's short name")
    parser.add_argument("--lost", metavar="H", help="hours it cost, such as 3h")
    parser.add_argument("--on", metavar="DATE", help="day it was out of the way, if not today")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Clear it."""
    from tracker.app.views.log import act_words
    from tracker.app.wants.blockers import unstuck
    from tracker.cli.moment import parse_day, parse_when
    from tracker.errors import BadInput

    session = desk.session()
    now = session.now()
    day = parse_when(args.when, now).date() if args.when else now.date()
    if args.on:
        day = parse_day(args.on, now)
    if day > now.date():
        raise BadInput(f"--on {day.isoformat()} lies ahead of today")
    act = desk.do(session, unstuck(args.name, on=day.isoformat(), lost_h=args.lost), args)
    desk.saved(act, act_words(session, act))
    return 0
