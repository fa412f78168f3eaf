"""What is in conflict: fields and answers that two people gave without knowing of each other."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.views.words.checks import RESULTS, measured
from tracker.app.views.words.speaker import Speaker
from tracker.build.kinds import kinds
from tracker.build.point import Answer


def conflicts_view(session: Session) -> list[dict[str, Any]]:
    """A row for each conflict.

    ``item`` and ``field``, or ``check`` and ``subject``; ``values``: each a ``value`` in words
    and who gave it, ``by``, and ``when``.
    """
    build, names = session.build, session.names
    speaker = Speaker(build, names)
    acts = {act.id: act for act in build.acts}
    rows: list[dict[str, Any]] = []
    for item in build.items.values():
        if item.removed is not None:
            continue
        kind = kinds().get(item.kind)
        for name, rivals in item.rivals.items():
            field = kind.fields.get(name) if kind is not None else None
            values = []
            for ref, value in rivals.items():
                act = acts.get(ref.rpartition("/")[0])
                words = speaker.shown(field, value) if field else str(value)
                by, when = (act.by, act.happened) if act else (None, None)
                values.append({"value": words, "by": by, "when": when})
            rows.append({"item": names.name(item.id), "field": name, "values": values})
    for (check, subject), heads in build.answers.items():
        if len(heads) > 1:
            rows.append(
                {
                    "item": None,
                    "field": None,
                    "check": speaker.name(check),
                    "subject": speaker.name(subject),
                    "values": [_answer(head) for head in heads],
                }
            )
    return rows


def _answer(head: Answer) -> dict[str, Any]:
    said = measured(head.fact) if head.result == "measured" else head.result
    return {"value": f"{RESULTS.get(said, said)} by {head.by}", "by": head.by, "when": head.when}
