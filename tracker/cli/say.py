"""``closein say``: one line in plain words, taken for what it most likely is."""

from __future__ import annotations

import argparse
import sys

from tracker.cli.desk import Desk
from tracker.cli.options import writing
from tracker.errors import BadInput

SUMMARY = """\
Say what happened in one line; what can't be placed waits in the inbox.
Without words, lines are read from standard input, all in one act."""
EXAMPLES = """\
  closein say 12 label ok             run L12: the check called 'label' is good
  closein say 12 len 9in              a measured one; the tool decides
  closein say bay 7 ok but 12 14      all that is looked at in a bay, but these
  closein say out glands              sets a part out and raises a blocker
  closein say 3 people 8-16 dry 6C    the day begins
  closein say the fan arrived bent    anything else is a note
  closein say < lines.txt"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("line", nargs="*", metavar="LINE", help="what happened, in your words")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Take the line for what it is and say so."""
    from tracker.app.wants.say import KEPT, kept, understand

    line = " ".join(args.line)
    if not args.line or line == "-":
        if sys.stdin.isatty():
            raise BadInput("say what? 'closein say 12 label ok', or any words for a note")
        line = sys.stdin.read()
    session = desk.session()
    intent, words = understand(session, line, args.by or session.user)
    act = desk.do(session, intent, args)
    waiting = kept(act)
    if len(waiting) != words.count(KEPT):  # the build changed between reading and writing
        from tracker.app.views.log import act_words

        words = act_words(session, act)
    desk.saved(act, words, inbox=waiting)
    if waiting and not desk.as_json:
        desk.say("  'closein inbox' lists what waits, 'closein inbox sort' places it")
    return 0
