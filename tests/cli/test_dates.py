from __future__ import annotations

import json
from datetime import date, timedelta
from typing import Any

import pytest

from tests.cli.yard import Yard
from tracker.app.views.dates import read_days
from tracker.build import item, log, work


def view(yard: Yard, *words: str) -> dict[str, Any]:
    said = yard.run("dates", "--json", *words)
    assert (said.status, said.err) == (0, "")
    found: dict[str, Any] = json.loads(said.out)
    return found


def test_the_page_gives_each_hold_point_and_the_end_with_their_odds(yard: Yard) -> None:
    out = yard.run("dates", "--crew", "2", "--days", "all", "--hours", "4").out

    assert "2 people, 4 h on mon, tue, wed, thu, fri, sat, sun" in out
    assert "chances in 100:  50" in out
    assert "pre-foam" in out and "all work" in out
    assert "  - pre-foam: the pace of foam " in out and ", mask " in out
    assert "no task with hours is logged as done" in out
    assert "0 orders that came" in out and "50% of the days" in out
    assert max(map(len, out.splitlines())) <= 80


def test_the_dates_rise_with_the_chances_and_stay_the_same_all_day(yard: Yard) -> None:
    found = view(yard)

    hold, end = found["dates"]
    for row in (hold, end):
        assert row["chances_50"] <= row["chances_80"] <= row["chances_95"]
    assert (hold["hold_point"], end["hold_point"]) == ("pre-foam", None)
    assert (hold["tasks"], end["tasks"]) == (1, 2)
    assert (found["trials"], found["days"], found["days_said"]) == (
        2000,
        {"sat": 1.0, "sun": 1.0},
        False,
    )
    assert view(yard) == found


def test_one_alone_takes_longer_over_a_task_for_two_and_it_is_said(yard: Yard) -> None:
    one = view(yard, "--crew", "1", "--hours", "1", "--days", "all")
    two = view(yard, "--crew", "2", "--hours", "1", "--days", "all")

    assert one["dates"][0]["chances_80"] > two["dates"][0]["chances_80"]
    assert one["rests_on"]["more_people_than_there_are"] == ["mask"]
    assert two["rests_on"]["more_people_than_there_are"] == []


def test_a_booked_day_has_its_chance(yard: Yard) -> None:
    today = yard.session.now().date()
    far, past = today + timedelta(days=300), today - timedelta(days=3)
    yard.do(lambda session: [_booked(session, far)])
    assert view(yard)["dates"][0]["booked_chance"] == 100
    assert f"{far}, 100 in 100" in yard.run("dates").out

    yard.do(lambda session: [_booked(session, past)])
    assert view(yard)["dates"][0]["booked_past"] is True
    assert "it has passed" in yard.run("dates").out


def _booked(session: Any, day: date) -> Any:
    return item.change(session.names.find("pre-foam", ("holdpoint",)), {"booked": day.isoformat()})


def test_logged_work_and_days_are_what_it_rests_on(yard: Yard) -> None:
    yard.do(lambda session: [log.day(2, 9.0, 15.0, True, 6.0)])
    yard.do(lambda session: [work.worked(session.names.find("mask", ("task",)), 1.0, 12.0)])

    found = view(yard)

    rests = found["rests_on"]
    assert (found["crew"], found["hours"]) == (2, 6.0)
    assert (rests["logged_tasks"], rests["few"]) == (1, True)
    assert rests["factor"] == pytest.approx(2 ** (1 / 5), abs=0.01)
    assert rests["phases"] == [
        {"phase": "foam", "tasks": 1, "factor": pytest.approx(2 ** (1 / 5 + 4 / 25), abs=0.01)}
    ]
    assert "1 task that" in " ".join(yard.run("dates").out.split())


def test_what_was_done_so_far_is_told_with_money_and_hours_lost(yard: Yard) -> None:
    yard.do(
        lambda session: [
            item.add("receipt", "r1", {"amount": 30.5, "currency": "EUR"}),
            item.add("blocker", "b1", {"kind": "weather", "title": "rain", "lost_h": 4.0}),
            work.worked(session.names.find("mask", ("task",)), 0.5, 4.0),
        ]
    )
    yard.saved("check", "gas-tight", "--good")

    so_far = view(yard)["so_far"]

    (week,) = so_far["weeks"]
    assert (week["crew_hours_logged"], week["crew_hours_done"], week["points_settled"]) == (4, 3, 1)
    assert so_far["crew_hours_likely"] == 9.0
    assert so_far["money"] == [{"phase": None, "paid": {"EUR": 30.5}, "parts_still_to_fit": 0.0}]
    assert so_far["lost_hours"] == [{"kind": "weather", "hours": 4.0, "blockers": 1}]
    out = yard.run("dates").out
    assert "work of 3 of 9 likely crew-hours is done, 4 were logged" in out
    assert "paid: no phase 30.5 EUR" in out and "weather 4 h" in out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--days", "sat,sonday"), "'sonday' is no day of the week"),
        (("--days", ""), "which days?"),
        (("--crew", "0"), "crew of 0"),
        (("--hours", "25"), "25 h is no length of a day"),
        (("--trials", "10"), "10 trials is outside 2000 to"),
    ],
)
def test_what_can_not_be_meant_is_refused(yard: Yard, words: tuple[str, ...], said: str) -> None:
    assert said in yard.refused("dates", *words)


def test_days_are_read_as_people_write_them() -> None:
    assert read_days("sat,sun") == read_days("Sunday Saturday") == [5, 6]
    assert read_days("mon-fri") == [0, 1, 2, 3, 4]
    assert read_days("fri-mon") == [0, 4, 5, 6]
    assert read_days("all") == list(range(7))
