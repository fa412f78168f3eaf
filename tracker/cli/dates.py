"""``closein dates``: when each hold point can be closed in, and how sure that is."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import reading

SUMMARY = "When each hold point can be closed in and all is done, with the odds of each date."
EXAMPLES = """\
  closein dates                             on days as they were so far
  closein dates --crew 2 --days sat,sun --hours 6"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("--crew", type=int, metavar="N", help="people there on a working day")
    parser.add_argument("--days", metavar="DAYS", help="days of work, such as sat,sun or mon-fri")
    parser.add_argument("--hours", metavar="H", help="hours of a day, such as 6 or 4h30")
    parser.add_argument(
        "--trials", type=int, default=2000, metavar="N", help="how often it is tried: 2000 or more"
    )
    reading(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Print the dates or the view model."""
    from tracker.app.views.dates import AskedDates, dates_view

    asked = AskedDates(args.crew, args.days, args.hours, args.trials)
    view = dates_view(desk.session(fallback=True), asked)
    if desk.as_json:
        desk.json(view)
    else:
        from tracker.cli.dates_page import Page

        Page(desk, view).print()
    return 0
