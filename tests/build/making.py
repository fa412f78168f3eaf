"""Facts, acts and builds for tests, in few words.

Items made here have ids like ``run:L1``, so that a test can name them without looking them up.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from typing import Any

from tracker.act import Act, Fact, act_id
from tracker.build import item, log, marking, release
from tracker.build.coverage import Coverage
from tracker.build.fold import EMPTY, fold
from tracker.build.item import VEHICLE, Item
from tracker.build.release import HoldStanding, hold_standing
from tracker.build.state import Build

START = datetime(2027, 3, 1, 8, 0, tzinfo=UTC)
STAMP_MS = 1_800_000_000_000


def act(number: int, *facts: Fact, writer: str = "aaaaaaaa", by: str = "Ida") -> Act:
    """An act whose place in the order is ``number`` (from 1); it is typed ``number`` minutes in."""
    at = (START + timedelta(minutes=number)).isoformat()
    return Act(act_id(STAMP_MS + number, writer, number), at, by, facts)


def added(kind: str, slug: str, **fields: Any) -> Fact:
    """The fact that adds an item whose id is its kind and name."""
    return item.add(kind, slug, fields, f"{kind}:{slug}")


def run(slug: str, bay: str | None = None, **fields: Any) -> Fact:
    """A wire run, in a bay where one is named."""
    return added("run", slug, **({"bay": [f"bay:{bay}"]} if bay else {}), **fields)


def check(slug: str, each: str = "run", how: str = "look", **fields: Any) -> Fact:
    """A check of class hold before the foam, unless other things are said."""
    standing = {"class": "hold", "before": "holdpoint:foam", "text": f"{slug} is right"}
    return added("check", slug, each=each, how=how, **(standing | fields))


def hold(slug: str = "foam", **fields: Any) -> Fact:
    """A hold point that buries runs and holes, unless other things are said."""
    standing = {"gates": "phase:insulation", "phase": "phase:insulation", "buries": ["run", "hole"]}
    return added("holdpoint", slug, **(standing | fields))


def ground() -> tuple[Fact, ...]:
    """A vehicle with four bays in two zones, A (B1, B2) and B (B3, B4), and a hold point."""
    bays = [
        added("bay", f"B{number}", face="left", station_m=number - 1.0, to_m=float(number))
        for number in (1, 2, 3, 4)
    ]
    return (
        item.add(VEHICLE, VEHICLE, {"length_m": 7.5, "furring_m": 0.04, "panel_m": 0.01}, VEHICLE),
        added("phase", "insulation", order=8),
        *bays,
        added("zone", "A", bay=["bay:B1", "bay:B2"]),
        added("zone", "B", bay=["bay:B3", "bay:B4"]),
        hold(valid_h=48.0, dry=True, min_surface_c=10.0, min_margin_k=3.0),
    )


class Yard:
    """A build that grows act by act.

    Parameters
    ----------
    facts: what its first act says.
    """

    def __init__(self, *facts: Fact) -> None:
        self.build: Build = EMPTY
        self.number = 0
        self.now = START
        if facts:
            self.do(*facts)

    def do(
        self,
        *facts: Fact,
        by: str = "Ida",
        when: str | None = None,
        writer: str = "aaaaaaaa",
    ) -> Act:
        """One more act, a minute later."""
        self.number += 1
        self.now += timedelta(minutes=1)
        done = act(self.number, *facts, writer=writer, by=by)
        done = done._replace(at=self.now.isoformat(), when=when)
        self.build = fold([done], self.build)
        return done

    def later(self, **time: float) -> None:
        """Let time go by: ``hours=3``, ``days=1``."""
        self.now += timedelta(**time)

    @property
    def cover(self) -> Coverage:
        """What the hold points cover now."""
        return Coverage(self.build)

    def item(self, slug: str) -> Item:
        """An item by its short name."""
        return next(item for item in self.build.items.values() if item.slug == slug)

    def mark(self, slug: str, subjects: str, result: str = "good", **details: Any) -> Act:
        """Answer a check for subjects, named with blanks between them."""
        return self.do(*self.marked(slug, subjects, result, **details))

    def marked(self, slug: str, subjects: str, result: str = "good", **details: Any) -> list[Fact]:
        """The facts that answer a check."""
        found = [self.item(name) for name in subjects.split()]
        details = {"by": "Ida", **details}
        return marking.mark(self.cover, self.item(slug), found, result, **details)

    def change(self, slug: str, /, **values: Any) -> Act:
        """Set fields of an item."""
        return self.do(item.change(self.item(slug), values))

    def remove(self, slug: str, why: str = "not needed") -> Act:
        """Remove an item."""
        return self.do(item.remove(self.item(slug), why))

    def weather(self, zone: str = "", **readings: Any) -> Act:
        """Record conditions."""
        return self.do(log.condition(zone, **readings))

    def stand(
        self, zone: str = "", hold: str = "foam", reservations: Iterable[str] = ()
    ) -> HoldStanding:
        """How a hold point stands in a zone (a name, or '' for the whole)."""
        key = f"zone:{zone}" if zone else ""
        return hold_standing(self.cover, self.item(hold), key, self.now, tuple(reservations))

    def release(self, zone: str = "", by: str = "Ida", second: str = "Ola", **more: Any) -> Act:
        """Release the foam hold point in a zone."""
        present = more.get("present", "present")
        return self.do(release.release(self.stand(zone), by, second, present, self.now))

    def close(self, zone: str = "", why: str | None = None) -> Act:
        """Close a zone in."""
        return self.do(release.close(self.cover, self.stand(zone), why, self.now))

    def withdraw(self, zone: str = "", why: str = "the hose was on") -> Act:
        """Take the release of a zone back."""
        return self.do(release.withdraw(self.stand(zone), why, self.now))

    def reopen(self, zone: str = "", why: str = "a wire was found short") -> Act:
        """Open a closed zone again."""
        return self.do(release.reopen(self.stand(zone), why, self.now))
