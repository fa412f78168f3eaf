"""``closein check``: answer a check for its subjects, or read what it asks."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tracker.cli.desk import Desk
from tracker.cli.options import Parser, only_one, writing

if TYPE_CHECKING:
    from tracker.act import Act
    from tracker.app.session import Session
    from tracker.build.answer import Standing

SUMMARY = """\
Answer a check for its subjects; without an answer, say what it asks.

  CHECK          its name, the beginning of it, or its word for the entry line
  --at S ...     subjects: L3, L1-L12, L1,L4; or --bay B, --zone Z; --but S ...
  --good  --bad  found good, or bad (--note TEXT says more)
  --value V      measured, with its unit: 9in; the limit makes it good or bad
  --waive WHY  --na WHY  --reopen WHY waived; not applicable; answer taken back
  --second NAME  the second person; --remote: by phone or photo
  --read TEXT    what the second person read off the label, blind
  --photo FILE   where the picture is
  --by NAME  --when T  --json   who and when, if not you now; for programs
More than one at once only when good by look or photo, in one bay."""
EXAMPLES = """\
  closein check label-both-ends --at L1-L3 --good --second Ola --bay B2
  closein check lead-length --at L3 --value 9in
  closein check label-both-ends --bay B2 --but L4 --good"""
RESULTS = ("good", "bad", "value", "waive", "na", "reopen")
RECORDED = {"value": "measured", "waive": "waived", "reopen": "reopened"}


def arguments(parser: Parser) -> None:
    """What may follow the command word; ``SUMMARY`` explains it, so that help fits a screen."""
    parser.usage, parser.brief = "closein check CHECK [--at SUBJECT ...] ANSWER [...]", True
    many: dict[str, Any] = {"nargs": "+", "metavar": "SUBJECT", "action": "extend", "default": []}
    parser.add_argument("check", metavar="CHECK", help="a check")
    parser.add_argument("--at", help="subjects", **many)
    parser.add_argument("--but", help="subjects left out", **many)
    parser.add_argument("--bay", metavar="BAY", help="all in this bay")
    parser.add_argument("--zone", metavar="ZONE", help="all in this zone")
    answer_options(parser)
    writing(parser)


def answer_options(parser: Parser) -> None:
    """The options that say what was found; ``settle`` takes them too."""
    parser.add_argument("--good", action="store_true", help="found good")
    parser.add_argument("--bad", action="store_true", help="found bad")
    parser.add_argument("--value", metavar="V", help="measured, with its unit")
    parser.add_argument("--waive", metavar="WHY", help="waived, with the reason")
    parser.add_argument("--na", metavar="WHY", help="not applicable, with the reason")
    parser.add_argument("--reopen", metavar="WHY", help="the answer taken back, with the reason")
    parser.add_argument("--second", metavar="NAME", help="the second person")
    parser.add_argument("--remote", action="store_true", help="the second by phone or photo")
    parser.add_argument("--read", metavar="TEXT", help="what the second read off the label")
    parser.add_argument("--photo", metavar="FILE", help="where the picture is")
    parser.add_argument("--note", metavar="TEXT", help="the reason or what else there is to say")


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Record the answer, then say how the check stands with it."""
    if not _answered(args):
        return _read(args, desk)
    from tracker.app.wants import checks

    found = what_was_found(args)
    session = desk.session()
    intent = checks.mark(
        args.check,
        args.at,
        found.pop("result"),
        by=args.by or session.user,
        bay=args.bay,
        zone=args.zone,
        but=args.but,
        **found,
    )
    act = desk.do(session, intent, args)
    say_answered(desk, session, act)
    if args.photo and not Path(args.photo).exists():
        desk.warn(f"no picture lies at {args.photo} on this computer; the path is kept as it is")
    return 0


def _answered(args: argparse.Namespace) -> bool:
    return any(getattr(args, name) not in (None, False) for name in RESULTS)


def what_was_found(args: argparse.Namespace) -> dict[str, Any]:
    """The answer that the options give, as keywords for marking."""
    chosen = only_one([(f"--{name}", getattr(args, name)) for name in RESULTS], args.check)[2:]
    why = getattr(args, chosen) if chosen in ("waive", "na", "reopen") else args.note
    return {
        "result": RECORDED.get(chosen, chosen),
        "value": args.value,
        "second": args.second,
        "present": ("remote" if args.remote else "present") if args.second else None,
        "why": why,
        "read": args.read,
        "photo": args.photo,
    }


def say_answered(desk: Desk, session: Session, act: Act) -> None:
    """What was saved; what a number counts as; what follows from a bad one."""
    from tracker.app.views.log import act_words

    stands = _standings(session, act)
    desk.saved(act, act_words(session, act), stands=[_stand_row(session, row) for row in stands])
    if desk.as_json:
        return
    for row in stands:
        if row.limit is not None and row.answer and row.answer.result == "measured":
            said = "can't be judged: the limit is" if row.limit.missing else f"{row.state}: it is"
            desk.wrapped(f"{row.subject.slug} {said} {row.limit}", "    ", "  ")
    bad = [row for row in stands if row.state == "bad"]
    if bad:
        check = bad[0].check
        if check.get("class") == "hold":
            desk.wrapped(
                f"{check.slug} holds the work: no release until it is put right and answered "
                + ("again" if check.get("waive") is False else "again, or waived by two"),
                "  ",
            )
        if check.get("missed"):
            desk.wrapped(f"if missed: {check.get('missed')}", "  ")
        if check.get("caution"):
            desk.wrapped(f"caution: {check.get('caution')}", "  ")


def _standings(session: Session, act: Act) -> list[Standing]:
    from tracker.build.answer import standing

    items = session.build.items
    return [
        standing(session.build, items[fact["check"]], items[fact["subject"]])
        for fact in act.facts
        if fact.get("f") == "point.answered"
    ]


def _stand_row(session: Session, row: Standing) -> dict[str, Any]:
    return {
        "check": session.names.name(row.check.id),
        "subject": session.names.name(row.subject.id),
        "state": row.state,
        "limit": str(row.limit) if row.limit else None,
    }


def _read(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.views.check import check_view

    session = desk.session(fallback=True)
    view = check_view(session, args.check, args.at, bay=args.bay, zone=args.zone)
    if desk.as_json:
        desk.json(view)
        return 0
    from tracker.app.views.words.counting import ranges

    desk.wrapped(f"{view['check']}: {view['text']}", "  ", "", head=True)
    told = {"before": view["before"], "class": view["class"], "shown by": view["how"]}
    told |= {"against each": view["each"], "waived": "never" if not view["waive"] else None}
    told |= {name: view[name] for name in ("limit", "basis", "missed", "caution")}
    if view["sources"]:
        told["sources differ"] = "; ".join(view["sources"])
    desk.table([(f"  {name}", value) for name, value in told.items() if value])
    for state, names in view["stands"].items():
        desk.wrapped(f"{state} ({len(names)}): {ranges(names)}", "    ", "  ")
    return 0
