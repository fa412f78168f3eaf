"""``closein log``: what happened, by day."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import reading

SUMMARY = "What happened, day by day, oldest first; 'x' marks what was undone."
EXAMPLES = """\
  closein log --since 7d
  closein log --person Ola --since 2027-03-02
  closein log --phase rough-in-wiring --text L3
"""
MOST_LINES = 6
"""An act that says more is cut short on the page; ``--json`` has it whole."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("--phase", metavar="P", help="only on this phase")
    parser.add_argument("--person", metavar="NAME", help="only typed, found or signed by them")
    parser.add_argument("--since", metavar="DAY", help="2027-03-02, yesterday, 7d")
    parser.add_argument("--text", metavar="TEXT", help="only what says this")
    reading(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Print the days."""
    from tracker.app.views.log import log_view
    from tracker.cli.moment import parse_day

    session = desk.session(fallback=True)
    since = parse_day(args.since, session.now()) if args.since else None
    view = log_view(session, phase=args.phase, person=args.person, since=since, text=args.text)
    if desk.as_json:
        desk.json(view)
        return 0
    if not view["days"]:
        filtered = args.phase or args.person or args.since or args.text
        desk.say("nothing of that kind happened" if filtered else "nothing happened yet")
        return 0
    for number, day in enumerate(view["days"]):
        if number:
            desk.say()
        desk.say(day["day"], head=True)
        for act in day["acts"]:
            _print_act(desk, act)
    return 0


def _print_act(desk: Desk, act: dict) -> None:
    head = f"{'x' if act['undone'] else ' '} {act['when'][11:16]}  {act['name']:<8}  "
    typed = f" (typed {act['at'][:16].replace('T', ' ')})" if act["at"] != act["when"] else ""
    lines = [f"{act['by']}: {act['words'][0]}", *act["words"][1:MOST_LINES]]
    hidden = len(act["words"]) - MOST_LINES
    if hidden > 0:
        lines.append(f"and {hidden} more")
    if typed:
        lines[-1] += typed
    if act["undone"]:
        lines[-1] += " [undone]"
    indent = " " * len(head)
    for number, line in enumerate(lines):
        desk.wrapped(line, indent, head if number == 0 else indent)
