"""What happened, by day, in words: for the screen and ``log --json`` alike."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from tracker.act import Act, short_id
from tracker.app.session import Session
from tracker.app.views.words.acts import Words
from tracker.build.fold import undone_by
from tracker.build.item import as_list
from tracker.build.names import clean
from tracker.build.state import Build


def log_view(
    session: Session,
    *,
    phase: str | None = None,
    person: str | None = None,
    since: date | None = None,
    text: str | None = None,
) -> dict[str, Any]:
    """Every act that passes the filters, by the day it happened, oldest first.

    Parameters
    ----------
    phase: name of a phase; only acts on its tasks, checks and hold points, or on what they stop.
    person: a name or part of one; only acts typed, found or signed by them.
    since: only what happened on this day or later.
    text: only acts that say this, in any case.

    Returns
    -------
    ``build`` and ``days``: each with its ``day`` and ``acts``, each with ``id``, ``name`` (the
    short id), ``at``, ``when``, ``by``, ``undone`` and ``words``, one line for each thing.
    """
    build = session.build
    words = Words(build, session.names)
    wanted = _of_phase(session, phase) if phase else None
    days: dict[str, list[dict[str, Any]]] = {}
    for act in sorted(build.acts, key=lambda act: act.happened[:10]):
        day = act.happened[:10]
        if since is not None and day < since.isoformat():
            continue
        if wanted is not None and not wanted & _mentioned(build, act):
            continue
        if person and not _takes_part(act, person):
            continue
        row = act_row(build, words, act)
        if text and text.casefold() not in " ".join(row["words"]).casefold():
            continue
        days.setdefault(day, []).append(row)
    return {
        "build": session.marked.name,
        "days": [{"day": day, "acts": rows} for day, rows in days.items()],
    }


def act_row(build: Build, words: Words, act: Act) -> dict[str, Any]:
    """One act of the log."""
    return {
        "id": act.id,
        "name": short_id(act.id),
        "at": act.at,
        "when": act.happened,
        "by": clean(act.by),
        "undone": act.id in build.dead,
        "words": words.act(act),
    }


def act_words(session: Session, act: Act) -> str:
    """What an act says, in one text: as a command that saved it repeats it."""
    return "; ".join(Words(session.build, session.names).act(act))


def _of_phase(session: Session, name: str) -> set[str]:
    """The ids of a phase, of all that belongs to it and of the blockers that stop any of that."""
    phase = session.names.find(name, ("phase",), "phase").id
    items = session.build.items.values()
    own = {item.id for item in items if item.get("phase") == phase} | {phase}
    blockers = (item for item in items if item.kind == "blocker")
    return own | {item.id for item in blockers if own & set(as_list(item.get("stops")))}


def _mentioned(build: Build, act: Act) -> set[str]:
    """Every id that an act speaks of, those of the acts it undoes among them."""
    found: set[str] = set()
    targets = set(undone_by(act))
    acts: Iterable[Act] = (act, *(other for other in build.acts if other.id in targets))
    for one in acts:
        for index, fact in enumerate(one.facts):
            found.add(one.ref(index))
            found |= _texts(fact)
    return found


def _texts(value: Any) -> set[str]:
    if isinstance(value, str):
        return {value}
    inner = value.values() if isinstance(value, dict) else value
    if isinstance(value, dict | list | tuple):
        return set().union(*map(_texts, inner)) if value else set()
    return set()


def _takes_part(act: Act, person: str) -> bool:
    named = [act.by]
    for fact in act.facts:
        named += [str(fact[key]) for key in ("by", "second", "owes") if fact.get(key)]
    return any(person.strip().casefold() in name.casefold() for name in named)
