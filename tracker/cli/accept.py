"""``closein accept``: take on a reservation about the record, by name."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import writing
from tracker.errors import BadInput

SUMMARY = """\
Take on a reservation: something amiss with the record that stops every release
until somebody accepts it by name, with a reason. Without a name it lists them."""
EXAMPLES = """\
  closein accept
  closein accept gap-1f00c2a9b1 --why "that line was a slip, Ola has the page"
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("key", nargs="?", metavar="NAME", help="the reservation's name")
    parser.add_argument("--why", metavar="TEXT", help="the reason")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """List, or accept one."""
    from tracker.app.views.log import act_words
    from tracker.app.wants import settling

    if args.key is None:
        if args.why is not None:
            raise BadInput("which reservation? 'closein accept' lists them")
        session = desk.session(fallback=True, quiet=True)
        rows = [{"key": row.key, "text": row.text} for row in session.reservations]
        if desk.as_json:
            desk.json(rows)
        elif not rows:
            desk.say("no reservation stands")
        for row in rows if not desk.as_json else []:
            desk.wrapped(f"{row['key']}: {row['text']}", "    ", "")
        return 0
    session = desk.session(quiet=True)
    act = desk.do(session, settling.accept(session, args.key, args.why or ""), args)
    desk.saved(act, act_words(session, act))
    return 0
