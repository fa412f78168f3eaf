"""The inbox: lines that could not be placed and wait to be sorted."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.wants.diary import short_ref


def inbox_view(session: Session, *, everything: bool = False) -> list[dict[str, Any]]:
    """The lines that wait, oldest first; with ``everything`` also what became of the others."""
    return [
        {
            "ref": short_ref(line.ref),
            "when": line.when,
            "by": line.by,
            "text": line.text,
            "sorted": line.sorted,
        }
        for line in session.build.inbox.values()
        if everything or line.sorted is None
    ]
