"""The day as people say it: who is there, for how long, the weather, what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Day:
    """The facts of a day. None means nobody said, and is never guessed.

    Parameters
    ----------
    now: the moment asked about, with an offset.
    there_h: for each person, the hours from now that they are there.
    dry: is it dry?
    air_c: temperature of the air [C].
    power: is there power?
    daylight: is there daylight?
    absent: ids of people who are not there.
    without: ids of parts of which there is none, whatever was counted.
    no_tools: tools, in words, that are not there.
    unreached: places from which nothing can be had today.
    """

    now: datetime
    there_h: tuple[float, ...] = (8.0,)
    dry: bool | None = None
    air_c: float | None = None
    power: bool | None = None
    daylight: bool | None = None
    absent: frozenset[str] = frozenset()
    without: frozenset[str] = frozenset()
    no_tools: tuple[str, ...] = ()
    unreached: frozenset[str] = frozenset()

    @property
    def people(self) -> int:
        """How many people are there at the start."""
        return sum(hours > 0 for hours in self.there_h)

    @property
    def crew_hours(self) -> float:
        """The crew-hours there are."""
        return sum(max(0.0, hours) for hours in self.there_h)

    @property
    def longest_h(self) -> float:
        """The hours that the last person to go is there."""
        return max(self.there_h, default=0.0)

    def hours_of(self, crew: int) -> float:
        """For how long so many people are there together [h]."""
        stays = sorted(self.there_h, reverse=True)
        return max(0.0, stays[crew - 1]) if 0 < crew <= len(stays) else 0.0
