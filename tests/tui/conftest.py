"""Small invented builds to look at, and a screen on them with a fixed clock."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest
from textual import _wait

from tracker.app.folder import Marked, create
from tracker.app.session import Intent, Session
from tracker.app.wants import items, phases
from tracker.build import item as items_built

# The pilot waits three times this after each key; a twentieth of a second is for the eye.
_wait.SLEEP_GRANULARITY = 1 / 200
_wait.SLEEP_IDLE = _wait.SLEEP_GRANULARITY / 20

NOW = datetime(2027, 3, 2, 14, 2, tzinfo=timezone(timedelta(hours=1)))

CHECKS: list[tuple[str, dict[str, Any]]] = [
    ("label", {"text": "Marked at both ends.", "each": "run", "how": "look", "class": "hold"}),
    (
        "lead",
        {
            "text": "Long enough at the bare rib.",
            "each": "run",
            "how": "measure",
            "class": "hold",
            "limit": {"min": 0.35, "unit": "m"},
        },
    ),
    (
        "readback",
        {"text": "Read by another.", "each": "run", "how": "second person", "class": "hold"},
    ),
    ("swept", {"text": "Clean and dry.", "each": "bay", "how": "look", "class": "surveillance"}),
    (
        "exits",
        {"text": "Exits open.", "each": "once", "how": "look", "class": "hold", "waive": False},
    ),
]
"""Checks of our own before one hold point, each with a say word and what a miss costs."""

ITEMS: list[tuple[str, str, dict[str, str]]] = [
    ("bay", "B1", {"face": "left", "station": "0 m", "to": "1.2 m"}),
    ("bay", "B2", {"face": "left", "station": "1.2 m", "to": "2.4 m"}),
    ("run", "L1", {"bay": "B1", "to": "bunk lamp"}),
    ("run", "L2", {"bay": "B1", "to": "fan"}),
    ("run", "L3", {"bay": "B2", "to": "pump"}),
    ("part", "glands", {"needed": "12", "unit": "each"}),
    ("part", "tape", {"unit": "each"}),
]


def adopted() -> Intent:
    """One phase with one hold point and the checks above, as a template would bring them."""
    rows = [
        {
            "id": f"check:own/{slug}",
            "kind": "check",
            "slug": slug,
            "fields": {
                **fields,
                "say": slug,
                "before": "hold:own/cover-up",
                "missed": f"{slug} has to be dug out",
                "basis": "common practice",
                "phase": "phase:own",
            },
        }
        for slug, fields in CHECKS
    ]
    hold = {
        "id": "hold:own/cover-up",
        "kind": "holdpoint",
        "slug": "cover-up",
        "fields": {"title": "Cover up", "gates": "phase:own", "phase": "phase:own"},
    }
    fact = {
        "f": "phase.adopted",
        "phase": {"id": "phase:own", "slug": "walls", "fields": {"title": "Walls", "order": 1}},
        "hash": "",
        "items": [hold, *rows],
    }
    return lambda build: [fact]


class Clock:
    """A clock that steps a second each time it is read."""

    def __init__(self, start: datetime = NOW) -> None:
        self.time = start

    def __call__(self) -> datetime:
        self.time += timedelta(seconds=1)
        return self.time


@pytest.fixture
def empty(tmp_path: Path) -> Session:
    """A build that was only begun."""
    return begin(tmp_path / "heron", tmp_path / "data")


@pytest.fixture
def session(empty: Session) -> Session:
    """A small build: one hold point, two bays, three runs, two parts."""
    return filled(empty)


@pytest.fixture
def shipped(empty: Session) -> Session:
    """A build with the four phases that come with the program."""
    empty.do(phases.adopt(["framing", "deck", "rough-in-wiring", "insulation"]))
    return empty


def begin(
    folder: Path, data: Path, user: str = "Runa", clock: Callable[[], datetime] | None = None
) -> Session:
    """Begin a build and open it."""
    create(folder, Marked("b" * 16, "heron", "+01:00"))
    session = Session(folder, clock=clock or Clock(), user=user, data=data)
    session.do(lambda build: [items_built.add("vehicle", "vehicle", {}, "vehicle")])
    return session


def filled(session: Session) -> Session:
    """The same build with one hold point, two bays, three runs, two parts."""
    session.do(adopted())
    for kind, slug, values in ITEMS:
        session.do(items.add(kind, slug, values))
    return session


def another(session: Session, user: str = "Ola") -> Session:
    """The same build opened by somebody else, with a memory of their own."""
    data = session.data.with_name("other")
    return Session(session.folder, clock=Clock(NOW + timedelta(minutes=5)), user=user, data=data)
