"""The chart of how wide a date is, and the words beside it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tracker.app.views.words.dates import booked_words, near_day
from tracker.app.views.words.spread import BARS, spread_chart
from tracker.plan.forecast import SPREAD

TODAY = date(2027, 3, 2)


def row(days: list[int], booked: int | None = None) -> dict[str, Any]:
    """A date whose chances rise on the given days from today."""
    told = [(TODAY + timedelta(days=day)).isoformat() for day in sorted(days)]
    spread = dict(zip(SPREAD, told, strict=True))
    return {
        "spread": [[chances, day] for chances, day in spread.items()],
        **{f"chances_{chances}": spread[chances] for chances in (50, 80, 95)},
        "booked": (TODAY + timedelta(days=booked)).isoformat() if booked is not None else None,
    }


def test_the_marks_stand_below_their_days() -> None:
    chart = spread_chart(row(list(range(10, 31)), 12), TODAY.isoformat(), 47, 4)

    bars, axis, labels, ends = chart[:4], chart[4], chart[5], chart[6]
    for label in ("50", "80", "booked", "95"):
        assert axis[labels.index(f" {label}") + 1] == "┴"
    assert axis.count("┴") == 4
    assert labels.split() == ["booked", "50", "80", "95"]
    assert ends.split() == ["12", "Mar", "01", "Apr"]
    assert bars[0].startswith("100 │") and bars[0].endswith("█")


def test_before_the_first_day_there_is_no_chance_and_it_is_drawn_so() -> None:
    chart = spread_chart(row(list(range(20, 41)), 1), TODAY.isoformat(), 60, 3)

    assert chart[2][5:20].strip() == ""
    assert "█" in chart[2]


def test_a_date_without_any_doubt_is_one_day() -> None:
    chart = spread_chart(row([3] * 21), TODAY.isoformat(), 40, 3)

    assert chart[-1].split() == ["05", "Mar"]
    assert chart[-2].split() == ["50", "80", "95"]


@given(
    st.lists(st.integers(0, 900), min_size=21, max_size=21),
    st.none() | st.integers(-400, 2000),
    st.integers(24, 160),
    st.integers(2, 12),
)
def test_a_chart_keeps_its_size_and_never_falls(
    days: list[int], booked: int | None, width: int, height: int
) -> None:
    chart = spread_chart(row(days, booked), TODAY.isoformat(), width, height)
    bars = [line[5:] for line in chart[:height]]
    heights = [sum(BARS.index(line[at]) for line in bars) for at in range(len(bars[0]))]

    assert len(chart) == height + 3
    assert max(map(len, chart)) <= width
    assert heights == sorted(heights)
    assert heights[-1] >= height * 8 - 1


def test_a_day_is_told_with_its_year_only_where_that_is_far_off() -> None:
    assert near_day("2027-12-16", "2027-03-02") == "16 Dec"
    assert near_day("2028-03-02", "2027-03-02") == "02 Mar 28"


def test_a_booked_day_says_its_chance_or_that_it_is_past() -> None:
    told = {"booked": "2027-03-09", "booked_past": False, "booked_chance": 18}

    assert booked_words(told, "09 Mar") == "09 Mar, 18 in 100"
    assert booked_words({**told, "booked_past": True}, "09 Mar") == "09 Mar, it has passed"
    assert booked_words({**told, "booked": None}, None) == ""
