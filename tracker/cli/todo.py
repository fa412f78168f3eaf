"""``closein todo``: what is still to do before a hold point."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import reading
from tracker.errors import BadInput

SUMMARY = "What is still to do before a hold point: the next one, unless you name another."
EXAMPLES = """\
  closein todo                       before the hold point that comes next
  closein todo pre-foam --zone left  in one zone
  closein todo --bay B3 --full       all that is open in a bay, in full
  closein todo --gate && echo go     exit status 0 once nothing holds it
  closein item change vehicle light=yes   keep to --light in this build"""
PASSED = ("ready", "released", "closed")


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("hold", nargs="?", metavar="HOLDPOINT", help="a hold point")
    parser.add_argument("--zone", metavar="Z", help="in this zone alone")
    parser.add_argument("--bay", metavar="B", help="only what lies in this bay")
    parser.add_argument("--by-bay", action="store_true", help="bay by bay, not check by check")
    parser.add_argument("--full", action="store_true", help="with what each check asks, and why")
    parser.add_argument("--light", action="store_true", help="only the checks that stop a release")
    parser.add_argument("--all", action="store_true", help="all, in a build that keeps to --light")
    parser.add_argument("--gate", action="store_true", help="exit status 1 while work is held")
    reading(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Print the page or the view model."""
    from tracker.app.views.todo import todo_view

    if args.light and args.all:
        raise BadInput("--light and --all can't go together")
    session = desk.session(fallback=True, quiet=True)
    light = True if args.light else False if args.all else None
    view = todo_view(session, args.hold, args.zone, args.bay, light)
    if desk.as_json:
        desk.json(view)
    else:
        from tracker.cli.todo_page import Page

        Page(desk, view, by_bay=args.by_bay, full=args.full, bay=args.bay).print()
    return 1 if args.gate and view["hold_point"]["state"] not in PASSED else 0
