"""``closein close``: record that a zone was closed in, or opened again."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import writing
from tracker.errors import BadInput

SUMMARY = "Record that a zone was closed in: what it covers is buried from then on."
EXAMPLES = """\
  closein close pre-foam --zone left
  closein close pre-foam --zone left --why "crew was here, rain stopped at noon"
  closein close pre-foam --zone left --reopen "cut out by hand at B3"
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("hold", metavar="HOLDPOINT", help="the hold point")
    parser.add_argument("--zone", metavar="Z", help="the zone, where it is released by zone")
    parser.add_argument("--why", metavar="TEXT", help="why, where the release lapsed")
    parser.add_argument("--reopen", metavar="WHY", help="opened again, with the reason")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Record it and say plainly what is buried."""
    from tracker.app.views.log import act_words
    from tracker.app.wants import holds

    if args.reopen is not None and args.why is not None:
        raise BadInput("--reopen carries its own reason; leave --why off")
    session = desk.session()
    if args.reopen is not None:
        intent = holds.reopen(session, args.hold, zone=args.zone, why=args.reopen)
        act = desk.do(session, intent, args)
        desk.saved(act, act_words(session, act))
        return 0
    act = desk.do(session, holds.close(session, args.hold, zone=args.zone, why=args.why), args)
    from tracker.app.views.buried import buried_by

    buried = buried_by(session, act)
    desk.saved(act, act_words(session, act), buried=buried)
    if not desk.as_json:
        told = [f"{kind} {names}" for kind, names in buried.items()]
        desk.wrapped(f"buried now: {'; '.join(told) or 'nothing that was recorded'}", "  ", "  ")
        desk.wrapped("a change to any of these from now on gives its reason (--why)", "  ", "  ")
    return 0
