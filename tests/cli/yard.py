"""A small build to run commands on: two zones, three bays, four runs, two holes, one phase."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tracker.act import Act, Fact
from tracker.app.folder import Marked, create
from tracker.app.session import Session
from tracker.build import item
from tracker.cli.main import main

HOLD, PHASE, SPRAY = "hold:foam/pre-foam", "phase:foam", "task:foam/spray"


@dataclass(frozen=True)
class Said:
    """What a command left: its exit status and what it wrote to either stream."""

    status: int
    out: str
    err: str


def check(key: str, each: str, how: str, kind: str = "hold", **more: Any) -> dict[str, Any]:
    """A row of the template: one check before the hold point."""
    fields = {
        "text": f"Text of {key}",
        "class": kind,
        "each": each,
        "before": HOLD,
        "how": how,
        "missed": f"What happens without {key}",
        "basis": "common practice",
        "phase": PHASE,
        **more,
    }
    return {"id": f"check:foam/{key}", "kind": "check", "slug": key, "fields": fields}


def phase_facts() -> list[Fact]:
    """One phase with a hold point, two tasks and seven checks."""
    hold = {
        "title": "Before the foam",
        "phase": PHASE,
        "gates": PHASE,
        "closed_by": SPRAY,
        "buries": ["run", "hole"],
        "dry": True,
        "min_surface_c": 10.0,
    }
    hours = {"low": [1, 0], "likely": [3, 0], "high": [6, 0]}
    mask = {"title": "Mask", "phase": PHASE, "crew": 2, "hours": hours}
    spray = {"title": "Spray", "phase": PHASE, "needs": ["task:foam/mask"], "hours": hours}
    rows = [
        {"id": HOLD, "kind": "holdpoint", "slug": "pre-foam", "fields": hold},
        {"id": "task:foam/mask", "kind": "task", "slug": "mask", "fields": mask},
        {"id": SPRAY, "kind": "task", "slug": "spray", "fields": spray},
        check("label-both-ends", "run", "look", say="label", watches=["slug"]),
        check("label-read", "run", "second person", kind="witness", say="read"),
        check(
            "lead-length",
            "run",
            "measure",
            say="len",
            limit={"min": 0.35, "sign_min": 0.3, "unit": "m"},
        ),
        check("hole-lined", "hole", "look", watches=["lining"], caution="Wear gloves"),
        check("bay-photo", "bay", "photo", kind="surveillance"),
        check("gas-tight", "once", "air", waive=False),
        check("shell-dry", "zone", "look", lapse="weather"),
    ]
    fields = {"title": "Foam", "order": 7, "edition": 1}
    phase = {"id": PHASE, "slug": "foam", "fields": fields}
    return [{"f": "phase.adopted", "phase": phase, "hash": "0" * 64, "items": rows}]


class Yard:
    """A build folder and the commands on it.

    Parameters
    ----------
    folder: the build folder.
    capture: pytest's ``capsys``.
    """

    def __init__(self, folder: Path, capture: pytest.CaptureFixture[str]) -> None:
        self.folder, self._capture = folder, capture

    @property
    def session(self) -> Session:
        """The build, opened anew."""
        return Session(self.folder)

    def do(self, facts: Callable[[Session], list[Fact]]) -> Act:
        """Record facts without a command, to set a scene."""
        session = self.session
        made = facts(session)
        return session.do(lambda build: made)

    def run(self, *words: str) -> Said:
        """One command, in this process, on this build."""
        return self.anywhere("--build", str(self.folder), *words)

    def anywhere(self, *words: str) -> Said:
        """One command in this process, wherever we are."""
        self._capture.readouterr()
        status = main(words)
        said = self._capture.readouterr()
        return Said(status, said.out, said.err)

    def saved(self, *words: str) -> str:
        """A command that must be saved; what it printed."""
        said = self.run(*words)
        assert (said.status, said.err) == (0, ""), said
        assert said.out.startswith("saved ") or "\nsaved " in said.out, said
        return said.out

    def refused(self, *words: str) -> str:
        """A command that must be refused in one sentence and change no byte; the sentence."""
        before = self.files()
        said = self.run(*words)
        assert (said.status, said.out) == (2, ""), said
        assert said.err.startswith("closein: ") and said.err.count("\n") == 1, said.err
        assert self.files() == before
        return said.err.removeprefix("closein: ").strip()

    def files(self) -> dict[str, bytes]:
        """Every file of the build folder, byte for byte."""
        return {
            str(file.relative_to(self.folder)): file.read_bytes()
            for file in sorted(self.folder.rglob("*"))
            if file.is_file()
        }

    def all_good(self, zone: str = "port", *, second: str = "Ola") -> None:
        """Answer every binding check of one zone, as people would."""
        bays = {"port": ("B1", "B2"), "roof": ("B3",)}[zone]
        for bay in bays:
            self.saved("check", "label-both-ends", "--bay", bay, "--good")
        for run in {"port": ("L1", "L2", "L3"), "roof": ("L4",)}[zone]:
            self.saved("check", "lead-length", "--at", run, "--value", "0.4m")
        holes = {"port": "H1", "roof": "H2"}
        self.saved("check", "hole-lined", "--at", holes[zone], "--good")
        if self.run("check", "gas-tight", "--json").out.count("good") == 0:
            self.saved("check", "gas-tight", "--good")
        self.saved("check", "shell-dry", "--at", zone, "--good")


def make(folder: Path) -> None:
    """Begin the build in a folder."""
    create(folder, Marked("b" * 12, "Heron", "+00:00"))
    session = Session(folder)
    fields = {"length_m": 7.6, "furring_m": 0.02, "panel_m": 0.006}
    session.do(lambda build: [item.add("vehicle", "vehicle", fields, "vehicle")])
    face = {"B1": "left", "B2": "left", "B3": "roof"}
    session.do(lambda build: [item.add("bay", bay, {"face": face[bay]}) for bay in face])
    named = session.names
    bays = {bay: named.find(bay, ("bay",)).id for bay in face}
    zones = {"port": ("B1", "B2"), "roof": ("B3",)}
    session.do(
        lambda build: [
            item.add("zone", zone, {"bay": [bays[bay] for bay in own]})
            for zone, own in zones.items()
        ]
    )
    runs = {"L1": "B1", "L2": "B1", "L3": "B2", "L4": "B3"}
    holes = {"H1": "B1", "H2": "B3"}
    session.do(
        lambda build: [
            *(item.add("run", run, {"bay": [bays[bay]]}) for run, bay in runs.items()),
            *(item.add("hole", hole, {"bay": [bays[bay]]}) for hole, bay in holes.items()),
        ]
    )
    session.do(lambda build: phase_facts())


def environment() -> dict[str, str]:
    """The environment for a real process that runs this checkout."""
    root = str(Path(__file__).parents[2])
    return {**os.environ, "PYTHONPATH": root}
