from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import date, datetime, timedelta, timezone

import pytest

from tracker.cli.moment import parse_day, parse_when
from tracker.errors import BadInput

NOW = datetime(2027, 3, 2, 15, 0, tzinfo=timezone(timedelta(hours=1)))


@pytest.fixture(autouse=True)
def yard_time(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A zone with summer time, one hour ahead of UTC in winter."""
    monkeypatch.setenv("TZ", "CET-1CEST,M3.5.0,M10.5.0/3")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize(
    ("typed", "moment"),
    [
        ("14:30", "2027-03-02T14:30:00+01:00"),
        ("9:05", "2027-03-02T09:05:00+01:00"),
        ("today 08:00", "2027-03-02T08:00:00+01:00"),
        ("yesterday 17:00", "2027-03-01T17:00:00+01:00"),
        ("Yesterday", "2027-03-01T12:00:00+01:00"),
        ("2027-02-20", "2027-02-20T12:00:00+01:00"),
        ("2027-02-20T14:30", "2027-02-20T14:30:00+01:00"),
        ("2027-02-20 14:30", "2027-02-20T14:30:00+01:00"),
        ("2026-07-20 14:30", "2026-07-20T14:30:00+02:00"),
        ("2027-02-20T14:30Z", "2027-02-20T14:30:00+00:00"),
        ("2027-02-20t14:30-05:00", "2027-02-20T14:30:00-05:00"),
    ],
)
def test_a_moment_is_read_as_people_type_it(typed: str, moment: str) -> None:
    assert parse_when(typed, NOW).isoformat() == moment


def test_a_day_alone_never_lies_ahead_of_now() -> None:
    morning = NOW.replace(hour=8)

    assert parse_when("2027-03-02", morning) == morning
    assert parse_when("today", morning) == morning


@pytest.mark.parametrize(
    "typed",
    ["", "noon", "25:00", "14", "2027-13-01", "2027-02-30", "14:30 yesterday", "14:3", "+1"],
)
def test_what_is_no_moment_is_refused_with_the_forms_there_are(typed: str) -> None:
    with pytest.raises(BadInput, match="is no moment; write 14:30"):
        parse_when(typed, NOW)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("2027-02-20", date(2027, 2, 20)),
        ("today", date(2027, 3, 2)),
        ("yesterday", date(2027, 3, 1)),
        ("7d", date(2027, 2, 23)),
        ("1 day ago", date(2027, 3, 1)),
    ],
)
def test_a_day_is_read_as_people_type_it(typed: str, day: date) -> None:
    assert parse_day(typed, NOW) == day


@pytest.mark.parametrize("typed", ["", "soon", "2027-02-30", "d"])
def test_what_is_no_day_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="is no day"):
        parse_day(typed, NOW)
