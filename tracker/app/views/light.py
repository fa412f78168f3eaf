"""Light mode: the checks alone that stop a release are shown; the others are counted and kept."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tracker.app.session import Session
from tracker.build.answer import Standing

BINDING = "hold"
"""The class of check that stops a release."""

ALWAYS = ("bad", "conflict", "stale", "waived")
"""What somebody found, or signed for, is shown whatever the class of its check."""


def is_light(session: Session, wanted: bool | None = None) -> bool:
    """Is light mode on: as asked for now, else as the build keeps it in ``vehicle light``?"""
    if wanted is not None:
        return wanted
    vehicle = session.cover.vehicle
    return vehicle is not None and vehicle.get("light") is True


def shown(points: Sequence[Standing], light: bool) -> list[Standing]:
    """The points that are shown."""
    if not light:
        return list(points)
    return [p for p in points if p.check.get("class") == BINDING or p.state in ALWAYS]


def light_view(points: Sequence[Standing], light: bool) -> dict[str, Any]:
    """Is light mode ``on``, and by class how many points are ``not_shown`` and how many of those
    are ``open``.
    """
    kept = {(p.check.id, p.subject.id) for p in shown(points, light)}
    away = [p for p in points if (p.check.id, p.subject.id) not in kept]
    counts: dict[str, int] = {}
    for point in away:
        name = str(point.check.get("class") or "no class")
        counts[name] = counts.get(name, 0) + 1
    return {"on": light, "not_shown": counts, "open": sum(not p.settled for p in away)}
