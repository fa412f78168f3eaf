"""The command ``closein``: finds the command in hand, imports that one alone, says what failed."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import TYPE_CHECKING

from tracker.errors import BadInput, CloseinError, did_you_mean

if TYPE_CHECKING:
    from tracker.cli.desk import Desk

__version__ = "0.1.0"

COMMANDS: dict[str, tuple[str, str]] = {
    "start": ("start", "begin a build"),
    "demo": ("demo", "try an invented build"),
    "phases": ("phases", "list, check, adopt phases"),
    "today": ("today", "what can be done today"),
    "why": ("why", "why a task can't begin"),
    "dates": ("dates", "when each will be done"),
    "todo": ("todo", "what is still to do"),
    "check": ("check", "answer a check"),
    "done": ("done", "say what work is done"),
    "part": ("part", "stock: count, use, order"),
    "item": ("item", "runs, holes, bays, ..."),
    "fixture": ("fixture", "add a lamp, fan, pump, ..."),
    "stuck": ("stuck", "raise a blocker"),
    "unstuck": ("unstuck", "clear a blocker"),
    "condition": ("condition", "log surface, air, rain"),
    "book": ("book", "book the day of a close-in"),
    "note": ("note", "write in the build log"),
    "log": ("log", "what happened, by day"),
    "undo": ("undo", "take an act back"),
    "redo": ("redo", "bring an act back"),
    "settle": ("settle", "settle a conflict"),
    "accept": ("accept", "take on a reservation"),
    "release": ("release", "sign a hold point, by two"),
    "close": ("close", "record a close-in"),
    "plan": ("plan", "export, import, edit"),
    "size": ("size", "how big: wire, fuse, ..."),
    "runs": ("runs", "the wire schedule"),
    "verify": ("verify", "look over the record"),
    "say": ("say", "one line, sorted for you"),
    "inbox": ("inbox", "lines not sorted yet"),
    "completion": ("completion", "for bash, zsh, fish"),
}
"""Command word -> the module under ``tracker.cli`` and what it is for, in few words."""

USAGE = """\
usage: closein [--build FOLDER] [COMMAND ...]     without a command: the screen

"""
EXAMPLES = """
  closein demo --into heron           an invented build to look at
  closein --build heron todo          what is still to do before foam
'closein COMMAND --help' says more. --build FOLDER names a build; --version.
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    argv: the words after ``closein``, by default those of this process.

    Returns
    -------
    0 done; 2 wrong input or refused; 3 not saved; 130 interrupted; 141 the reader went away;
    1 only where a command says so.
    """
    if argv is None:
        gc.disable()  # a command is over before a collection would have paid for itself
        _open_what_is_closed()
    words = list(sys.argv[1:] if argv is None else argv)
    try:
        try:
            return _run(words)
        finally:
            _flush()
    except CloseinError as error:
        print(f"closein: {_shown(str(error))}", file=sys.stderr)
        return error.exit_status
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        _swallow_the_rest()
        return 141
    except SystemExit as leaving:  # argparse leaves this way after --help
        return leaving.code if isinstance(leaving.code, int) else 0


def _open_what_is_closed() -> None:
    """A closed standard stream is the null device, so that no file of ours takes its number."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_RDWR), mode))


def _flush() -> None:
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        from tracker.cli.desk import not_printed

        _swallow_the_rest()
        raise not_printed(error) from error


def _swallow_the_rest() -> None:
    """Nobody reads standard output any more, so nothing may complain when it is closed."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        return


def _run(words: list[str]) -> int:
    build, words = take_build(words)
    first = words[0] if words else ""
    if first in ("-h", "--help", "help"):
        sys.stdout.write(help_text())
        return 0
    if first == "--version":
        sys.stdout.write(f"closein {__version__}\n")
        return 0
    if first.startswith("-"):
        raise BadInput(
            f"'{_shown(first)}' is no option of closein"
            + (did_you_mean(first, ("--build", "--help", "--version")) or "; try closein --help")
        )
    from tracker.cli.desk import Desk

    desk = Desk(build)
    if not words:
        return _screen(desk)
    if first not in COMMANDS:
        near = did_you_mean(first, COMMANDS) or "; 'closein --help' lists them"
        raise BadInput(f"closein has no command '{_shown(first)}'{near}")
    return _command(first, words[1:], desk)


def _command(name: str, words: list[str], desk: Desk) -> int:
    from tracker.cli.options import Parser

    module = import_module(f"tracker.cli.{COMMANDS[name][0]}")
    parser = Parser(
        prog=f"closein {name}",
        description=module.SUMMARY,
        epilog=f"examples:\n{module.EXAMPLES.rstrip()}" if module.EXAMPLES else None,
    )
    module.arguments(parser)
    args = parser.parse_args(words)
    desk.as_json = bool(getattr(args, "json", False))
    status: int = module.run(args, desk)
    return status


def take_build(words: Sequence[str]) -> tuple[str | None, list[str]]:
    """Take ``--build FOLDER`` out of the words, wherever it stands before a bare ``--``."""
    build, rest = None, []
    waiting = list(words)
    while waiting:
        word = waiting.pop(0)
        if word == "--":
            rest += [word, *waiting]
            break
        if word == "--build":
            if not waiting:
                raise BadInput("--build needs a folder after it")
            build = waiting.pop(0)
        elif word.startswith("--build="):
            build = word.removeprefix("--build=")
        else:
            rest.append(word)
    if build == "":
        raise BadInput("--build needs a folder after it")
    return build, rest


def _screen(desk: Desk) -> int:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise BadInput("the screen needs a terminal; 'closein todo' prints what is still to do")
    session = desk.session(fallback=True)
    from tracker.tui import run

    status: int = run(session)
    return status


def help_text() -> str:
    """What ``closein --help`` prints: all commands on one screen of 24 lines."""
    cells = [f"{name:<11}{summary}" for name, (_, summary) in COMMANDS.items()]
    half = (len(cells) + 1) // 2
    cells += [""] * (2 * half - len(cells))
    rows = [f"  {cells[row]:<39}{cells[row + half]}".rstrip() for row in range(half)]
    return USAGE + "\n".join(rows) + "\n" + EXAMPLES


def _shown(word: str) -> str:
    return "".join(sign for sign in word.replace("\n", " ") if sign.isprintable())
