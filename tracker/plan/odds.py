"""The odds of a date, and what drives it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import NamedTuple

from tracker.errors import BadInput
from tracker.plan.scheduling import TINY

DAYS = "days"
"""The driver that is the chance which days are worked."""


class Driver(NamedTuple):
    """What drives a date: how much of what the date varies by goes with it.

    Parameters
    ----------
    name: of the job, of what arrives, or of the phase whose pace (what durations are multiplied
        by) it is; or ``DAYS``.
    share: square of the correlation with the date, 0 to 1.
    holds: share of the trials in which a task had only an arrival to wait for; 0 for others.
    """

    name: str
    share: float
    holds: float


@dataclass(frozen=True, slots=True)
class Odds:
    """When all of some work is done, cures over, over all trials.

    Parameters
    ----------
    hours: elapsed hours from the midnight before now, rising.
    drivers: what drives it, most first.
    """

    hours: tuple[float, ...]
    drivers: tuple[Driver, ...] = ()

    def at(self, chances: float) -> float:
        """The hours by which it is done with so many chances in 100, above 0 and at most 100."""
        if not 0.0 < chances <= 100.0:
            raise BadInput(f"{chances:g} chances in 100 is outside 0 to 100")
        return self.hours[ceil(chances / 100.0 * len(self.hours) - TINY) - 1]

    def by(self, hours: float) -> float:
        """The chances in 100 that it is done by then."""
        return 100.0 * bisect_right(self.hours, hours + TINY) / len(self.hours)


def goes_with(one: Sequence[float], other: Sequence[float]) -> float:
    """Square of the correlation of two rows of numbers; 0 where it is below 0."""
    count = len(one)
    first, second = sum(one) / count, sum(other) / count
    offs = [value - first for value in one]
    ends = [value - second for value in other]
    both = sum(a * b for a, b in zip(offs, ends, strict=True))
    squares = sum(a * a for a in offs) * sum(b * b for b in ends)
    return both * both / squares if both > 0.0 and squares > 0.0 else 0.0
