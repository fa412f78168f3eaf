"""``closein today``: what can be done today, and what stands in the way of the rest."""

from __future__ import annotations

import argparse
import re
from typing import TYPE_CHECKING

from tracker.cli.desk import Desk
from tracker.cli.options import reading

if TYPE_CHECKING:
    from tracker.app.views.day import Asked

SUMMARY = "What can be done today, in which order; it is as on the last day unless you say else."
EXAMPLES = """\
  closein today                           as on the last day that began
  closein today --next                    the working days ahead, and what to take from home
  closein today --crew 2 --hours 4 --rain
  closein today --without cable-2-5 --absent Ola   what if, writing nothing"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser._negative_number_matcher = re.compile(r"-\d")  # so that -2C is a reading, no option
    parser.add_argument("--crew", type=int, metavar="N", help="people there")
    parser.add_argument("--hours", metavar="H", help="hours there are, such as 6 or 4h30")
    sky = parser.add_mutually_exclusive_group()
    sky.add_argument("--rain", action="store_true", help="it rains")
    sky.add_argument("--dry", action="store_true", help="it stays dry")
    parser.add_argument("--temp", metavar="T", help="temperature of the air, such as 8C")
    parser.add_argument("--no-power", action="store_true", help="there is no power")
    parser.add_argument(
        "--without", nargs="+", action="extend", metavar="PART", help="parts or tools not there"
    )
    parser.add_argument(
        "--absent", nargs="+", action="extend", metavar="NAME", help="people not there"
    )
    parser.add_argument(
        "--next", action="store_true", help="the working days ahead, such as the weekend"
    )
    reading(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Print the plan or the view model."""
    from tracker.app.views.day import Asked
    from tracker.app.views.today import today_view

    asked = Asked(
        args.crew,
        args.hours,
        True if args.dry else False if args.rain else None,
        args.temp,
        False if args.no_power else None,
        args.without or (),
        args.absent or (),
    )
    if args.next:
        return _ahead(asked, desk)
    view = today_view(desk.session(fallback=True), asked)
    if desk.as_json:
        desk.json(view)
    else:
        from tracker.cli.today_page import Page

        Page(desk, view).print()
    return 0


def _ahead(asked: Asked, desk: Desk) -> int:
    """Print the working days ahead or their view model."""
    from tracker.app.views.ahead import ahead_view

    view = ahead_view(desk.session(fallback=True), asked)
    if desk.as_json:
        desk.json(view)
    else:
        from tracker.cli.ahead_page import AheadPage

        AheadPage(desk, view).print()
    return 0
