"""The page that ``closein phases diff`` prints: what the templates say by now, item by item."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from typing import Any

from tracker.cli.desk import Desk

NOUNS = {"phase": "phase", "holdpoint": "hold point", "task": "task", "check": "check"}


def print_difference(args: argparse.Namespace, desk: Desk) -> int:
    """Print what the templates of some phases, or of all that the build has, would change."""
    from tracker.app.views.templates import difference_view
    from tracker.app.wants import phases
    from tracker.errors import BadFile, Refused

    session = desk.session(fallback=True)
    among = phases.library(session.folder)
    wanted = []
    for name in args.names or among.names():
        here = f"phase:{name}" in session.build.items
        if not args.names and not here:
            continue
        try:
            phase = phases.template(name, among)
        except BadFile as error:
            if args.names:
                raise
            desk.warn(str(error))
            continue
        if f"phase:{phase.name}" not in session.build.items:
            raise Refused(f"{phase.name} is not in this build, so there is nothing to compare")
        wanted.append(phase)
    rows = difference_view(session.build, wanted, among)
    if desk.as_json:
        desk.json(rows)
        return 0
    alike = 0
    for row in rows:
        if any(row[key] for key in ("add", "change", "keep", "drop")):
            _print_one(desk, row)
        else:
            alike += 1
    if alike:
        desk.say(f"as their templates have them: {alike}")
    if any(row["add"] or row["change"] for row in rows):
        names = " ".join(row["phase"] for row in rows if row["add"] or row["change"])
        desk.wrapped(
            f"'closein phases adopt {names} --newer' takes what is new and changed", "  ", ""
        )
    if not rows:
        desk.say("this build has taken up no phase yet; 'closein phases adopt NAME' does")
    return 0


def _print_one(desk: Desk, row: Mapping[str, Any]) -> None:
    editions = f"edition {row['edition_here']} here, {row['edition_there']} in the template"
    desk.say(f"{row['phase']}: {editions} ({row['from']})", head=True)
    for each in row["add"]:
        desk.wrapped(each["text"], "      ", f"  + {NOUNS[each['kind']]} {each['name']}: ")
    for each in row["change"]:
        desk.wrapped(_step(each), "      ", f"  ~ {NOUNS[each['kind']]} {each['name']}: ")
    for each in row["keep"]:
        words = f"{each['field']} stays {_plain(each['here'])}, set by hand; "
        words += f"the template has {_plain(each['template'])}"
        desk.wrapped(words, "      ", f"  = {NOUNS[each['kind']]} {each['name']}: ")
    for each in row["drop"]:
        words = "no more in the template; it stays here"
        desk.wrapped(words, "      ", f"  - {NOUNS[each['kind']]} {each['name']}: ")


def _step(each: Mapping[str, Any]) -> str:
    words = f"{each['field']} {_plain(each['here'])} -> {_plain(each['template'])}"
    if each["answers"]:
        words += f"; it has {each['answers']} answers already: look whether they still hold"
    return words


def _plain(value: Any) -> str:
    """A template's value in words; what is not there is said so."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return "(" + ", ".join(f"{key} {_plain(inner)}" for key, inner in value.items()) + ")"
    if isinstance(value, list | tuple):
        return ", ".join(map(_plain, value)) or "nothing"
    return f"{value:g}" if isinstance(value, float) else str(value)
