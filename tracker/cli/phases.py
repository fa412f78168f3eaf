"""``closein phases``: what there is to take up, own templates, and what newer ones would change."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from tracker.act import short_id
from tracker.cli.desk import Desk
from tracker.cli.options import reading, writing

if TYPE_CHECKING:
    from tracker.app.session import Session

SUMMARY = "List the phases there are, take them up, or bring a template of your own."
EXAMPLES = """\
  closein phases
  closein phases adopt framing deck rough-in-wiring insulation
  closein phases example > phases/sauna.toml   in the build folder
  closein phases check phases/sauna.toml
  closein phases diff                          what newer templates would change
  closein phases adopt framing --newer         take that, your own edits stay"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    reading(parser)
    words = parser.add_subparsers(dest="word", metavar="check|adopt|diff|example")
    check = words.add_parser("check", help="is a template file in order", description="Check it.")
    check.add_argument("file", metavar="FILE", help="a TOML file")
    reading(check)
    adopt = words.add_parser("adopt", help="take phases up", description="Take phases up.")
    adopt.add_argument("names", nargs="+", metavar="NAME", help="a phase, or a file of your own")
    adopt.add_argument("--newer", action="store_true", help="what newer templates add and change")
    writing(adopt)
    diff = words.add_parser(
        "diff",
        help="what newer templates would change",
        description="What the templates say by now against this build, item by item.",
    )
    diff.add_argument("names", nargs="*", metavar="NAME", help="phases of this build, or all")
    reading(diff)
    words.add_parser(
        "example",
        help="a template to begin from",
        description="Print a template of a phase of one's own, with every key explained.",
    )


def run(args: argparse.Namespace, desk: Desk) -> int:
    """List, check, adopt, compare, or print the example."""
    if args.word == "check":
        return _check(args, desk)
    if args.word == "adopt":
        return _adopt_newer(args, desk) if args.newer else _adopt(args, desk)
    if args.word == "diff":
        from tracker.cli.phases_diff import print_difference

        return print_difference(args, desk)
    if args.word == "example":
        from tracker.templates.shipped import example

        desk.write(example())
        return 0
    return _list(desk)


def _list(desk: Desk) -> int:
    from tracker.app.views.templates import templates_view
    from tracker.app.wants import phases

    session = _session_or_none(desk)
    rows = templates_view(
        session.build if session else None, phases.library(session.folder if session else None)
    )
    if desk.as_json:
        desk.json(rows)
        return 0
    desk.table(
        [
            [
                "-" if row["order"] is None else row["order"],
                row["name"],
                _here(row),
                row["from"],
                row["tasks"],
                row["checks"],
                ", ".join(row["hold_points"]) or "-",
            ]
            for row in rows
        ],
        ["no", "phase", "here", "from", "tasks", "checks", "hold points"],
    )
    for row in rows:
        if row["fault"]:
            desk.wrapped(f"can't be taken up: {row['fault']}", "  ", "")
        elif row["in_place_of"]:
            others = " and ".join(row["in_place_of"])
            desk.wrapped(
                f"{row['name']}: {row['file']} goes before the one from: {others}", "  ", ""
            )
    if any(row["differs"] for row in rows):
        desk.say("'closein phases diff' says what the templates have by now")
    if not any(row["adopted"] for row in rows):
        desk.say("'closein phases adopt NAME ...' takes one up")
    return 0


def _here(row: dict[str, Any]) -> str:
    if not row["adopted"]:
        return "not yet"
    return "adopted, differs" if row["differs"] else "adopted"


def _session_or_none(desk: Desk) -> Session | None:
    from tracker.errors import NoBuild

    try:
        return desk.session(fallback=True)
    except NoBuild:
        if desk.build is not None:
            raise
        return None


def _check(args: argparse.Namespace, desk: Desk) -> int:
    from pathlib import Path

    from tracker.app.views.templates import template_row
    from tracker.app.wants import phases
    from tracker.errors import BadInput

    if not Path(args.file).is_file():
        raise BadInput(f"there is no file {args.file}")
    session = _session_or_none(desk)
    among = phases.library(session.folder if session else None)
    phase = among.load(Path(args.file))
    row, missed = template_row(phase, None), among.missed_in(phase)
    if desk.as_json:
        desk.json(row | {"missed": missed})
        return 0
    desk.say(f"{args.file}: in order; {_counts(row)}")
    for text in missed:
        desk.wrapped(f"but {text}", "  ")
    return 0


def _adopt(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.views.templates import template_row
    from tracker.app.wants import phases

    session = desk.session()
    among = phases.library(session.folder)
    templates = [phases.template(name, among) for name in args.names]  # all, before one is taken
    told: list[dict[str, Any]] = []
    for name, phase in zip(args.names, templates, strict=True):
        if phases.news(session.build, phase) is None:
            words = f"{phase.name} is in the build already; nothing new, nothing written"
            told.append({"id": None, "saved": words, "phase": phase.name})
            _say(desk, words)
            if template_row(phase, session.build)["differs"]:
                _say(desk, f"  its template differs by now: 'closein phases diff {phase.name}'")
            continue
        act = desk.do(session, phases.adopt([name], among), args)
        words = f"{phase.name}: {_counts(template_row(phase, session.build))}"
        told.append({"id": act.id, "saved": words, "phase": phase.name})
        _say(desk, f"saved {short_id(act.id)}: {words}")
        before = phases.comes_after(session.build, phase)
        wanted = [each for each in before if each not in {other.name for other in templates}]
        if wanted:
            _say(desk, f"  it comes after {', '.join(wanted)}, not in this build (it may stay so)")
        for text in among.missed_in(phase):
            _say(desk, f"  {text}")
    if desk.as_json:
        desk.json(told[0] if len(told) == 1 else told)
    return 0


def _adopt_newer(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.views.templates import difference_view
    from tracker.app.wants import phases

    session = desk.session()
    among = phases.library(session.folder)
    templates = [phases.template(name, among) for name in args.names]
    rows = difference_view(session.build, templates, among)
    intent = phases.adopt_newer(args.names, among)
    if not intent(session.build):
        names = ", ".join(phase.name for phase in templates)
        words = f"the templates add and change nothing in {names}; nothing written"
        if desk.as_json:
            desk.json({"id": None, "saved": words})
        else:
            desk.say(words)
        return 0
    act = desk.do(session, intent, args)
    added, changed, kept, gone = (
        sum(len(row[key]) for row in rows) for key in ("add", "change", "keep", "drop")
    )
    names = ", ".join(row["phase"] for row in rows)
    words = f"{names}: {added} items added, {changed} fields changed"
    words += f", {kept} fields set by hand kept" if kept else ""
    desk.saved(act, words, difference=rows)
    if gone and not desk.as_json:
        desk.wrapped(
            f"{gone} items that the templates have no more stay; "
            "'closein check ... --na WHY' answers a check that does not apply",
            "  ",
        )
    return 0


def _say(desk: Desk, text: str) -> None:
    if not desk.as_json:
        desk.say(text)


def _counts(row: dict[str, Any]) -> str:
    holds = ", ".join(row["hold_points"])
    hold = f", hold point {holds}" if holds else ", no hold point"
    return f"{row['title']}, {row['tasks']} tasks, {row['checks']} checks{hold}"
