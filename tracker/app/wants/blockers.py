"""What stops the work: raising a blocker and clearing it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.app.wants.values import fresh_name, take_values
from tracker.build import item as items
from tracker.build.kinds import kind_of
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.errors import BadInput, Refused

STOPPABLE = ("task", "check", "holdpoint", "phase")
"""What a blocker may stop; a name that fits one of these is not looked for elsewhere."""


def stuck(
    text: str,
    *,
    kind: str | None = None,
    stops: Sequence[str] = (),
    part: str | None = None,
    owes: str | None = None,
    expected: str | None = None,
    slug: str | None = None,
) -> Intent:
    """Raise a blocker.

    Parameters
    ----------
    text: what is in the way.
    kind: what sort of thing; with a part named it is ``part``.
    stops: names of the tasks, checks or hold points it stops.
    part: the part that is missing.
    owes: who owes the next step.
    expected: the date (ISO) by which it should be out of the way.
    slug: its short name, else the next one free.
    """

    def intent(build: Build) -> Sequence[Fact]:
        title = clean(text).strip()
        if not title:
            raise BadInput("say in a few words what is in the way")
        names, table = Names(build), kind_of("blocker")
        given: dict[str, Any] = {
            "kind": kind or ("part" if part else None),
            "part": part,
            "owes": owes,
            "expected": expected,
        }
        told = {name: value for name, value in given.items() if value}
        fields = {"title": title, **take_values(table, told, names)}
        if stops:
            fields["stops"] = stopped(names, stops)
        return [items.add("blocker", fresh_name(names, table, slug), fields)]

    return intent


def stopped(names: Names, words: Sequence[str]) -> list[str]:
    """The ids of what a blocker stops; tasks, checks, hold points and phases are meant first."""
    found: dict[str, None] = {}
    for word in words:
        known = any(
            word.strip().casefold() == name.casefold()
            for kind in STOPPABLE
            for name in names.by_kind.get(kind, {})
        )
        for item in names.expand([word], STOPPABLE if known else ()):
            found[item.id] = None
    return list(found)


def unstuck(name: str, *, on: str, lost_h: str | None = None) -> Intent:
    """Clear a blocker.

    Parameters
    ----------
    on: the date (ISO) it was out of the way.
    lost_h: the hours it cost, such as ``3h``.
    """

    def intent(build: Build) -> Sequence[Fact]:
        names = Names(build)
        blocker = names.find(name, ("blocker",), "blocker")
        if blocker.get("cleared") and "cleared" not in blocker.rivals:
            raise Refused(f"{blocker.slug} was cleared on {blocker.fields['cleared']} already")
        told = {"cleared": on, **({"lost_h": lost_h} if lost_h else {})}
        return [items.change(blocker, take_values(kind_of("blocker"), told, names, blocker))]

    return intent
