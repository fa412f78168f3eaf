"""A small invented build to try things on: a box body with two zones, four bays, a few items."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

from tracker.app import folder
from tracker.app.session import Session
from tracker.app.wants import items, phases
from tracker.build.item import VEHICLE, add

PLAN = """
[vehicle]
furring = "1 in"
panel = "6 mm"
[[zone]]
name = "front"
bay = ["B1", "B2"]
[[zone]]
name = "rear"
bay = ["B3", "B4"]
[[bay]]
name = "B1"
[[bay]]
name = "B2"
[[bay]]
name = "B3"
[[bay]]
name = "B4"
[[person]]
name = "ola"
title = "Ola Brandt"
[[part]]
name = "glands"
title = "cable glands"
unit = "each"
needed = 12
pack = 10
[[part]]
name = "wire-red"
unit = "m"
needed = "31 m"
[[run]]
name = "L1"
to = "reading lamp"
length = "5.5 m"
bay = "B1"
[[run]]
name = "L2"
to = "fan"
bay = "B1"
[[run]]
name = "L12"
to = "pump"
bay = "B2"
[[hole]]
name = "H12"
bay = "B1"
carries = "L1"
[[hole]]
name = "H2"
bay = "B3"
"""


class Clock:
    """A clock that goes on a minute each time it is read."""

    def __init__(self) -> None:
        self.moment = datetime.fromisoformat("2030-05-02T08:00:00+00:00")

    def __call__(self) -> datetime:
        self.moment += timedelta(minutes=1)
        return self.moment


def start(where: Path, data: Path, clock: Callable[[], datetime] | None = None) -> Session:
    """The build, its vehicle there and nothing else."""
    folder.create(where, folder.Marked("b1", "Heron", "+00:00"))
    session = Session(where, clock=clock or Clock(), user="Ida", data=data)
    session.do(lambda _: [add(VEHICLE, VEHICLE, {"length_m": 7.6}, VEHICLE)])
    return session


def furnish(session: Session) -> Session:
    """Take up the phase to be insulated and the plan above."""
    session.do(phases.adopt(["insulation"]))
    session.do(items.take_file(PLAN, "plan.toml"))
    return session
