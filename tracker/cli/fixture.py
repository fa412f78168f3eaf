"""``closein fixture``: a lamp, fan, pump or other fixture with all it brings, in one line."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING, Any

from tracker.cli.desk import Desk
from tracker.cli.options import reading, writing

if TYPE_CHECKING:
    from tracker.app.wants.drafting import Asked
    from tracker.app.wants.fixtures import Drafted

SUMMARY = "Add a fixture with its run, holes, box or backing, labels and parts, all at once."
EXAMPLES = """\
  closein fixture list
  closein fixture add lamp --at ceiling,4.1m,right --amps 0.8 --name "Press lamp"
  closein fixture add lamp --at ceiling,4m --switch "by the door" --from "fuse panel"
  closein fixture add lamp-row --count 6 --step 0.6m --at ceiling,1m,left --dry-run
  closein fixture add pump --amps 4 --volts 12 --length 6m --only run,part
  closein fixture add lamp --on L7 --amps 0.8        it joins a run there is"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    reading(parser)
    words = parser.add_subparsers(dest="word", metavar="add|list")
    add = words.add_parser(
        "add",
        help="draft one and take it",
        description="Draft a fixture with all it brings, show it, and take it as one act.",
    )
    add.add_argument("fixture", metavar="FIXTURE", help="'closein fixture list' names them")
    add.add_argument("--at", metavar="PLACE", help="ceiling,4.1m,right; also height 1.2m")
    add.add_argument("--name", metavar="TEXT", help="what it is called")
    add.add_argument("--bay", metavar="B", help="the bay it lies in")
    add.add_argument("--amps", metavar="A", help="current of one")
    add.add_argument("--volts", metavar="V", help="nominal voltage")
    add.add_argument("--length", metavar="L", help="of its feed; with amps and volts it is sized")
    add.add_argument("--gauge", metavar="G", help="of its wires, such as 14AWG or 2.5mm2")
    add.add_argument("--fuse", metavar="A", help="protection near the source")
    add.add_argument("--from", dest="source", metavar="TEXT", help="where its feed starts or ends")
    add.add_argument("--switch", metavar="TEXT", help="where its switch is")
    add.add_argument("--on", metavar="RUN", help="join this run, without a feed of its own")
    add.add_argument("--count", type=int, default=1, metavar="N", help="how many in a row")
    add.add_argument("--step", metavar="L", help="how far apart in the row")
    add.add_argument("--holes", type=int, default=1, metavar="N", help="through ribs; 1")
    add.add_argument("--ac", action="store_true", help="mains")
    add.add_argument("--gas", action="store_true", help="it burns gas")
    add.add_argument("--only", action="append", metavar="WHAT", help="kinds or names of the draft")
    add.add_argument("--yes", action="store_true", help="take it without asking")
    add.add_argument("--dry-run", action="store_true", help="show it and take nothing")
    add.add_argument("--plan", action="store_true", help="print it to change and import by hand")
    add.add_argument("--why", metavar="TEXT", help="the reason, where the run it joins is buried")
    writing(add)
    listed = words.add_parser("list", help="the fixtures there are", description="List them.")
    reading(listed)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """List the recipes, or draft one, show it and take it."""
    if args.word != "add":
        return _list(desk)
    from tracker.app.wants.fixtures import draft

    asked = _asked(args)
    only = args.only or []
    session = desk.session(fallback=args.dry_run or args.plan)
    found = draft(session.build, asked, only)
    if args.plan:
        desk.write(found.text)
        return 0
    if args.dry_run:
        if desk.as_json:
            desk.json({"id": None, **_told(found)})
        else:
            _show(desk, found)
            desk.say("nothing was taken")
        return 0
    if desk.as_json:
        return _take(args, desk, session, asked, only, found)
    _show(desk, found)
    if not args.yes and _asks(desk):
        answer = _answer(desk)
        if answer is None:
            desk.say("nothing was taken")
            return 0
        if answer:
            only = [answer]
            found = draft(session.build, asked, only)
            _show(desk, found)
    return _take(args, desk, session, asked, only, found)


def _take(
    args: argparse.Namespace,
    desk: Desk,
    session: Any,
    asked: Asked,
    only: list[str],
    found: Drafted,
) -> int:
    from tracker.app.wants import fixtures
    from tracker.build.names import clean

    act = desk.do(session, fixtures.add(asked, only, found.text), args)
    told = ", ".join(f"{kind} {name}" for kind, name in found.names) or "what it joins"
    desk.saved(act, f"{clean(asked.name or asked.fixture)}: {told}", **_told(found))
    return 0


def _asked(args: argparse.Namespace) -> Asked:
    from tracker.app.wants.drafting import Asked

    names = ("at", "name", "bay", "amps", "volts", "length", "gauge", "fuse", "source", "switch")
    more = ("on", "count", "step", "holes", "gas", "why")
    given = {name: getattr(args, name) for name in (*names, *more)}
    return Asked(args.fixture, mains=args.ac, **given)


def _told(found: Drafted) -> dict[str, Any]:
    return {
        "drafts": found.lines,
        "names": [{"kind": kind, "name": name} for kind, name in found.names],
        "notes": found.notes,
        "caution": found.caution,
    }


def _show(desk: Desk, found: Drafted) -> None:
    for line in found.lines:
        desk.wrapped(line, "    ", "")
    for note in found.notes:
        desk.wrapped(note, "    ", "  note: ")
    if found.caution:
        desk.wrapped(found.caution, "    ", "  caution: ")


def _asks(desk: Desk) -> bool:
    return bool(sys.stdin.isatty() and desk.out.isatty())


def _answer(desk: Desk) -> str | None:
    """What to take: '' for all, kinds or names for some, None for nothing."""
    desk.write("take it? [yes, no, or some of it by kind or name, such as run,hole] ")
    desk.out.flush()
    line = sys.stdin.readline()
    word = line.strip()
    if not line or word.casefold() in ("n", "no"):
        return None
    return "" if word.casefold() in ("", "y", "yes") else word


def _list(desk: Desk) -> int:
    from tracker.templates.recipes import recipes

    rows = [
        {"name": each.name, "thing": each.thing, "summary": each.summary, "caution": each.caution}
        for each in recipes().values()
    ]
    if desk.as_json:
        desk.json(rows)
        return 0
    desk.table([[row["name"], row["summary"]] for row in rows], ["fixture", "what is drafted"])
    return 0
