"""How words on the command line are read: one sentence for what is wrong, shared options."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from typing import Any, NoReturn

from tracker.cli.desk import wrap
from tracker.errors import BadInput, did_you_mean

NEGATIVE = re.compile(r"-[0-9.]")
"""So that ``-2C`` after an option is a reading and no option."""


class Lines(argparse.RawDescriptionHelpFormatter):
    """Help that keeps the lines of examples and fits 80 columns."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, max_help_position=26, width=80)

    def add_argument(self, action: argparse.Action) -> None:
        """Leave room for the words of a command too, which stand further in."""
        super().add_argument(action)
        words = [len(self._format_action_invocation(each)) for each in _words_of(action)]
        further = self._current_indent + self._indent_increment
        self._action_max_length = max(
            [self._action_max_length, *(length + further for length in words)]
        )

    def _format_args(self, action: argparse.Action, default_metavar: str) -> str:
        if action.nargs == argparse.ONE_OR_MORE:
            return f"{self._metavar_formatter(action, default_metavar)(1)[0]} ..."
        return super()._format_args(action, default_metavar)

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        lines = []
        for line in text.splitlines():
            start = " " * (len(line) - len(line.lstrip(" ")))
            first, *more = wrap(line, 80 - len(start)) if len(line) > 80 else [line.strip()]
            lines += [start + first, *(f"{start}  {rest}" for rest in more)]
        return "\n".join(lines)


def _words_of(action: argparse.Action) -> Sequence[argparse.Action]:
    """The words that a command takes, such as ``add`` and ``list``."""
    return getattr(action, "_choices_actions", ())


class Parser(argparse.ArgumentParser):
    """A parser that raises :class:`BadInput` in a sentence where argparse would leave.

    ``brief``: the description says all there is to say of the options, so help lists none.
    """

    def __init__(self, **settings: Any) -> None:
        settings.setdefault("formatter_class", Lines)
        super().__init__(allow_abbrev=False, add_help=False, **settings)
        self._negative_number_matcher = NEGATIVE
        self.brief = False
        self.add_argument("-h", "--help", action="help", help="say how this is used")
        self._positionals.title = self._optionals.title = None  # two lines more for the rest

    def format_help(self) -> str:
        """The help, with a usage of one line and nothing that each command says alike."""
        formatter = self._get_formatter()
        if self.usage is None:
            words = [
                formatter._format_args(
                    action, formatter._get_default_metavar_for_positional(action)
                )
                for action in self._get_positional_actions()
            ]
            options = ["[options]"] if len(self._get_optional_actions()) > 1 else []
            self.usage = " ".join([self.prog, *words, *options]).replace("%", "%%")
        formatter.add_usage(self.usage, [], [])
        formatter.add_text(self.description)
        for group in () if self.brief else self._action_groups:
            formatter.start_section(group.title)
            actions = [a for a in group._group_actions if "--help" not in a.option_strings]
            formatter.add_arguments(actions)
            formatter.end_section()
        formatter.add_text(self.epilog)
        return formatter.format_help()

    def error(self, message: str) -> NoReturn:
        """Say what is wrong, what was meant perhaps, and where to read more."""
        said = "".join(sign for sign in message if sign.isprintable())
        raise BadInput(f"{self._plainer(said)} ('{self.prog} --help' shows how)")

    def _plainer(self, message: str) -> str:
        if message.startswith("unrecognized arguments: "):
            words = message.removeprefix("unrecognized arguments: ")
            word = words.split(" ")[0]
            if word.startswith("-"):
                near = did_you_mean(word.split("=")[0], self._option_string_actions)
                return f"'{word}' is no option of {self.prog}{near}"
            return f"'{words}' is more than {self.prog} takes"
        if "invalid choice: " in message:
            typed = message.split("invalid choice: ")[1].split(" (choose from")[0].strip("'")
            known = message.split("(choose from ")[1].rstrip(")").replace("'", "").split(", ")
            near = did_you_mean(typed, known) or f"; there is {', '.join(known)}"
            return f"'{typed}' is not known here{near}"
        if message.startswith("the following arguments are required: "):
            return f"{message.removeprefix('the following arguments are required: ')} is missing"
        if " value: " in message and ": invalid " in message:
            name, rest = message.removeprefix("argument ").split(": invalid ", 1)
            kind, typed = rest.split(" value: ", 1)
            return f"{name} takes a {'whole ' if kind == 'int' else ''}number; {typed} is not"
        if message.startswith("argument ") and ": " in message:
            return message.removeprefix("argument ").replace(": ", " ", 1)
        return message


def reading(parser: argparse.ArgumentParser) -> None:
    """Give a reading command its ``--json``."""
    parser.add_argument("--json", action="store_true", help="print it for programs")


def writing(parser: argparse.ArgumentParser, *, signs: str = "who did it, if not you") -> None:
    """Give a writing command ``--by``, ``--when`` and ``--json``."""
    parser.add_argument("--by", metavar="NAME", help=signs)
    parser.add_argument("--when", metavar="T", help="earlier: 14:30, 'yesterday 17:00', a date")
    parser.add_argument("--json", action="store_true", help="print the act for programs")


def only_one(values: Sequence[tuple[str, Any]], what: str) -> str:
    """The one option given of several; :class:`BadInput` where there is none or more."""
    names = [name for name, _ in values]
    given = [name for name, value in values if value not in (None, False)]
    if len(given) == 1:
        return given[0]
    if not given:
        raise BadInput(f"{what}: give one of {', '.join(names)}")
    raise BadInput(f"{what}: {' and '.join(given)} can't go together")
