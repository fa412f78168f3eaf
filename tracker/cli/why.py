"""``closein why``: whether a task can begin, or what stands in its way, in a sentence."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import reading

SUMMARY = "Whether a task can begin on a day like the last, or what stands in its way."
EXAMPLES = """\
  closein why mask
  closein why run-drops --json"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("task", metavar="TASK", help="a task")
    reading(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Print the sentence."""
    from tracker.app.views.today import task_words

    words = task_words(desk.session(fallback=True), args.task)
    if desk.as_json:
        desk.json({"task": args.task, "words": words})
    else:
        desk.wrapped(words)
    return 0
