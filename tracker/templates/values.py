"""One value of a hand-written file against what its key takes."""

from __future__ import annotations

import datetime
import math
import re
import tomllib
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from tracker.errors import CloseinError
from tracker.templates.lines import Where

if TYPE_CHECKING:
    from tracker.templates.reader import Field

_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*\Z")
_PLACE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
_WORDS = {
    "text": "a text in quotes",
    "slug": "a short name of small letters, digits and hyphens",
    "number": "a number",
    "whole": "a whole number",
    "yesno": "true or false",
    "date": "a date such as 2030-05-31",
    "table": "a table in braces",
    "tables": "a list of tables in braces",
}
_LISTS = {"texts": "text", "slugs": "slug", "numbers": "number"}


class Wrong(Exception):
    """What can't be taken: where it stands (or, failing that, its line), and one clause on why."""

    def __init__(self, where: Where | None, problem: str, line: int | None = None) -> None:
        self.where, self.problem, self.line = where, problem, line
        super().__init__(problem)


def shown(value: Any) -> str:
    """A value as people wrote it, cut short, nothing in it able to steer a terminal."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        text = "".join(letter if letter.isprintable() else "?" for letter in value)
        return f"'{text if len(text) <= 60 else text[:57] + '...'}'"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return (
            "a list"
            if any(isinstance(each, dict | list) for each in value)
            else (
                "["
                + ", ".join(shown(each) for each in value[:6])
                + (", ..." * (len(value) > 6))
                + "]"
            )
        )
    try:
        text = str(value)
    except ValueError:  # a whole number of thousands of digits
        return "a very long number"
    return text if len(text) <= 60 else text[:57] + "..."


def nearest(name: str, known: Iterable[str]) -> str:
    """A clause that offers what was probably meant and names all that is allowed."""
    from difflib import get_close_matches  # only an error pays for this import

    names = sorted(known)
    near = get_close_matches(str(name), names, 2, 0.6)
    meant = f" (did you mean {' or '.join(near)}?)" if near else ""
    if len(names) > 30:
        names = [] if near else [*names[:30], "..."]
    return f"{meant}; allowed: {', '.join(names)}" if names else meant


def parsed(text: str) -> dict[str, Any]:
    """The values of a TOML text; :class:`Wrong` with its line where it is not TOML."""
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise Wrong(None, "not readable as TOML: brackets are nested too deep") from None
    except ValueError as error:
        reason = "".join(letter if letter.isprintable() else " " for letter in str(error))
    line = None
    place = _PLACE.search(reason)
    if place:
        reason = reason[: place.start()]
        last = max(1, text.count("\n") + (not text.endswith("\n")))
        line = int(place[1]) if place[1] else last
    if "integer string conversion" in reason:
        reason = "a whole number has too many digits"
    raise Wrong(None, f"not readable as TOML: {reason[:1].lower()}{reason[1:]}", line)


def taken(
    given: Mapping[str, Any], fields: Mapping[str, Field], where: Where, head: str
) -> dict[str, Any]:
    """The values of one table, each taken as its field says.

    Parameters
    ----------
    given: the table as the standard reader gave it.
    fields: the keys it may have.
    where: its path in the file.
    head: its name for people, such as ``[[task]]``.

    Raises
    ------
    Wrong: an unknown key, a missing one, or a value that can't be taken.
    """
    for key in given:
        if key not in fields:
            raise Wrong((*where, key), f"unknown key {shown(key)} in {head}{nearest(key, fields)}")
    for key, field in fields.items():
        if field.required and key not in given:
            raise Wrong(where, f"{head} lacks the key '{key}'")
    return {
        key: _value(value, fields[key], (*where, key), f"{key} in {head}")
        for key, value in given.items()
    }


def _value(value: Any, field: Field, where: Where, head: str) -> Any:
    if field.type in _LISTS:
        many = value if isinstance(value, list) else [value]
        value = [
            _single(each, field, _LISTS[field.type], (*where, place), head)
            for place, each in enumerate(many)
        ]
    elif field.type == "tables":
        if not isinstance(value, list):
            raise Wrong(where, _not(head, value, "tables"))
        value = [
            _single(each, field, "table", (*where, place), head) for place, each in enumerate(value)
        ]
    elif field.type != "any":
        value = _single(value, field, field.type, where, head)
    if field.take is None:
        return value
    try:
        return field.take(value)
    except (ValueError, CloseinError) as error:
        raise Wrong(where, f"{head} is {shown(value)}: {error}") from None


def _single(value: Any, field: Field, kind: str, where: Where, head: str) -> Any:
    match kind:
        case "text" | "slug":
            return _text(value, field, kind, where, head)
        case "number" | "whole":
            return _number(value, field, kind, where, head)
        case "yesno" if isinstance(value, bool):
            return value
        case "date":
            return _date(value, where, head)
        case "table" if isinstance(value, dict):
            return taken(value, field.fields or {}, where, head)
    raise Wrong(where, _not(head, value, kind))


def _text(value: Any, field: Field, kind: str, where: Where, head: str) -> str:
    if not isinstance(value, str):
        raise Wrong(where, _not(head, value, kind))
    if field.one_of and value not in field.one_of:
        raise Wrong(where, f"{head} is {shown(value)}{nearest(value, field.one_of)}")
    if not value.strip():
        raise Wrong(where, f"{head} is empty")
    if any(not letter.isprintable() and letter not in "\n\t" for letter in value):
        raise Wrong(where, f"{head} is {shown(value)}: it holds a letter that can't be printed")
    if kind == "slug" and not _SLUG.match(value):
        raise Wrong(where, _not(head, value, kind))
    return value


def _number(value: Any, field: Field, kind: str, where: Where, head: str) -> float | int:
    allowed = int if kind == "whole" else (int, float)
    if isinstance(value, bool) or not isinstance(value, allowed):
        raise Wrong(where, _not(head, value, kind))
    try:
        exact = float(value)
    except OverflowError:
        exact = math.inf
    number = value if kind == "whole" else exact
    if not math.isfinite(exact):
        raise Wrong(where, _not(head, value, kind))
    if field.min is not None and number < field.min:
        raise Wrong(where, f"{head} is {shown(value)}; it must be {field.min:g} or more")
    if field.max is not None and number > field.max:
        raise Wrong(where, f"{head} is {shown(value)}; it must be {field.max:g} or less")
    return number


def _date(value: Any, where: Where, head: str) -> str:
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    if isinstance(value, str):
        try:
            return datetime.date.fromisoformat(value).isoformat()
        except ValueError:
            pass
    raise Wrong(where, _not(head, value, "date"))


def _not(head: str, value: Any, kind: str) -> str:
    return f"{head} is {shown(value)}; it must be {_WORDS[kind]}"
