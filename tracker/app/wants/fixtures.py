"""A fixture with all it brings: drafted from its recipe, shown, and taken as one act."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.act import Fact
from tracker.app.planfile import compare
from tracker.app.plantext import toml
from tracker.app.session import Intent
from tracker.app.wants.drafting import Asked, Drafting, Row
from tracker.build.names import clean
from tracker.build.state import Build
from tracker.errors import BadFile, BadInput, Refused, did_you_mean


@dataclass(frozen=True, slots=True)
class Drafted:
    """What a fixture would bring.

    Parameters
    ----------
    text: the draft in the form of the plan, to be changed and imported by hand.
    lines: it in words, a line an item.
    names: (kind, name) of each item that is new.
    notes: what was left open, and why.
    caution: of the recipe, or None.
    facts: those that take it.
    """

    text: str
    lines: list[str]
    names: list[tuple[str, str]]
    notes: list[str]
    caution: str | None
    facts: list[Fact]


def add(asked: Asked, only: Sequence[str] = (), shown: str | None = None) -> Intent:
    """Take a fixture with all it brings, or some of it.

    Parameters
    ----------
    only: kinds or names of the draft; none given means all.
    shown: the draft that was looked at; where the build has moved on since, nothing is taken.
    """

    def intent(build: Build) -> Sequence[Fact]:
        found = draft(build, asked, only)
        if shown is not None and found.text != shown:
            raise Refused("the build changed while you looked at the draft; look at it again")
        return found.facts

    return intent


def draft(build: Build, asked: Asked, only: Sequence[str] = ()) -> Drafted:
    """What a fixture would bring to a build as it is.

    Raises
    ------
    BadInput: something asked for can't be taken; UnknownName: a fixture, bay or run there is not.
    """
    drafting = Drafting(build, asked)
    rows = _only(drafting.rows(), only)
    text = "\n".join(_table(row) for row in rows)
    try:
        difference = compare(build, text, "draft", why=asked.why)
    except BadFile as error:
        raise BadInput(error.problem) from None
    _keep_sizing(difference.facts, rows)
    return Drafted(
        text,
        difference.lines,
        [(row.kind, row.name) for row in rows if row.new],
        drafting.notes,
        drafting.recipe.caution,
        difference.facts,
    )


def _only(rows: Sequence[Row], only: Sequence[str]) -> list[Row]:
    """The tables that people want, by kind or name, without names of what they leave out."""
    words = [part.strip().casefold() for word in only for part in word.split(",") if part.strip()]
    known = {row.kind for row in rows} | {row.name.casefold() for row in rows}
    for word in words:
        if word not in known:
            raise BadInput(f"the draft has no '{clean(word)}'{did_you_mean(word, known)}")
    kept = [row for row in rows if not words or row.kind in words or row.name.casefold() in words]
    gone = {row.name for row in rows if row.new} - {row.name for row in kept}
    for row in kept:
        for name, value in list(row.fields.items()):
            if isinstance(value, list):
                row.fields[name] = [each for each in value if each not in gone]
    return kept


def _table(row: Row) -> str:
    lines = [f"[[{row.kind}]]", f"name = {toml(row.name)}"]
    lines += [f"{name} = {toml(value)}" for name, value in row.fields.items() if value != []]
    return "\n".join(lines) + "\n"


def _keep_sizing(facts: Sequence[Fact], rows: Sequence[Row]) -> None:
    """Write into a new run what it was sized with, for later looks at it."""
    sized = {row.name: row.sized for row in rows if row.sized}
    for fact in facts:
        if fact.get("kind") == "run" and fact.get("slug") in sized:
            fact["fields"]["sized"] = sized[fact["slug"]]
