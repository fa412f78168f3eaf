"""What can be typed after ``closein``, read off the parsers of its commands."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from importlib import import_module

from tracker.cli.main import COMMANDS
from tracker.cli.options import Parser

NAMED = {
    "BAY": "bay",
    "B": "bay",
    "BLOCKER": "blocker",
    "CHECK": "check",
    "HOLDPOINT": "holdpoint",
    "PART": "part",
    "RUN": "run",
    "SUBJECT": "",
    "TASK": "task",
    "Z": "zone",
    "ZONE": "zone",
}
"""What an argument is called in the help -> the kind of the names it takes, '' for all."""

NAMES_OF = {
    ("item", "change"): "",
    ("item", "remove"): "",
    ("item", "show"): "",
    ("settle",): "",
    ("unstuck",): "blocker",
}
"""Commands whose first word is a name that the help calls NAME or otherwise."""

NAMING_OPTIONS = {"--at": "", "--stops": "", "--on": "", "--but": ""}
"""Options that take names of any kind; of places or dates the shell completes nothing."""


@dataclass(frozen=True, slots=True)
class Typed:
    """What may follow one command word, or two.

    Parameters
    ----------
    path: the words themselves, such as ``("part", "receive")``.
    help: what it is for, one line.
    options: option -> its help.
    values: option -> the kind whose names follow it, '' for all kinds.
    words: fixed words that may follow, such as the second word or a choice.
    names: the kind whose names may follow, '' for all, None for none.
    files: may a file or folder follow?
    """

    path: tuple[str, ...]
    help: str
    options: dict[str, str]
    values: dict[str, str]
    words: dict[str, str]
    names: str | None
    files: bool


def everything_typed() -> list[Typed]:
    """Every command and, where it has one, every second word of it."""
    found: list[Typed] = []
    for name, (module_name, summary) in COMMANDS.items():
        module = import_module(f"tracker.cli.{module_name}")
        parser = Parser(prog=f"closein {name}")
        module.arguments(parser)
        _add(found, (name,), parser, summary)
    return found


def _add(found: list[Typed], path: tuple[str, ...], parser: Parser, summary: str) -> None:
    options: dict[str, str] = {}
    values: dict[str, str] = {}
    words: dict[str, str] = {}
    names = NAMES_OF.get(path)
    files = False
    inner: list[tuple[str, Parser, str]] = []
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            helps = {choice.dest: choice.help or "" for choice in action._choices_actions}
            for word, one in action.choices.items():
                words[word] = helps.get(word, "")
                inner.append((word, one, helps.get(word, "")))
            continue
        label = str(action.metavar or action.dest)
        kind = NAMED.get(label)
        long = [option for option in action.option_strings if option.startswith("--")]
        if long:
            options[long[0]] = (action.help or "").replace("%%", "%")
            if action.nargs != 0 and (kind is not None or long[0] in NAMING_OPTIONS):
                of_place = path[0] == "part" and long[0] == "--at"
                if not of_place:
                    values[long[0]] = kind if kind is not None else NAMING_OPTIONS[long[0]]
        elif action.choices:
            words.update(dict.fromkeys(map(str, action.choices), ""))
        elif kind is not None:
            names = kind if names is None else names
        files = files or (not long and label in ("FILE", "FOLDER"))
    if path == ("phases", "adopt"):
        from tracker.templates.load import shipped

        words.update(dict.fromkeys(shipped(), "a phase"))
    if path == ("fixture", "add"):
        from tracker.templates.recipes import recipes

        words.update({name: each.summary for name, each in recipes().items()})
    found.append(Typed(path, summary, options, values, words, names, files))
    for word, one, help_text in inner:
        _add(found, (*path, word), one, help_text)
