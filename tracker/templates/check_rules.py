"""The rules of the checks of a template: subjects, limits, bases, words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.build.kinds import Field
from tracker.templates import shape
from tracker.templates.reader import Row
from tracker.templates.values import nearest, shown


def known(row: Row, key: str, allowed: tuple[str, ...]) -> None:
    """Raise unless every text in the list at ``key`` is an allowed one."""
    for place, value in enumerate(row.get(key, ())):
        if value not in allowed:
            problem = f"{key} in [[{row.table}]] has {shown(value)}{nearest(value, allowed)}"
            raise row.wrong((key, place), problem)


def check_checks(rows: tuple[Row, ...]) -> None:
    """Raise :class:`BadFile` at the first rule that a check breaks."""
    for row in rows:
        _check(row)
    _said_once(rows)


def _check(row: Row) -> None:
    each = row["each"]
    if each not in shape.subjects():
        raise row.wrong("each", f"each is {shown(each)}{nearest(each, shape.subjects())}")
    fields = shape.fields_of(each)
    known(row, "watches", tuple(fields))
    if row.get("say") in shape.ENTRY_WORDS:
        raise row.wrong("say", f"say is {shown(row['say'])}, a word kept by the entry line")
    if "where" in row:
        asked_of(row, "where", fields, each)
    if "vehicle" in row:
        asked_of(row, "vehicle", shape.fields_of("once"), "the vehicle")
    if "limit" in row:
        _limit(row, fields)
    if row["basis"] == "standard" and "standard" not in row:
        raise row.wrong("basis", "basis is 'standard', but no key 'standard' names it")
    if row["basis"] != "standard" and "standard" in row:
        raise row.wrong("standard", "a standard is named, but basis is not 'standard'")


def asked_of(row: Row, key: str, fields: Mapping[str, Field], whose: str) -> None:
    """Raise unless ``key`` is a table of values that such fields may have.

    Parameters
    ----------
    key: ``where`` for the subjects of a check, ``vehicle`` for the vehicle itself.
    fields: the fields that may be asked for, and ``whose`` they are.
    """
    asked = row[key]
    if not isinstance(asked, dict) or not asked:
        raise row.wrong(key, f"{key} is {shown(asked)}; it must be a table")
    for name, wanted in asked.items():
        if name not in fields:
            problem = f"{key} asks for {shown(name)}, which is no field of {whose}"
            raise row.wrong((key, name), problem + nearest(name, fields))
        for value in wanted if isinstance(wanted, list) else [wanted]:
            if (value != "unknown" or key == "vehicle") and not _fits(value, fields[name]):
                unknown = () if key == "vehicle" else ("unknown",)
                allowed = (*(fields[name].of or ("true", "false")), *unknown)
                problem = f"{key} asks for {name} = {shown(value)}; allowed: {', '.join(allowed)}"
                raise row.wrong((key, name), problem)


def _fits(value: Any, field: Field) -> bool:
    if field.type == "yesno":
        return isinstance(value, bool)
    return field.type == "choice" and value in field.of


def _limit(row: Row, fields: Mapping[str, Field]) -> None:
    limit = row["limit"]
    if row["how"] not in shape.ANSWERED_BY_NUMBER:
        raise row.wrong("limit", f"a limit needs a number, but how is {shown(row['how'])}")
    if not set(shape.BOUNDS) & set(limit):
        raise row.wrong("limit", f"limit has none of {', '.join(shape.BOUNDS)}")
    if "min" in limit and "max" in limit and limit["min"] > limit["max"]:
        raise row.wrong(("limit", "min"), "min in limit is above its max")
    if "sign_min" in limit and ("min" not in limit or limit["sign_min"] >= limit["min"]):
        raise row.wrong(("limit", "sign_min"), "sign_min in limit must be below its min")
    if "function" in limit and ("min" in limit or row["each"] != "run"):
        raise row.wrong(("limit", "function"), "lead_from_rib gives the min, and only of a run")
    profile = {name: field for name, field in shape.fields_of("once").items() if field.sources}
    for bound in ("max", "min"):
        for key, of in ((f"{bound}_field", fields), (f"{bound}_profile", profile)):
            if key in limit:
                _named_bound(row, key, of, bound)


def _named_bound(row: Row, key: str, fields: Mapping[str, Field], bound: str) -> None:
    """Raise unless the limit names, for one of its ends, a number in its unit and nothing else."""
    limit = row["limit"]
    name, unit = limit[key], limit["unit"]
    fit = [each.name for each in fields.values() if each.type == "number" and each.unit == unit]
    others = {bound, f"{bound}_field", f"{bound}_profile"} & set(limit) - {key}
    if others:
        problem = f"{key} in limit is {shown(name)}, but there is a {others.pop()} too; drop one"
        raise row.wrong(("limit", key), problem)
    if name not in fit:
        where = " of the vehicle's profile" if key.endswith("_profile") else ""
        problem = f"{key} in limit is {shown(name)}; it must be a number in {unit}{where}"
        raise row.wrong(("limit", key), problem + nearest(name, fit))


def _said_once(rows: tuple[Row, ...]) -> None:
    words: dict[tuple[str, str, str], Row] = {}
    texts: dict[str, Row] = {}
    for row in rows:
        word = (row["before"], row["each"], row.get("say", row["key"]))
        for key, before in (
            ("say", words.setdefault(word, row)),
            ("text", texts.setdefault(row["text"], row)),
        ):
            if before is not row:
                problem = f"{key} says the same as the [[check]] at line {before.line}"
                raise row.wrong(key if key in row else "key", problem)
