"""``closein size``: how big, with the source beside the number."""

from __future__ import annotations

import argparse
import re
from typing import TYPE_CHECKING, Any

from tracker.cli.desk import Desk
from tracker.cli.options import Parser, reading, writing
from tracker.cli.size_from_build import gathered, options, refuse_zone
from tracker.cli.size_from_build import show as show_gathered
from tracker.errors import BadInput
from tracker.sizing.spec import HELPERS, Helper, Input, helper, range_in_words

if TYPE_CHECKING:
    from tracker.app.views.gathered import Gathered
    from tracker.sizing.result import Figure, Result

SUMMARY = "How big: wire, fuse, chase, foam, joist, battery, weight; each with its source."
EXAMPLES = """\
  closein size conductor --amps 8A --one-way 18ft --volts 12V --drop 3%
  closein size conductor --amps 8A --one-way 18ft --volts 12V --to L7   into L7
  closein size drop --size 14AWG --amps 5A --one-way 5.5m --volts 12V --json
  closein size conductor --help      what one of them takes"""


class HelperParser(Parser):
    """The parser of one helper; what it takes is read when it is the one in hand."""

    filled = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """Fill the parser from the helper's spec, then parse."""
        if not self.filled:
            self.filled = True
            self._fill(helper(self.prog.split()[-1]))
        return super().parse_known_args(args, namespace)

    def _fill(self, found: Helper) -> None:
        self.description = f"{found.title[:1].upper()}{found.title[1:]}."
        self.epilog = f"examples:\n{found.examples.rstrip()}" if found.examples else None
        for each in found.inputs:
            add_input(self, each)
        options(self, found.name)
        self.add_argument("--to", metavar="ITEM", help="write the result into this item")
        self.add_argument("--at", metavar="NAME", help="of a check: what was measured")
        self.add_argument("--why", metavar="TEXT", help="the reason, needed for what is buried")
        writing(self)


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    reading(parser)
    names = f"{', '.join(HELPERS)}; 'closein size' says what each finds"
    words = parser.add_subparsers(
        dest="helper", metavar="HELPER", parser_class=HelperParser, help=names
    )
    for name in HELPERS:
        words.add_parser(name)


def add_input(parser: argparse.ArgumentParser, each: Input) -> None:
    """Give a parser the option of one input."""
    if each.type == "yesno":
        parser.add_argument(each.flag, dest=each.name, action="store_true", help=each.help)
        return
    said = each.help.replace("%", "%%")
    if each.choices:
        said += f" ({', '.join(each.choices)})"
    elif each.low is not None:
        said += f" ({range_in_words(each)})".replace("%", "%%")
    if each.default is not None and not each.repeated:
        unit = f" {each.unit}".replace("%", "%%") if each.type == "number" else ""
        said += f"; {each.default:g}{unit}" if each.type == "number" else f"; {each.default}"
    words = {"table": "FILE", "area": "SIZE", "text": "TEXT", "whole": "N", "choice": "WORD"}
    parser.add_argument(
        each.flag,
        dest=each.name,
        action="append" if each.repeated else "store",
        metavar=words.get(each.type, "QUANTITY" if each.unit else "N"),
        help=said,
    )


def run(args: argparse.Namespace, desk: Desk) -> int:
    """List the helpers, or let one answer."""
    if not args.helper:
        return _list(desk)
    found = helper(args.helper)
    typed = _typed(found, args)
    refuse_zone(args)
    session = taken = None
    if getattr(args, "from_build", False):
        session = desk.session(fallback=args.to is None)
        taken = gathered(session, args.helper, typed, getattr(args, "zone", None))
        typed = taken.typed
    result = found.answer(typed)
    if args.to is None:
        for option in ("at", "why", "by", "when"):
            if getattr(args, option, None):
                raise BadInput(f"--{option} goes with --to ITEM alone")
        if desk.as_json:
            desk.json(_for_programs(result, taken))
        else:
            _print(desk, result, taken)
        return 0
    from tracker.app.views.log import act_words
    from tracker.app.wants.sizing import asked_too_little, write

    session = session or desk.session()
    by = getattr(args, "by", None) or session.user
    intent = write(args.helper, typed, result, args.to, at=args.at, by=by, why=args.why)
    act = desk.do(session, intent, args)
    if desk.as_json:
        desk.saved(act, act_words(session, act), **_for_programs(result, taken))
        return 0
    _print(desk, result, taken)
    desk.saved(act, act_words(session, act))
    if too_little := asked_too_little(session.build, args.helper, typed, args.to):
        desk.wrapped(
            f"{args.to} says {', '.join(too_little)}: size it for that, or correct the run; "
            "'closein runs --recheck' judges by what it says",
            "    ",
            "  ! ",
        )
    return 0


def _print(desk: Desk, result: Result, taken: Gathered | None) -> None:
    show(desk, result)
    if taken is not None:
        show_gathered(desk, taken)


def _for_programs(result: Result, taken: Gathered | None) -> dict[str, Any]:
    from tracker.sizing.result import as_json

    return as_json(result) | ({"from_build": taken.as_json()} if taken is not None else {})


def _typed(found: Helper, args: argparse.Namespace) -> dict[str, Any]:
    typed = {each.name: getattr(args, each.name, None) for each in found.inputs}
    for each in found.inputs:
        file = typed[each.name]
        if each.type == "table" and file is not None:
            typed[each.name] = _table(file)
    return {name: value for name, value in typed.items() if value not in (None, False)}


def _table(file: str) -> dict[str, Any]:
    """A TOML file as a mapping; BadFile says where it is wrong."""
    import tomllib
    from pathlib import Path

    from tracker.errors import BadFile

    try:
        with Path(file).open("rb") as stream:
            return tomllib.load(stream)
    except OSError as error:
        raise BadFile(file, None, f"can't be read ({error.strerror})") from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        line = re.search(r"line ([0-9]+)", str(error))
        raise BadFile(file, int(line[1]) if line else None, f"is not TOML: {error}") from None


def _list(desk: Desk) -> int:
    if desk.as_json:
        desk.json([{"name": name, "finds": title} for name, (_, title) in HELPERS.items()])
        return 0
    desk.table([[f"  {name}", title] for name, (_, title) in HELPERS.items()])
    desk.say()
    desk.say("'closein size HELPER --help' says what it takes.")
    return 0


def show(desk: Desk, result: Result) -> None:
    """Print a result for people."""
    desk.wrapped(result.title, "  ", "", head=True)
    rows = [[f"  {figure.name}", _value(figure), figure.meaning] for figure in result.figures]
    desk.table(rows)
    desk.wrapped(result.governs, "    ", "  governs: ")
    for line in result.working:
        desk.wrapped(line, "    ", "  = ")
    for name, answer in result.others:
        desk.wrapped(f"{name}: {answer}", "    ", "  beside it: ")
    for source in result.sources:
        desk.wrapped(str(source), "    ", "  source: ")
    for caution in result.cautions:
        desk.wrapped(caution, "    ", "  ! ")
    desk.say(f"  tables: {result.table_version}")


def _value(figure: Figure) -> str:
    value = figure.value
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    text = str(value)
    if isinstance(value, float):  # 10380, not 1.038e+04; a very small one keeps its exponent
        text = f"{value:.4g}" if abs(value) < 9999.5 else f"{value:.0f}"
    return f"{text} {figure.unit}".rstrip()
