"""Working hours across nights, weekends and days off."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.errors import BadInput
from tracker.plan.calendar import Cure, WorkingCalendar

WEEKENDS = WorkingCalendar.of([5, 6], begins_h=8, hours=8, days_off=[date(2026, 3, 22)])
INSTANT = timedelta(microseconds=1)

moments = st.datetimes(datetime(2025, 12, 1), datetime(2027, 2, 1))
work_h = st.integers(0, 400 * 60).map(lambda minutes: minutes / 60)
calendars = st.builds(
    WorkingCalendar.of,
    st.frozensets(st.integers(0, 6), min_size=1),
    begins_h=st.sampled_from([0.0, 6.5, 8.0, 12.0]),
    hours=st.sampled_from([0.5, 4.0, 7.25, 12.0]),
    days_off=st.frozensets(st.dates(date(2025, 12, 1), date(2026, 12, 31)), max_size=40),
)


@pytest.mark.parametrize(
    ("begins", "hours", "ends"),
    [
        (datetime(2026, 3, 14, 8), 8.0, datetime(2026, 3, 14, 16)),
        (datetime(2026, 3, 14, 15), 2.0, datetime(2026, 3, 15, 9)),
        (datetime(2026, 3, 15, 15), 2.0, datetime(2026, 3, 21, 9)),
        (datetime(2026, 3, 18, 10), 1.0, datetime(2026, 3, 21, 9)),
        (datetime(2026, 3, 21, 12), 8.0, datetime(2026, 3, 28, 12)),
        (datetime(2026, 3, 18, 10), 0.0, datetime(2026, 3, 18, 10)),
    ],
)
def test_work_goes_on_at_weekends_but_not_on_a_day_off(
    begins: datetime, hours: float, ends: datetime
) -> None:
    assert WEEKENDS.forward(begins, hours) == ends


def test_going_back_begins_as_late_as_it_can() -> None:
    assert WEEKENDS.backward(datetime(2026, 3, 21, 16), 8.0) == datetime(2026, 3, 21, 8)
    assert WEEKENDS.backward(datetime(2026, 3, 18, 0), 8.0) == datetime(2026, 3, 15, 8)
    assert WEEKENDS.backward(datetime(2026, 3, 21, 9), 9.0) == datetime(2026, 3, 15, 8)


def test_a_cure_takes_no_notice_of_nights_and_days_off() -> None:
    assert WEEKENDS.forward(datetime(2026, 3, 15, 16), Cure(72)) == datetime(2026, 3, 18, 16)
    assert WEEKENDS.backward(datetime(2026, 3, 18, 16), Cure(72)) == datetime(2026, 3, 15, 16)


def test_a_cure_keeps_its_length_where_the_clocks_change() -> None:
    berlin = ZoneInfo("Europe/Berlin")
    before = datetime(2026, 3, 28, 16, tzinfo=berlin)

    after = WEEKENDS.forward(before, Cure(24))

    assert after.astimezone(UTC) - before.astimezone(UTC) == timedelta(hours=24)
    assert after.hour == 17
    assert WEEKENDS.forward(before - timedelta(hours=1), 2.0).hour == 9


@settings(max_examples=400)
@given(calendars, moments, work_h)
def test_what_is_done_between_beginning_and_end_is_the_work(
    calendar: WorkingCalendar, moment: datetime, hours: float
) -> None:
    done = calendar.forward(moment, hours)

    assert calendar.between(moment, done) == pytest.approx(hours, abs=1e-8)
    if hours:
        assert calendar.between(moment, done - INSTANT) < hours


@settings(max_examples=400)
@given(calendars, moments, work_h)
def test_forward_and_back_again_is_the_same_moment_to_a_task(
    calendar: WorkingCalendar, moment: datetime, hours: float
) -> None:
    back = calendar.backward(calendar.forward(moment, hours), hours)
    ahead = calendar.forward(calendar.backward(moment, hours), hours)

    assert back >= moment
    assert ahead <= moment
    assert calendar.between(moment, back) == calendar.between(ahead, moment) == 0.0


@given(calendars, moments, work_h)
def test_back_from_there_a_moment_later_would_be_too_late(
    calendar: WorkingCalendar, moment: datetime, hours: float
) -> None:
    begins = calendar.backward(moment, hours)

    assert calendar.forward(begins, hours) <= moment
    if hours:
        assert calendar.forward(begins + INSTANT, hours) > moment


@given(moments, st.integers(0, 10_000))
def test_a_cure_forward_and_back_again_is_the_very_moment(moment: datetime, hours: int) -> None:
    cured = WEEKENDS.forward(moment, Cure(hours))

    assert WEEKENDS.backward(cured, Cure(hours)) == moment


@given(calendars, moments, st.integers(0, 60))
def test_working_hours_are_those_counted_minute_by_minute(
    calendar: WorkingCalendar, moment: datetime, hours: int
) -> None:
    moment = moment.replace(minute=0, second=0, microsecond=0)
    end = moment + timedelta(hours=hours)
    opens = timedelta(hours=calendar.begins_h)
    steps = (moment + timedelta(minutes=15 * quarter) for quarter in range(hours * 4))
    counted = sum(
        opens
        <= timedelta(hours=step.hour, minutes=step.minute)
        < opens + timedelta(hours=calendar.hours)
        and step.weekday() in calendar.weekdays
        and step.date() not in calendar.days_off
        for step in steps
    )

    assert calendar.between(moment, end) == counted / 4
    assert calendar.between(end, moment) == -counted / 4


def test_a_calendar_without_a_working_day_is_refused() -> None:
    with pytest.raises(BadInput, match="needs working weekdays"):
        WorkingCalendar.of([])
    with pytest.raises(BadInput, match="a working day of 10 h from 16 h on does not fit"):
        WorkingCalendar.of([0], begins_h=16, hours=10)


def test_a_duration_below_nothing_is_refused() -> None:
    with pytest.raises(BadInput, match="-2 h is below 0"):
        WEEKENDS.forward(datetime(2026, 3, 14), -2.0)
    with pytest.raises(BadInput, match="-2 h is below 0"):
        WEEKENDS.backward(datetime(2026, 3, 14), Cure(-2.0))
