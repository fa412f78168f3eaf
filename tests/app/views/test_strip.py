"""The strip: the day at a glance."""

from __future__ import annotations

from datetime import datetime

from tracker.app.session import Session
from tracker.app.views.strip import strip_view
from tracker.app.wants import blockers, holds, parts, say


def test_a_build_just_begun_has_nothing_to_tell_but_the_day(bare: Session) -> None:
    strip = strip_view(bare)

    assert strip["date"] == "2030-05-02"
    assert strip["saved"][:10] == "2030-05-02"
    assert (strip["blockers"], strip["shortages"], strip["people"]) == (0, 0, None)
    assert (strip["hold_point"], strip["days"]) == (None, None)


def test_it_counts_what_is_in_the_way_and_the_days_to_the_close_in(heron: Session) -> None:
    heron.do(blockers.stuck("no dry day", kind="weather"))
    heron.do(blockers.stuck("no torch", kind="tool", slug="torch"))
    heron.do(blockers.unstuck("torch", on="2030-05-02"))
    heron.do(parts.count("glands", "shelf", "3"))
    heron.do(holds.book("pre-foam", "2030-05-18"))
    strip = strip_view(heron)

    assert (strip["blockers"], strip["shortages"]) == (1, 1)
    assert (strip["hold_point"], strip["days"]) == ("pre-foam", 16)


def test_the_crew_is_that_of_today(heron: Session) -> None:
    intent, _ = say.understand(heron, "3 people 8-16 dry 6C", "Ida")
    heron.do(intent, when=datetime.fromisoformat("2030-05-01T08:00:00+00:00"))
    assert strip_view(heron)["people"] is None

    heron.do(intent)
    assert strip_view(heron)["people"] == 3


def test_a_line_that_waits_to_be_sorted_is_counted(heron: Session) -> None:
    intent, _ = say.understand(heron, "L1 lead-length 9", "Ida")
    heron.do(intent)

    assert strip_view(heron)["inbox"] == 1
