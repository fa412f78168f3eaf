"""Errors a person can meet, under one root.

::

    CloseinError          anything below; the faces print it as one sentence, without a traceback
    ├── BadInput          what was typed or written by hand can't be taken
    │   ├── UnknownName   a name that fits nothing; knows what was meant, perhaps
    │   └── BadFile       a hand-written file is wrong at a line
    ├── Refused           understood, but the rules of the build say no
    ├── NoBuild           no build folder here
    └── NotSaved          the disk did not take it; nothing was acknowledged

The exception holds the facts; its text is the sentence that people read. Exit status: 2 for all
but ``NotSaved``, which is 3.
"""

from __future__ import annotations

from collections.abc import Iterable


class CloseinError(Exception):
    """The root: one sentence on what is wrong, where, and what to do about it."""

    exit_status = 2


class BadInput(CloseinError):
    """What was typed can't be taken as it stands."""


class UnknownName(BadInput):
    """A name fits nothing.

    Parameters
    ----------
    what: the noun for people, such as ``run`` or ``check``.
    name: what was typed.
    known: the names there are; the nearest are offered.
    """

    def __init__(self, what: str, name: str, known: Iterable[str] = ()) -> None:
        self.what, self.name, self.known = what, name, tuple(known)
        super().__init__(f"no {what} is called '{name}'{did_you_mean(name, self.known)}")


class BadFile(BadInput):
    """A file written by hand is wrong at a place.

    Parameters
    ----------
    file: path as the person knows it.
    line: from 1, or None where no line can be named.
    problem: what is wrong and what is allowed, one clause.
    """

    def __init__(self, file: str, line: int | None, problem: str) -> None:
        self.file, self.line, self.problem = file, line, problem
        place = file if line is None else f"{file}:{line}"
        super().__init__(f"{place}: {problem}")


class Refused(CloseinError):
    """The build's own rules say no; the sentence says which and what would help."""


class NoBuild(CloseinError):
    """There is no build folder where one was looked for."""


class NotSaved(CloseinError):
    """The disk did not take it: nothing was acknowledged and what was typed still stands."""

    exit_status = 3


def did_you_mean(name: str, known: Iterable[str], count: int = 3) -> str:
    """A clause that offers the nearest known names, or names them all when they are few.

    Parameters
    ----------
    name: what was typed.
    known: the names there are.
    count: at most so many are offered, 1 or more.
    """
    from difflib import get_close_matches  # only an error pays for this import

    names = sorted(set(known))
    near = get_close_matches(name, names, count, 0.6)
    if near:
        return f"; did you mean {' or '.join(near)}?"
    if names and len(names) <= 8:
        return f"; there is {', '.join(names)}"
    return ""
