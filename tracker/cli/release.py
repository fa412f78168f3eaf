"""``closein release``: two people sign a hold point, or take the release back."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from tracker.cli.desk import Desk
from tracker.cli.options import writing
from tracker.errors import BadInput

if TYPE_CHECKING:
    from tracker.app.session import Session

SUMMARY = "Release a hold point in a zone: two people sign what it covers now."
EXAMPLES = """\
  closein release pre-foam --zone left --by Ida --second Ola
  closein release pre-foam --zone left --by Ida --second Ola --remote
  closein release pre-foam --zone left --withdraw "gland leaks"
"""
CAUTION = (
    "A release says that the checks are answered, not that the work is safe: check it against "
    "the code where you are, each maker's sheet, and those licensed for gas, mains and structure."
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("hold", metavar="HOLDPOINT", help="the hold point")
    parser.add_argument("--zone", metavar="Z", help="the zone, where it is released by zone")
    parser.add_argument("--second", metavar="NAME", help="the second person")
    parser.add_argument("--remote", action="store_true", help="the second by phone or photo")
    parser.add_argument("--next-day", action="store_true", help="the same person, the day after")
    parser.add_argument("--withdraw", metavar="WHY", help="take the release back, with the reason")
    writing(parser, signs="the first person, if not you")


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Sign, or take back."""
    from tracker.app.views.log import act_words
    from tracker.app.wants import holds

    if args.remote and args.next_day:
        raise BadInput("--remote and --next-day can't go together")
    session = desk.session()
    if args.withdraw is not None:
        if args.second or args.remote or args.next_day:
            raise BadInput("--withdraw takes a reason alone, no second person")
        act = desk.do(
            session, holds.withdraw(session, args.hold, zone=args.zone, why=args.withdraw), args
        )
        desk.saved(act, act_words(session, act))
        return 0
    present = "remote" if args.remote else "next-day" if args.next_day else "present"
    by = args.by or session.user
    second = args.second or (by if args.next_day else "")
    intent = holds.release(
        session, args.hold, zone=args.zone, by=by, second=second, present=present
    )
    act = desk.do(session, intent, args)
    waivers = waived(session, str(act.facts[0]["hold"]), str(act.facts[0].get("zone", "")))
    if not desk.as_json:
        for text in waivers:
            desk.wrapped(text, "  ", "waived: ")
    desk.saved(act, act_words(session, act), waivers=waivers, caution=CAUTION)
    if not desk.as_json:
        desk.wrapped(CAUTION)
    return 0


def waived(session: Session, hold: str, zone: str) -> list[str]:
    """What was waived of all that a hold point (an id) covers in a zone (an id, or '')."""
    from tracker.build.release import hold_standing

    stand = hold_standing(session.cover, session.build.items[hold], zone, session.now())
    names = session.names
    found: list[Any] = [point for point in stand.points if point.state == "waived"]
    return [
        f"{names.name(point.check.id)} on {names.name(point.subject.id)}: {point.answer.why} "
        f"({point.answer.by}{', ' + point.answer.second if point.answer.second else ''})"
        for point in found
    ]
