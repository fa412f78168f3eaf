"""``closein inbox``: lines that could not be placed."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import only_one, reading, writing

SUMMARY = "List the lines that could not be placed, and sort them."
EXAMPLES = """\
  closein inbox
  closein inbox sort k7wq-12 --into "12 label ok"
  closein inbox sort k7wq-12 --note"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("--all", action="store_true", help="also those that were sorted")
    reading(parser)
    words = parser.add_subparsers(dest="word", metavar="sort")
    sort = words.add_parser("sort", help="place a line", description="Place a line.")
    sort.add_argument("ref", metavar="REF", help="the line's name in the list")
    sort.add_argument("--into", metavar="LINE", help="the line said so that it can be placed")
    sort.add_argument("--note", action="store_true", help="it is a note")
    sort.add_argument("--drop", action="store_true", help="it means nothing; it stays on record")
    writing(sort)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """List or sort."""
    if args.word == "sort":
        return _sort(args, desk)
    from tracker.app.views.inbox import inbox_view

    rows = inbox_view(desk.session(fallback=True), everything=args.all)
    if desk.as_json:
        desk.json(rows)
    elif not rows:
        desk.say("the inbox is empty")
    else:
        desk.table(
            [
                [
                    row["ref"],
                    row["when"][:16].replace("T", " "),
                    row["by"],
                    row["text"] + (f" [{row['sorted']}]" if row["sorted"] else ""),
                ]
                for row in rows
            ],
            ["line", "when", "by", "what was said"],
        )
    return 0


def _sort(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.wants import diary, say

    given = [("--into", args.into), ("--note", args.note), ("--drop", args.drop)]
    way = only_one(given, f"inbox sort {args.ref}")
    session = desk.session()
    if way == "--into":
        intent, words = say.sort_into(session, args.ref, args.into, args.by or session.user)
    elif way == "--note":
        intent, words = diary.keep_as_note(args.ref), "a note"
    else:
        intent, words = diary.drop(args.ref), "dropped; it stays on record"
    act = desk.do(session, intent, args)
    desk.saved(act, words)
    return 0
