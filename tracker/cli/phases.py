"""``closein phases``: what there is to take up, a template checked, phases taken up."""

from __future__ import annotations

import argparse
from typing import Any

from tracker.act import short_id
from tracker.cli.desk import Desk
from tracker.cli.options import reading, writing

SUMMARY = "List the phases there are, check a template file, or take phases up."
EXAMPLES = """\
  closein phases
  closein phases adopt framing deck rough-in-wiring insulation
  closein phases check my-own/sauna.toml"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    reading(parser)
    words = parser.add_subparsers(dest="word", metavar="check|adopt")
    check = words.add_parser("check", help="is a template file in order", description="Check it.")
    check.add_argument("file", metavar="FILE", help="a TOML file")
    reading(check)
    adopt = words.add_parser("adopt", help="take phases up", description="Take phases up.")
    adopt.add_argument("names", nargs="+", metavar="NAME", help="a phase, or a file of your own")
    writing(adopt)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """List, check or adopt."""
    if args.word == "check":
        return _check(args, desk)
    if args.word == "adopt":
        return _adopt(args, desk)
    from tracker.app.views.templates import templates_view
    from tracker.errors import NoBuild

    try:
        session = desk.session(fallback=True)
    except NoBuild:
        if desk.build is not None:
            raise
        session = None
    rows = templates_view(session.build if session else None)
    if desk.as_json:
        desk.json(rows)
        return 0
    desk.table(
        [
            [
                row["order"],
                row["name"],
                "adopted" if row["adopted"] else "not yet",
                row["tasks"],
                row["checks"],
                ", ".join(row["hold_points"]) or "-",
            ]
            for row in rows
        ],
        ["no", "phase", "here", "tasks", "checks", "hold points"],
    )
    if not any(row["adopted"] for row in rows):
        desk.say("'closein phases adopt NAME ...' takes one up")
    return 0


def _check(args: argparse.Namespace, desk: Desk) -> int:
    from pathlib import Path

    from tracker.app.views.templates import template_row
    from tracker.errors import BadInput
    from tracker.templates.load import load

    if not Path(args.file).is_file():
        raise BadInput(f"there is no file {args.file}")
    row = template_row(load(Path(args.file)), None)
    if desk.as_json:
        desk.json(row)
    else:
        desk.say(f"{args.file}: in order; {_counts(row)}")
    return 0


def _adopt(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.views.templates import template_row
    from tracker.app.wants import phases

    templates = [phases.template(name) for name in args.names]  # all are read before one is taken
    session = desk.session()
    told: list[dict[str, Any]] = []
    for name, phase in zip(args.names, templates, strict=True):
        if phases.news(session.build, phase) is None:
            words = f"{phase.name} is in the build already; nothing new, nothing written"
            told.append({"id": None, "saved": words, "phase": phase.name})
            _say(desk, words)
            continue
        act = desk.do(session, phases.adopt([name]), args)
        words = f"{phase.name}: {_counts(template_row(phase, session.build))}"
        told.append({"id": act.id, "saved": words, "phase": phase.name})
        _say(desk, f"saved {short_id(act.id)}: {words}")
        before = phases.comes_after(session.build, phase)
        wanted = [each for each in before if each not in {other.name for other in templates}]
        if wanted:
            _say(desk, f"  it comes after {', '.join(wanted)}, not in this build (it may stay so)")
    if desk.as_json:
        desk.json(told[0] if len(told) == 1 else told)
    return 0


def _say(desk: Desk, text: str) -> None:
    if not desk.as_json:
        desk.say(text)


def _counts(row: dict[str, Any]) -> str:
    holds = ", ".join(row["hold_points"])
    hold = f", hold point {holds}" if holds else ", no hold point"
    return f"{row['title']}, {row['tasks']} tasks, {row['checks']} checks{hold}"
