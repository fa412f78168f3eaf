"""The last day on which a task can begin so that a booked hold point holds."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

from tests.plan.workshop import Yard, added, shop, task
from tracker.act import Fact
from tracker.build import item
from tracker.plan.calendar import WorkingCalendar
from tracker.plan.chain import Chains
from tracker.plan.latest import late_starts


def _late(yard: Yard, calendar: WorkingCalendar | None = None) -> dict[str, str]:
    def when(day: date, hours: float) -> datetime:
        return datetime.combine(day, time(), UTC) + timedelta(hours=hours)

    found = late_starts(yard.cover, Chains(yard.cover), calendar or WorkingCalendar(), when)
    return {name.removeprefix("task:"): str(moment)[:16] for name, moment in found.items()}


def _booked(*facts: Fact, day: str = "2027-03-12") -> Yard:
    """A build whose foam is booked for a Friday, with a task that closes."""
    yard = shop(*facts, task("spray", "mask", phase="phase:insulation"))
    closed = {"booked": day, "closed_by": "task:spray"}
    yard.do(item.change(yard.item("foam"), closed))
    return yard


def test_work_is_counted_back_in_working_hours_over_what_follows() -> None:
    yard = _booked(task("wire", likely=12.0), task("mask", "wire", likely=4.0))

    assert _late(yard) == {
        "spray": "2027-03-12 08:00",
        "mask": "2027-03-11 12:00",
        "wire": "2027-03-10 08:00",
    }


def test_a_cure_goes_on_by_day_and_night_and_days_off_are_no_working_days() -> None:
    yard = _booked(task("paint", likely=2.0, cure_h=24.0), task("mask", "paint", likely=8.0))

    assert _late(yard)["paint"] == "2027-03-09 14:00"
    calendar = WorkingCalendar.of(range(7), days_off=[date(2027, 3, 11)])
    assert _late(yard, calendar)["mask"] == "2027-03-10 08:00"


def test_what_no_booked_day_needs_has_no_last_day() -> None:
    yard = _booked(
        task("mask"), added("phase", "later", order=20), task("trim", phase="phase:later")
    )
    assert "trim" not in _late(yard)

    assert _late(shop(task("mask"))) == {}
