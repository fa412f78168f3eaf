"""How words on the command line are read: one sentence for what is wrong, shared options."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any, NoReturn

from tracker.errors import BadInput, did_you_mean


class Lines(argparse.RawDescriptionHelpFormatter):
    """Help that keeps the lines of examples and fits 80 columns."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, max_help_position=26, width=80)


class Parser(argparse.ArgumentParser):
    """A parser that raises :class:`BadInput` in a sentence where argparse would leave."""

    def __init__(self, **settings: Any) -> None:
        settings.setdefault("formatter_class", Lines)
        super().__init__(allow_abbrev=False, **settings)

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
