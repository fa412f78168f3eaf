"""What a close-in buried, in few words."""

from __future__ import annotations

from tracker.act import Act
from tracker.app.session import Session
from tracker.app.views.words.counting import natural, ranges
from tracker.build.kinds import kinds


def buried_by(session: Session, act: Act) -> dict[str, str]:
    """The items that an act of closing covered: kind -> their names, with ranges."""
    found: dict[str, list[str]] = {}
    for fact in act.facts:
        for identifier in fact.get("covered", ()):
            item = session.build.items.get(identifier)
            if item is not None:
                title = kinds()[item.kind].title if item.kind in kinds() else item.kind
                found.setdefault(title, []).append(session.names.name(identifier))
    return {title: ranges(sorted(names, key=natural)) for title, names in sorted(found.items())}
