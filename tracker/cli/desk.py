"""What a command works at: the build it is about, and the two streams it may write to."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tracker.act import Act, short_id
from tracker.errors import BadInput, CloseinError

if TYPE_CHECKING:
    from argparse import Namespace

    from tracker.app.session import Intent, Session

LEAST_WIDTH, USUAL_WIDTH = 40, 80


class Desk:
    """One command's desk.

    Parameters
    ----------
    build: the folder named by ``--build``, or None.
    as_json: does the command print for programs?
    """

    def __init__(self, build: str | None = None, *, as_json: bool = False) -> None:
        self.build, self.as_json = build, as_json
        self.out: Any = sys.stdout
        self.err: Any = sys.stderr
        streams: list[Any] = [self.out, self.err]
        for stream in streams:
            with suppress(AttributeError, ValueError, OSError):
                stream.reconfigure(errors="replace")  # a narrow terminal coding breaks nothing

    def folder(self, *, fallback: bool = False) -> Path:
        """The build folder: the one named, else here or above.

        Parameters
        ----------
        fallback: may it be the build opened last? Only for commands that read.
        """
        from tracker.app.folder import need
        from tracker.app.places import data_folder, last_opened

        explicit = Path(self.build) if self.build is not None else None
        last = last_opened(data_folder()) if fallback and explicit is None else None
        return need(explicit, Path.cwd(), last)

    def session(self, *, fallback: bool = False, quiet: bool = False) -> Session:
        """Open the build; what is amiss with its record is said once, on standard error.

        Parameters
        ----------
        fallback: may it be the build opened last? Only for commands that read.
        quiet: the command shows the reservations itself.
        """
        from tracker.app.session import Session

        session = Session(self.folder(fallback=fallback))
        for text in session.notices:
            self.warn(text)
        for row in () if quiet else session.reservations:
            self.warn(f"{row.text} (closein accept {row.key} --why TEXT)")
        return session

    def do(self, session: Session, intent: Intent, args: Namespace) -> Act:
        """Do what is wanted, signed and dated as ``--by`` and ``--when`` say."""
        when = None
        if getattr(args, "when", None):
            from tracker.cli.moment import parse_when

            when = parse_when(args.when, session.now())
        by = getattr(args, "by", None)
        if by is not None and not clean(by).strip():
            raise BadInput("--by needs a name")
        act = session.do(intent, when=when, by=clean(by).strip() if by else None)
        if not session.memory.kept:
            self.warn(
                f"nothing can be remembered in {session.data}, so each command begins a file of "
                "its own and undo needs the name of its act; make room there or let it be written"
            )
        return act

    def saved(self, act: Act, words: str, **more: Any) -> None:
        """Say what was saved, now that it is.

        Parameters
        ----------
        act: the act, acknowledged.
        words: what it says, in one line or more.
        more: further keys for ``--json``.
        """
        if self.as_json:
            self.json({"id": act.id, "saved": words, **more})
        else:
            self.say(f"saved {short_id(act.id)}: {words}")

    def say(self, text: str = "", *, head: bool = False) -> None:
        """One line or more for people; nothing in it can steer a terminal.

        Parameters
        ----------
        head: is it a heading? Bold where the terminal can and the person wants it.
        """
        plain = text if text.isprintable() else "\n".join(map(clean, text.split("\n")))
        self.write((f"\033[1m{plain}\033[0m" if head and self.coloured else plain) + "\n")

    def write(self, text: str) -> None:
        """A text as it stands, for files and programs."""
        try:
            self.out.write(text)
        except BrokenPipeError:
            raise
        except OSError as error:
            raise not_printed(error) from error

    def warn(self, text: str) -> None:
        """A line on standard error that stops nothing."""
        self.err.write(f"closein: {clean(text)}\n")

    def json(self, value: Any) -> None:
        """A value for programs."""
        import json

        text = json.dumps(value, ensure_ascii=False, indent=2)
        if not text.replace("\n", "").isprintable():
            text = json.dumps(value, indent=2)
        self.write(text + "\n")

    def table(self, rows: Sequence[Sequence[Any]], heads: Sequence[str] = ()) -> None:
        """Rows as aligned columns that fit the width; the last column is wrapped."""
        texts = [[clean(_cell(value)) for value in row] for row in rows]
        shown = [list(heads), *texts] if heads else texts
        if not texts:
            return
        columns = max(map(len, shown))
        shown = [row + [""] * (columns - len(row)) for row in shown]
        widths = [max(len(row[column]) for row in shown) for column in range(columns - 1)]
        before = sum(widths) + 2 * len(widths)
        room = max(12, self.width - before)
        for number, row in enumerate(shown):
            start = "".join(f"{cell:<{size}}  " for cell, size in zip(row, widths, strict=False))
            first, *more = wrap(row[-1], room) or [""]
            line = (start + first).rstrip()
            self.say(line, head=bool(heads) and number == 0)
            for rest in more:
                self.say(" " * before + rest)

    def wrapped(
        self, text: str, indent: str = "", first: str | None = None, *, head: bool = False
    ) -> None:
        """A text in lines that fit the width.

        Parameters
        ----------
        indent: what stands before each line.
        first: what stands before the first line, where that is something else.
        head: is it a heading?
        """
        start = indent if first is None else first
        lines = wrap(text, max(12, self.width - max(len(indent), len(start)))) or [""]
        for number, line in enumerate(lines):
            self.say(f"{indent if number else start}{line}".rstrip(), head=head)

    @property
    def width(self) -> int:
        """Columns there are: COLUMNS, else the terminal's, else 80."""
        stated = os.environ.get("COLUMNS", "")
        if stated.isdigit() and int(stated):
            return max(LEAST_WIDTH, int(stated))
        try:
            return max(LEAST_WIDTH, os.get_terminal_size(self.out.fileno()).columns)
        except (OSError, ValueError):
            return USUAL_WIDTH

    @property
    def coloured(self) -> bool:
        """May a heading be bold?"""
        plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
        return bool(self.out.isatty() and not plain)


def clean(text: str) -> str:
    """Text as it may be shown: without signs that steer a terminal, a line's end as a space."""
    if text.isprintable():
        return text
    return "".join(sign for sign in text.replace("\n", " ") if sign.isprintable() or sign == "\t")


def not_printed(error: OSError) -> CloseinError:
    """The sentence for a standard output that takes no more."""
    return CloseinError(
        f"what there was to say can't be written out ({error.strerror}); "
        "what was recorded stays recorded"
    )


def wrap(text: str, width: int) -> list[str]:
    """A text in lines of at most ``width`` columns; a longer word stands alone."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        if line and len(line) + 1 + len(word) > width:
            lines.append(line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    return [*lines, line] if line else lines


def _cell(value: Any) -> str:
    return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)
