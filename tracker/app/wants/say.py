"""The one entry line: what people write, taken for what it most likely is, and never lost.

``12 label ok``, ``12 len 9in``, ``bay 7 ok but 12 14``, ``out glands``, ``3 people 8-16 dry 6C``;
anything else is a note. What looks like one of these and can't be placed waits in the inbox.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tracker.act import Act, Fact
from tracker.app.session import Intent, Session
from tracker.app.wants import forms, marks
from tracker.app.wants.diary import find_line
from tracker.app.wants.forms import Look, Taken
from tracker.build import log
from tracker.build.names import clean
from tracker.build.state import Build
from tracker.errors import BadInput, CloseinError

FORMS = (forms.day, forms.out, marks.bay_at_once, marks.by_subject, forms.note)
"""Tried in this order; the last takes everything."""

KEPT = "kept in the inbox"


class Line(NamedTuple):
    """One line: its text, what to do, that in words, and why it was not placed, or ''."""

    text: str
    intent: Intent
    words: str
    problem: str


def understand(session: Session, line: str, by: str) -> tuple[Intent, str]:
    """What a line, or several pasted at once, is taken for.

    Parameters
    ----------
    line: as typed; each of several lines is taken on its own, all in one act.
    by: who says it.

    Returns
    -------
    An intent that raises nothing of its own, and in words what the lines are taken as.

    Raises
    ------
    BadInput: there is nothing but white space.
    """
    texts = [text for text in line.splitlines() if text.strip()]
    if not texts:
        raise BadInput("say something: '12 label ok', 'out glands', or any words for a note")
    lines = [read(session, text, by) for text in texts]
    return lambda build: _together(lines, build), "\n".join(each.words for each in lines)


def read(session: Session, text: str, by: str) -> Line:
    """One line against the session's state."""
    shown = clean(text.replace("\t", " ")).strip()
    if not shown:  # nothing in it can be shown, and still it is kept
        shown = text.encode("unicode_escape").decode("ascii")
        return Line(shown, lambda _: [], f"{KEPT}: it can't be shown", "it can't be shown")
    look = Look(session.build, session.cover, session.names, by)
    try:
        taken = _first_that_fits(look, shown)
        list(taken.intent(session.build))
    except CloseinError as error:
        return Line(shown, lambda _: [], f"{KEPT}: {error}", str(error))
    return Line(shown, taken.intent, taken.words, "")


def _first_that_fits(look: Look, text: str) -> Taken:
    for form in FORMS[:-1]:
        taken = form(look, text)
        if taken is not None:
            return taken
    return forms.note(look, text)


def _together(lines: Sequence[Line], build: Build) -> list[Fact]:
    """The facts of all lines; one that repeats what another of them answered is kept."""
    facts: list[Fact] = []
    seen: set[tuple[str, str, str]] = set()
    for line in lines:
        try:
            news = list(line.intent(build))
        except CloseinError:  # the build has changed since the line was read
            news = []
        about = {_about(fact) for fact in news} - {("", "", "")}
        if not news or about & seen:
            news, about = [log.to_inbox(line.text)], set()
        seen |= about
        facts += news
    return facts


def _about(fact: Fact) -> tuple[str, str, str]:
    """What a fact answers or counts, so that no act does it twice."""
    if fact["f"] == "point.answered":
        return "point", fact["check"], fact["subject"]
    if fact["f"] == "stock.counted":
        return "lot", fact["part"], fact["place"]
    return "", "", ""


def kept(act: Act) -> list[str]:
    """The lines of an act that went into the inbox."""
    return [str(fact["text"]) for fact in act.facts if fact["f"] == "inbox.put"]


def sort_into(session: Session, ref: str, text: str, by: str) -> tuple[Intent, str]:
    """Put a line of the inbox where it belongs: say it again so that it can be placed.

    Raises
    ------
    BadInput: it can't be placed like this either, and why.
    """
    find_line(session.build, ref)
    line = read(session, text, by)
    if line.problem:
        raise BadInput(f"that can't be placed either: {line.problem}")

    def intent(build: Build) -> Sequence[Fact]:
        waiting = find_line(build, ref)
        return [*line.intent(build), log.sort_inbox(build, waiting, f"as {line.text}")]

    return intent, line.words
