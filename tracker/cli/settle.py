"""``closein settle``: choose between what was said differently."""

from __future__ import annotations

import argparse

from tracker.cli.check import RESULTS, answer_options, say_answered, what_was_found
from tracker.cli.desk import Desk
from tracker.cli.options import Parser, writing
from tracker.errors import BadInput

SUMMARY = """\
Settle what two people, who did not know of each other, said differently.
Without a name it lists that. A field takes the value you give (--why TEXT where
the item is buried); a check is answered again with --at SUBJECT and an answer,
as for 'closein check'. --by NAME, --when T and --json as everywhere."""
EXAMPLES = """\
  closein settle
  closein settle L3 length 6.2m
  closein settle label-both-ends --at L3 --good --second Ola
"""


def arguments(parser: Parser) -> None:
    """What may follow the command word."""
    parser.usage = "closein settle [ITEM [FIELD] VALUE | CHECK --at SUBJECT ANSWER]"
    parser.brief = True
    parser.add_argument("check", nargs="?", metavar="ITEM", help="what is in conflict")
    parser.add_argument("words", nargs="*", metavar="VALUE", help="its field and value")
    parser.add_argument("--at", nargs="+", metavar="SUBJECT", default=[], help="subjects")
    parser.add_argument("--why", metavar="TEXT", help="the reason, where it is buried")
    answer_options(parser)
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """List, or settle one."""
    if args.check is None:
        return _list(desk)
    from tracker.app.views.log import act_words
    from tracker.app.wants import settling

    session = desk.session()
    by = args.by or session.user
    if any(getattr(args, name) not in (None, False) for name in RESULTS):
        if args.words:
            raise BadInput("a check is settled by an answer alone, a field by a value alone")
        found = what_was_found(args)
        intent = settling.settle_check(args.check, args.at, found.pop("result"), by=by, **found)
        say_answered(desk, session, desk.do(session, intent, args))
        return 0
    if len(args.words) > 2:
        raise BadInput("give a field and one value; put a value of several words in quotes")
    value = args.words[-1] if args.words else None
    field = args.words[0] if len(args.words) == 2 else None
    act = desk.do(session, settling.settle(args.check, field, value, by=by, why=args.why), args)
    desk.saved(act, act_words(session, act))
    return 0


def _list(desk: Desk) -> int:
    from tracker.app.views.conflicts import conflicts_view

    session = desk.session(fallback=True)
    rows = conflicts_view(session)
    if desk.as_json:
        desk.json(rows)
    elif not rows:
        desk.say("nothing is in conflict")
    for row in rows if not desk.as_json else []:
        values = " or ".join(str(value["value"]) for value in row["values"])
        what = f"{row['field']} of {row['item']}" if row["field"] else ""
        what = what or f"{row['check']} on {row['subject']}"
        desk.wrapped(f"{what}: {values}", "    ", "  ")
    return 0
