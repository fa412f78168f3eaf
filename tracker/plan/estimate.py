"""How long a task takes, said as three hours: low, likely, high."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp, log
from typing import Protocol

from tracker.errors import BadInput

SIXTH = 6.0


class Chance(Protocol):
    """Where random numbers come from: a seeded ``random.Random``."""

    def random(self) -> float:
        """A number from 0 to 1, 1 not included."""

    def betavariate(self, alpha: float, beta: float) -> float:
        """A number from 0 to 1, beta distributed."""

    def gauss(self, mu: float, sigma: float) -> float:
        """A number, normally distributed."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """Three hours, 0 <= low <= likely <= high [h].

    A draw is beta distributed between low and high with a mean of (low + 4 likely + high) / 6 and
    a standard deviation of (high - low) / 6.

    Source of the two figures: D. Malcolm, J. Roseboom, C. Clark, W. Fazar, "Application of a
    Technique for Research and Development Program Evaluation", Operations Research 7 (1959),
    646-669. From memory, unverified.

    Raises
    ------
    BadInput: the three do not rise, or are below 0.
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        if not 0.0 <= self.low <= self.likely <= self.high:
            raise BadInput(
                f"{self.low:g}, {self.likely:g}, {self.high:g} h is no estimate; "
                "the hours must rise from low over likely to high"
            )

    @property
    def mean(self) -> float:
        """The mean of what is drawn [h]."""
        return (self.low + 4.0 * self.likely + self.high) / SIXTH

    @property
    def deviation(self) -> float:
        """The standard deviation of what is drawn [h]."""
        return (self.high - self.low) / SIXTH

    @property
    def log_variance(self) -> float:
        """The variance of the logarithm of what is drawn, to second order."""
        return (self.deviation / self.mean) ** 2 if self.mean else 0.0

    @property
    def lean(self) -> float:
        """Mean of the logarithm of drawn over likely, to second order: how far it leans to high."""
        if not self.likely:
            return 0.0
        return log(self.mean / self.likely) - self.log_variance / 2.0

    def times(self, factor: float) -> Estimate:
        """The estimate of so many times the work."""
        return Estimate(self.low * factor, self.likely * factor, self.high * factor)

    def drawer(self, chance: Chance, spread: float = 1.0) -> Callable[[], float]:
        """What gives one duration after the other [h].

        Parameters
        ----------
        spread: how many times as wide, in the logarithm, as the three hours say.
        """
        width, low = self.high - self.low, self.low
        if not width:
            return lambda: low
        share = (self.mean - low) / width
        weight = share * (1.0 - share) * SIXTH**2 - 1.0
        alpha, beta = share * weight, (1.0 - share) * weight
        draw = chance.betavariate
        if spread == 1.0 or not self.likely:
            return lambda: low + width * draw(alpha, beta)
        middle = self.likely * exp(self.lean)
        return lambda: float(middle * ((low + width * draw(alpha, beta)) / middle) ** spread)
