"""``closein stuck``: raise a blocker."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import writing

SUMMARY = "Raise a blocker: what is in the way, what it stops, who owes the next step."
EXAMPLES = """\
  closein stuck "no glands in the right size" --kind part --stops fit-gland
  closein stuck "which side the heater goes" --kind decision --owes Ola --expected 2027-04-02"""
KINDS = (
    "part, person, weather, tool, decision, information, inspection, money, predecessor, vehicle"
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("text", nargs="+", metavar="TEXT", help="what is in the way")
    parser.add_argument("--kind", metavar="K", help=KINDS)
    parser.add_argument(
        "--stops", nargs="+", default=(), metavar="NAME", help="tasks, checks, hold points"
    )
    parser.add_argument("--part", metavar="PART", help="the part that is missing")
    parser.add_argument("--owes", metavar="WHO", help="who owes the next step")
    parser.add_argument("--expected", metavar="DATE", help="day it should be out of the way")
    parser.add_argument("--name", metavar="NAME", help="its short name, else the next one free")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Raise it."""
    from tracker.app.views.log import act_words
    from tracker.app.wants.blockers import stuck

    session = desk.session()
    intent = stuck(
        " ".join(args.text),
        kind=args.kind,
        stops=args.stops,
        part=args.part,
        owes=args.owes,
        expected=args.expected,
        slug=args.name,
    )
    act = desk.do(session, intent, args)
    name = act.facts[0]["slug"]
    desk.saved(act, act_words(session, act), name=name)
    if not desk.as_json:
        desk.say(f"  'closein unstuck {name}' clears it")
    return 0
