"""List scheduling: each task in its turn begins as early as hands and what it waits for allow.

Work is counted in working hours from the beginning of the first working day, everything else in
elapsed hours from the midnight before now. Clock changes are not counted: an hour twice a year.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from tracker.errors import BadInput
from tracker.plan.estimate import Chance

DAY_H = 24.0
MOST_DAYS = 200 * 366
TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Week:
    """On which days of the week there is work, and for how long.

    Parameters
    ----------
    chances: for weekdays (Monday is 0), the chance that there is work, above 0 and at most 1.
    begins_h: hour at which a day's work begins, 0 to 24.
    hours: length of a day's work, above 0, ending by midnight [h].
    days_off: dates without work.

    Raises
    ------
    BadInput: no day with work, or hours that no day has.
    """

    chances: Mapping[int, float]
    begins_h: float = 8.0
    hours: float = 8.0
    days_off: frozenset[date] = frozenset()

    def __post_init__(self) -> None:
        if not any(chance > 0.0 for chance in self.chances.values()):
            raise BadInput("there is no day with work; name some of mon to sun")
        if not 0.0 < self.hours <= DAY_H - self.begins_h <= DAY_H:
            raise BadInput(
                f"a day's work of {self.hours:g} h from {self.begins_h:g} h on does not end by "
                "midnight"
            )


class Axis:
    """Working hours against elapsed hours, for one trial.

    Parameters
    ----------
    week: the days with work.
    now: when it begins.
    chance: draws which days are worked.
    """

    def __init__(self, week: Week, now: datetime, chance: Chance) -> None:
        self.week, self.chance, self.length = week, chance, week.hours
        self.today = now.date()
        self.starts: list[float] = []
        self._next = 0
        self.now = now.hour + now.minute / 60.0 + now.second / 3600.0
        self._grow()
        self.begin = self.work(self.now)

    def _grow(self) -> None:
        """One more working day."""
        week, number = self.week, self._next
        while True:
            if number > MOST_DAYS:
                raise BadInput("the work does not end in 200 years; take more days, hours, people")
            day = number
            number += 1
            share = week.chances.get((self.today.weekday() + day) % 7, 0.0)
            if share <= 0.0 or (share < 1.0 and self.chance.random() >= share):
                continue
            if week.days_off and self.today + timedelta(days=day) in week.days_off:
                continue
            self.starts.append(day * DAY_H + week.begins_h)
            self._next = number
            return

    def elapsed(self, work: float) -> float:
        """When so much work is done, in elapsed hours: in the evening, not the next morning."""
        days, rest = divmod(work, self.length)
        if rest < TINY and days:
            days, rest = days - 1, self.length
        number = int(days)
        while number >= len(self.starts):
            self._grow()
        return self.starts[number] + rest

    def work(self, elapsed: float) -> float:
        """How much work is done by then."""
        while self.starts[-1] < elapsed:
            self._grow()
        number = bisect_right(self.starts, elapsed) - 1
        if number < 0:
            return 0.0
        return number * self.length + min(elapsed - self.starts[number], self.length)


class Hands:
    """The hands that are free, over working hours.

    Parameters
    ----------
    crew: how many people there are, 1 or more.
    """

    def __init__(self, crew: int) -> None:
        self.times, self.free = [0.0], [crew]

    def place(self, ready: float, hours: float, crew: int) -> float:
        """Take people for some hours at the earliest moment from ``ready`` on; that moment.

        Parameters
        ----------
        crew: people it takes, at most as many as there are.
        """
        if hours <= 0.0:
            return ready
        times, free = self.times, self.free
        last = len(times) - 1
        at = bisect_right(times, ready) - 1
        start, end, until = ready, ready + hours, at
        while True:
            if free[until] < crew:
                at = until = until + 1
                start = times[at]
                end = start + hours
            elif until == last or times[until + 1] >= end:
                break
            else:
                until += 1
        if until == last or times[until + 1] > end:
            times.insert(until + 1, end)
            free.insert(until + 1, free[until])
        if times[at] < start:
            at, until = at + 1, until + 1
            times.insert(at, start)
            free.insert(at, free[at - 1])
        for number in range(at, until + 1):
            free[number] -= crew
        after = until + 1
        if free[until] == free[after]:
            del times[after], free[after]
        if at and free[at - 1] == free[at]:
            del times[at], free[at]
        return start
