"""One check: what it asks and how it stands with each of its subjects."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tracker.app.session import Session
from tracker.app.views.todo import basis_words
from tracker.app.wants.checks import find_check, find_subjects
from tracker.build.answer import standing
from tracker.build.coverage import WHOLE
from tracker.build.item import VEHICLE, Item
from tracker.build.limit import limit_of
from tracker.errors import BadInput
from tracker.plan.todo import todo


def check_view(
    session: Session,
    check: str,
    at: Sequence[str] = (),
    *,
    bay: str | None = None,
    zone: str | None = None,
) -> dict[str, Any]:
    """The check a name means, and its subjects by state.

    ``stands`` maps open, bad, stale, conflict, good, waived and na to names, those there are.
    """
    cover, names = session.cover, session.names
    found = find_check(names, check)
    try:
        subjects = find_subjects(cover, names, found, at, bay=bay, zone=zone)
    except BadInput:
        if at or bay or zone:
            raise
        subjects = cover.subjects(found)
    known = _states(session, found)
    stands: dict[str, list[str]] = {}
    for subject in subjects:
        state = known.get(subject.id) or standing(session.build, found, subject).state
        stands.setdefault(state, []).append(names.name(subject.id))
    limits = [limit_of(found, subject, session.build.items.get(VEHICLE)) for subject in subjects]
    alike = {str(limit) for limit in limits if limit is not None}
    sources = [source for limit in limits if limit is not None for source in limit.sources]
    return {
        "check": names.name(found.id),
        "text": found.title,
        "before": names.name(found.get("before")) if found.get("before") else None,
        "class": found.get("class"),
        "each": found.get("each", "once"),
        "how": found.get("how", "look"),
        "limit": alike.pop() if len(alike) == 1 else "one for each subject" if alike else None,
        "sources": list(dict.fromkeys(sources)),
        "missed": found.get("missed"),
        "basis": basis_words(found),
        "caution": found.get("caution"),
        "waive": found.get("waive") is not False,
        "stands": stands,
    }


def _states(session: Session, check: Item) -> dict[str, str]:
    """How the check stands by subject (an id) as its hold point sees it, with weather and time."""
    hold = session.build.items.get(check.get("before", ""))
    if hold is None:
        return {}
    plan = todo(session.cover, hold, WHOLE, session.now())
    return {row.subject.id: row.state for row in plan.points if row.check.id == check.id}
