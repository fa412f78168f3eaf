"""The working calendar: work goes on in working hours only, a cure goes on by day and night.

Between the end of one working day and the beginning of the next no work passes, so that the two
moments are the same to a task, but not to a cure. Going forward therefore ends as early as it can
(Friday evening), going back begins as late as it can (Monday morning).
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta

from tracker.errors import BadInput

SECOND = 1_000_000
HOUR = 3600 * SECOND
"""Times inside a day are counted in microseconds, so that sums are exact."""
LEAST_HOURS, MOST_HOURS = 1.0 / 60.0, 24.0


@dataclass(frozen=True, slots=True)
class Cure:
    """A duration that runs by the clock, without anybody working.

    Parameters
    ----------
    hours: elapsed, 0 or more.
    """

    hours: float


@dataclass(frozen=True, slots=True)
class WorkingCalendar:
    """When there is work.

    Moments are local time, all naive or all with a zone. With a zone, a cure keeps its length
    where the clocks change; a working day is what the clock on the wall says.

    Parameters
    ----------
    weekdays: working days of the week, Monday is 0; at least one.
    begins_h: hour at which a working day begins, 0 to 24.
    hours: length of a working day, a minute or more, such that it ends by midnight.
    days_off: dates without work.

    Raises
    ------
    BadInput: no working day at all, or hours that no day has.
    """

    weekdays: frozenset[int] = frozenset(range(7))
    begins_h: float = 8.0
    hours: float = 8.0
    days_off: frozenset[date] = frozenset()
    _days: tuple[int, ...] = field(init=False, repr=False, compare=False)
    _off: tuple[int, ...] = field(init=False, repr=False, compare=False)
    _begins: int = field(init=False, repr=False, compare=False)
    _length: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not self.weekdays or not self.weekdays <= frozenset(range(7)):
            raise BadInput("a calendar needs working weekdays; give some of Monday to Sunday")
        if not LEAST_HOURS <= self.hours <= MOST_HOURS - self.begins_h <= MOST_HOURS:
            raise BadInput(
                f"a working day of {self.hours:g} h from {self.begins_h:g} h on does not fit"
                " between midnight and midnight; give a minute or more that ends by midnight"
            )
        off = {day.toordinal() for day in self.days_off if day.weekday() in self.weekdays}
        object.__setattr__(self, "_days", tuple(sorted(self.weekdays)))
        object.__setattr__(self, "_off", tuple(sorted(off)))
        object.__setattr__(self, "_begins", round(self.begins_h * HOUR))
        object.__setattr__(self, "_length", round(self.hours * HOUR))

    @classmethod
    def of(
        cls,
        weekdays: Iterable[int],
        begins_h: float = 8.0,
        hours: float = 8.0,
        days_off: Iterable[date] = (),
    ) -> WorkingCalendar:
        """A calendar from any collections."""
        return cls(frozenset(weekdays), begins_h, hours, frozenset(days_off))

    def works_on(self, day: date) -> bool:
        """Whether there is work on this date."""
        return day.weekday() in self.weekdays and day not in self.days_off

    def forward(self, moment: datetime, duration: float | Cure) -> datetime:
        """The earliest moment by which what begins at ``moment`` is done.

        Parameters
        ----------
        duration: working hours, 0 or more, or a cure.
        """
        if isinstance(duration, Cure):
            return _later(moment, timedelta(hours=_not_negative(duration.hours)))
        work = round(_not_negative(duration) * HOUR)
        return self._at(self._worked(moment) + work, moment, late=False) if work else moment

    def backward(self, moment: datetime, duration: float | Cure) -> datetime:
        """The latest moment to begin so as to be done by ``moment``; as ``forward``."""
        if isinstance(duration, Cure):
            return _later(moment, -timedelta(hours=_not_negative(duration.hours)))
        work = round(_not_negative(duration) * HOUR)
        return self._at(self._worked(moment) - work, moment, late=True) if work else moment

    def between(self, earlier: datetime, later: datetime) -> float:
        """Working hours from one moment to another; below 0 where they are the other way round."""
        return (self._worked(later) - self._worked(earlier)) / HOUR

    def _worked(self, moment: datetime) -> int:
        """Working time, in microseconds, from the first of all dates until ``moment``."""
        number = moment.toordinal()
        weeks, weekday = divmod(number - 1, 7)  # the first of all dates was a Monday
        off = bisect_left(self._off, number)
        whole = (weeks * len(self._days) + bisect_left(self._days, weekday) - off) * self._length
        if weekday not in self.weekdays or self._off[off : off + 1] == (number,):
            return whole
        minutes = moment.hour * 60 + moment.minute
        passed = (minutes * 60 + moment.second) * SECOND + moment.microsecond - self._begins
        return whole + (passed if 0 < passed < self._length else 0 if passed <= 0 else self._length)

    def _at(self, worked: int, like: datetime, late: bool) -> datetime:
        """The moment by which so much working time has passed.

        Parameters
        ----------
        like: a moment with the same zone.
        late: of a whole gap without work take the end, not the beginning.
        """
        days, rest = divmod(worked, self._length)
        if not rest and not late:
            days, rest = days - 1, self._length
        index, before = days, -1
        while index != before:
            weeks, place = divmod(index, len(self._days))
            number = weeks * 7 + self._days[place] + 1
            index, before = days + bisect_right(self._off, number), index
        midnight = datetime.fromordinal(number)
        if like.tzinfo is not None:
            midnight = midnight.replace(tzinfo=like.tzinfo)
        return midnight + timedelta(microseconds=self._begins + rest)


def _later(moment: datetime, elapsed: timedelta) -> datetime:
    """So much elapsed time later, across changes of the clock."""
    if moment.tzinfo is None:
        return moment + elapsed
    return (moment.astimezone(UTC) + elapsed).astimezone(moment.tzinfo)


def _not_negative(hours: float) -> float:
    if not hours >= 0.0:
        raise BadInput(f"a duration of {hours:g} h is below 0; give 0 h or more")
    return hours
