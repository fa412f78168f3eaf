"""The builder's own record: how the hours that work took compare with those that were likely.

The factor of all work is exp of the mean of log(actual / likely), shrunk by n / (n + 4) toward 1;
that of one phase is shrunk likewise toward that of all work. Estimates lean (high is further from
likely than low); so much of the record as they said themselves is not counted twice in a draw.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import exp, fsum, log, sqrt

from tracker.build.coverage import Coverage
from tracker.build.item import Item
from tracker.build.work import NOT_BEGUN
from tracker.plan.estimate import Chance, Estimate

WEIGHT = 4.0
"""Logged tasks that what is known beforehand counts for."""
BUILDERS = 0.35
"""Standard deviation, in the logarithm, between builders. Common practice, no source: two of three
people take between 0.7 and 1.4 times what is said."""
PHASES = 0.15
"""The same between phases of one builder. Common practice, no source."""
LEAST_SPREAD, MOST_SPREAD = 0.5, 3.0
BANDS = ("low", "likely", "high")
FEW = 10
"""Below so many logged tasks the record is few data. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Logged:
    """One task that is done, its estimate and the hours it took, with the stated crew [h]."""

    estimate: Estimate
    actual: float
    group: str = ""


@dataclass(frozen=True, slots=True)
class Mean:
    """A factor and how sure it is.

    Parameters
    ----------
    count: tasks it rests on.
    factor: hours taken for each hour that was likely.
    shift: logarithm of what a draw from an estimate is multiplied by.
    carried: how much of the uncertainty of all work it carries, 0 to 1.
    error: standard deviation of what is its own of ``shift``.
    """

    count: int
    factor: float
    shift: float
    carried: float
    error: float


@dataclass(frozen=True, slots=True)
class Record:
    """What the logged work says of what is still to do.

    Parameters
    ----------
    general: of all work.
    groups: of phases of which work was logged.
    spread: how many times as wide as the estimates say durations are.
    other: of a phase of which nothing was logged.
    """

    general: Mean
    groups: Mapping[str, Mean]
    spread: float
    other: Mean = field(repr=False)

    @classmethod
    def of(cls, logged: Iterable[Logged], builders: float = BUILDERS) -> Record:
        """The record of some logged work.

        Parameters
        ----------
        builders: how far builders differ, as a standard deviation in the logarithm, 0 or more; 0
            takes the estimates as they stand until something was logged.
        """
        rows = [row for row in logged if row.actual > 0 and row.estimate.likely > 0]
        phases = PHASES if builders else 0.0
        variance, spread = _variance(rows)
        general = _mean(rows, variance, builders, None)
        names = dict.fromkeys(row.group for row in rows)
        groups = {
            name: _mean([row for row in rows if row.group == name], variance, phases, general)
            for name in names
        }
        return cls(general, groups, spread, _mean([], variance, phases, general))

    def mean(self, group: str) -> Mean:
        """What stands for a phase."""
        return self.groups.get(group, self.other)

    def draw(self, chance: Chance, groups: Iterable[str]) -> dict[str, float]:
        """For one trial, what durations of each phase are multiplied by."""
        common = chance.gauss(0.0, 1.0) * self.general.error
        found = {}
        for group in groups:
            mean = self.mean(group)
            own = chance.gauss(0.0, 1.0) * mean.error
            found[group] = exp(mean.shift + mean.carried * common + own)
        return found


def record_of(cover: Coverage, length_m: float) -> Record:
    """The record of a build: every task done of which hours were stated and logged."""
    rows = []
    for task in cover.by_kind.get("task", []):
        progress = cover.build.work.get(task.id, NOT_BEGUN)
        estimate = estimate_of(task, length_m)
        if progress.done and progress.hours > 0 and estimate is not None:
            crew = max(1, int(task.get("crew", 1)))
            rows.append(Logged(estimate, progress.hours / crew, str(task.get("phase", ""))))
    return Record.of(rows)


def estimate_of(task: Item, length_m: float) -> Estimate | None:
    """The stated hours of a task on a body of so many metres; None where nobody stated any."""
    hours = task.get("hours")
    if not hours:
        return None
    low, likely, high = (
        max(0.0, float(base + per_metre * length_m))
        for base, per_metre in (hours.get(band, hours["likely"]) for band in BANDS)
    )
    return Estimate(min(low, likely), likely, max(likely, high))


def _variance(rows: list[Logged]) -> tuple[float, float]:
    """Variance of log(actual / likely) about its mean, and how wide that is for the estimates."""
    if not rows:
        return 0.0, 1.0
    stated = _average([row.estimate.log_variance for row in rows])
    offs = [log(row.actual / row.estimate.likely) - row.estimate.lean for row in rows]
    middle = _average(offs)
    squares = sum((off - middle) ** 2 for off in offs)
    variance = (squares + WEIGHT * stated) / (len(rows) - 1 + WEIGHT)
    wide = sqrt(variance / stated) if stated else 1.0
    return variance, min(MOST_SPREAD, max(LEAST_SPREAD, wide))


def _mean(rows: list[Logged], variance: float, around: float, above: Mean | None) -> Mean:
    count = len(rows)
    share = count / (count + WEIGHT)
    ratios = [log(row.actual / row.estimate.likely) for row in rows]
    leans = [row.estimate.lean for row in rows]
    found, said = _average(ratios), _average(leans)
    factor, shift = (log(above.factor), above.shift) if above else (0.0, 0.0)
    of_rows = share**2 * variance / count if count else 0.0
    return Mean(
        count,
        exp(share * found + (1.0 - share) * factor),
        share * (found - said) + (1.0 - share) * shift,
        1.0 - share,
        sqrt(of_rows + ((1.0 - share) * around) ** 2),
    )


def _average(values: Sequence[float]) -> float:
    """The mean of some numbers; 0 of none."""
    return fsum(values) / len(values) if values else 0.0
