"""What a close-in buried, in few words."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Act
from tracker.app.session import Session
from tracker.app.views.words.counting import natural, ranges
from tracker.build.kinds import kinds


def buried_by(session: Session, act: Act) -> dict[str, str]:
    """The items that an act of closing covered: kind -> their names, with ranges."""
    return named_by_kind(session, [each for fact in act.facts for each in fact.get("covered", ())])


def named_by_kind(session: Session, identifiers: Sequence[str]) -> dict[str, str]:
    """Items (ids; unknown ones are left out): kind -> their names, with ranges."""
    found: dict[str, list[str]] = {}
    for identifier in identifiers:
        item = session.build.items.get(identifier)
        if item is not None:
            title = kinds()[item.kind].title if item.kind in kinds() else item.kind
            found.setdefault(title, []).append(session.names.name(identifier))
    return {title: ranges(sorted(names, key=natural)) for title, names in sorted(found.items())}
