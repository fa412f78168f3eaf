"""What voids a release: only what changed since it was signed, in words."""

from __future__ import annotations

from datetime import timedelta, timezone
from typing import Any

import pytest

from tests.build.making import Yard, act, added, check, ground, run
from tracker.build import item
from tracker.build.lapse import bad_weather


def _yard() -> Yard:
    """Two runs in zone A, one in B, all answered; A is not released yet."""
    yard = Yard(
        *ground(),
        run("L1", "B1", to="lamp"),
        run("L2", "B2"),
        run("L3", "B3"),
        check("label", watches=["to"]),
        check("dry", each="once", lapse="weather"),
        check("walk", each="zone", lapse="walk"),
        check("swept", each="bay", how="photo", **{"class": "surveillance"}),
    )
    for slug in ("L1", "L2", "L3"):
        yard.mark("label", slug)
    yard.mark("dry", "vehicle")
    for zone in ("A", "B"):
        yard.mark("walk", zone)
    return yard


def _released() -> Yard:
    yard = _yard()
    yard.release("A")
    assert yard.stand("A").state == "released"
    return yard


def _lapsed(yard: Yard, zone: str = "A") -> tuple[str, ...]:
    stand = yard.stand(zone)
    assert stand.state == ("lapsed" if stand.reasons else "released")
    return stand.reasons


def test_a_release_holds_while_nothing_changes() -> None:
    assert _lapsed(_released()) == ()


def test_a_new_run_voids_it_by_its_own_checks_alone() -> None:
    yard = _released()
    yard.do(run("L9", "B1"))
    assert _lapsed(yard) == ("label on L9 is new and open",)

    yard.mark("label", "L9")
    assert _lapsed(yard) == ("label on L9 is new and good",)

    yard.release("A")
    assert _lapsed(yard) == ()


def test_a_new_run_in_another_zone_changes_nothing_here() -> None:
    yard = _released()
    yard.do(run("L9", "B4"))

    assert _lapsed(yard) == ()


def test_a_new_run_that_nobody_has_placed_voids_every_zone() -> None:
    yard = _released()
    yard.release("B")
    yard.do(run("L9"))

    assert _lapsed(yard, "A") == _lapsed(yard, "B") == ("label on L9 is new and open",)


@pytest.mark.parametrize(
    ("readings", "why"),
    [
        ({"rain": True}, "rain recorded 2027-03-01 08:09"),
        ({"surface_c": 9.5}, "surface 9.5 C on 2027-03-01 08:09, below 10 C"),
        ({"margin_k": 2.5}, "only 2.5 K over the dew point on 2027-03-01 08:09"),
    ],
)
def test_rain_and_cold_void_the_weather_lines_and_nothing_else(
    readings: dict[str, Any], why: str
) -> None:
    yard = _released()
    yard.weather(**readings)
    assert _lapsed(yard) == (f"dry on vehicle is out of date: {why}",)

    yard.mark("dry", "vehicle")
    assert _lapsed(yard) == ("dry on vehicle was answered again, good",)

    yard.release("A")
    assert _lapsed(yard) == ()


@pytest.mark.parametrize(
    "readings",
    [{"rain": False}, {"surface_c": 10.0}, {"margin_k": 3.0}, {"air_c": -5.0, "humidity_pct": 90}],
)
def test_weather_within_the_limits_voids_nothing(readings: dict[str, Any]) -> None:
    yard = _released()
    yard.weather(**readings)

    assert _lapsed(yard) == ()


def test_weather_in_another_zone_voids_nothing_here() -> None:
    yard = _released()
    yard.weather("zone:B", surface_c=2.0)

    assert _lapsed(yard) == ()
    assert bad_weather(yard.build, yard.item("foam"), "zone:B") is not None
    assert bad_weather(yard.build, yard.item("foam"), "") is not None


def test_good_weather_afterwards_does_not_mend_what_the_rain_voided() -> None:
    yard = _released()
    yard.weather(rain=True)
    yard.weather(rain=False, surface_c=20.0)

    assert len(_lapsed(yard)) == 1


def test_rain_before_the_answer_was_found_voids_nothing_though_it_is_typed_later() -> None:
    yard = _yard()
    yard.do({"f": "condition.logged", "rain": True}, when="2027-02-20T08:00:00+00:00")
    yard.release("A")

    assert _lapsed(yard) == ()


def test_of_an_answer_and_rain_in_the_same_second_the_later_act_counts() -> None:
    yard = _released()
    answered = yard.mark("dry", "vehicle")
    yard.do({"f": "condition.logged", "rain": True}, when=answered.at)
    dry = next(point for point in yard.stand("A").points if point.check.slug == "dry")

    assert dry.state == "stale"


def test_the_end_of_its_time_voids_the_walk_lines_and_nothing_else() -> None:
    yard = _released()
    yard.later(hours=47, minutes=59)
    assert _lapsed(yard) == ()

    yard.later(hours=1)
    assert _lapsed(yard) == (
        "it ran out at 2027-03-03 08:08",
        "walk on A is out of date: the release ran out at 2027-03-03 08:08",
    )

    yard.mark("walk", "A")
    yard.release("A")
    assert _lapsed(yard) == ()


def test_signing_a_difference_does_not_make_an_old_walk_new() -> None:
    yard = _released()
    yard.later(hours=40)
    yard.do(run("L9", "B1"))
    yard.mark("label", "L9")
    yard.release("A")
    assert _lapsed(yard) == ()

    yard.later(hours=9)

    assert _lapsed(yard) == ("walk on A is out of date: the release ran out at 2027-03-03 08:08",)


def test_a_hold_point_without_an_end_never_runs_out() -> None:
    yard = _released()
    yard.change("foam", valid_h=None)
    yard.later(days=400)

    assert _lapsed(yard) == ()


def test_a_watched_field_that_changes_voids_it_and_setting_it_back_mends_it() -> None:
    yard = _released()
    yard.change("L1", to="fan")
    assert _lapsed(yard) == ("label on L1 is out of date: to was lamp, now fan",)

    yard.change("L1", to="lamp")
    assert _lapsed(yard) == ()


def test_a_removed_subject_is_said_with_its_reason() -> None:
    yard = _released()
    yard.remove("L2", "no lamp here")
    assert _lapsed(yard) == ("label on L2 is no longer covered: no lamp here",)

    yard.release("A")
    assert _lapsed(yard) == ()


def test_a_subject_moved_to_another_zone_is_no_longer_covered_here() -> None:
    yard = _released()
    yard.do(item.change(yard.item("L2"), {"bay": ["bay:B4"]}))

    assert _lapsed(yard) == ("label on L2 is no longer covered",)


@pytest.mark.parametrize(
    ("result", "more", "words"),
    [
        ("bad", {}, "label on L1 is bad"),
        ("good", {}, "label on L1 was answered again, good"),
        ("waived", {"why": "no room", "second": "Ola"}, "label on L1 was answered again, waived"),
        ("reopened", {"why": "ink ran"}, "label on L1 is open again: reopened: ink ran"),
    ],
)
def test_an_answer_given_again_voids_it(result: str, more: dict[str, Any], words: str) -> None:
    yard = _released()
    yard.mark("label", "L1", result, **more)

    assert _lapsed(yard) == (words,)


def test_an_answer_that_was_undone_voids_it() -> None:
    yard = _yard()
    answered = yard.mark("label", "L1")
    yard.release("A")
    yard.do({"f": "undo", "acts": [answered.id]})
    assert _lapsed(yard) == ("label on L1 was answered again, good",)  # the answer before it

    first = next(each for each in yard.build.acts if each.facts[0].get("subject") == "run:L1")
    yard.do({"f": "undo", "acts": [first.id]})
    assert _lapsed(yard) == ("label on L1 is open again",)


def test_two_answers_given_apart_void_it() -> None:
    yard = _released()
    facts = yard.marked("label", "L1"), yard.marked("label", "L1", "bad", by="Ola")
    for fact in facts:
        yard.do(*fact)

    assert _lapsed(yard) == ("label on L1 is in conflict: good by Ida against bad by Ola",)


def test_what_was_open_when_it_was_signed_may_stay_open_or_be_settled() -> None:
    yard = _released()
    assert [point.state for point in yard.stand("A").points if not point.binds] == ["open"] * 2

    yard.mark("swept", "B1")
    assert _lapsed(yard) == ()

    yard.mark("swept", "B1", "bad")
    assert _lapsed(yard) == ("swept on B1 is bad",)


def test_what_was_bad_when_it_was_signed_voids_nothing_until_it_is_found_bad_again() -> None:
    yard = _yard()
    yard.mark("swept", "B1", "bad")
    yard.release("A")
    assert _lapsed(yard) == ()

    yard.mark("swept", "B1", "bad")
    assert _lapsed(yard) == ("swept on B1 is bad",)

    yard.mark("swept", "B1")
    assert _lapsed(yard) == ()


def test_a_blocker_and_a_reservation_stand_against_it() -> None:
    yard = _released()
    yard.do(added("blocker", "stuck1", stops=["holdpoint:foam"], title="no crew"))
    stand = yard.stand("A", reservations=["a line is missing"])

    assert stand.reasons == (
        "stuck1 stands in the way: no crew",
        "reservation: a line is missing",
    )

    yard.change("stuck1", cleared="2027-03-02")
    assert _lapsed(yard) == ()


def test_a_basis_that_names_what_is_not_here_voids_it_and_raises_nothing() -> None:
    yard = _yard()
    basis = {act(99).id: [0], yard.build.acts[0].id: [0, 999, -1]}
    yard.do(
        {"f": "hold.released", "hold": "holdpoint:foam", "zone": "zone:A", "basis": basis},
    )

    assert set(_lapsed(yard)) == {
        "label on L1 is new and good",
        "label on L2 is new and good",
        "dry on vehicle is new and good",
        "walk on A is new and good",
        "swept on B1 is new and open",
        "swept on B2 is new and open",
    }


def test_nothing_that_comes_after_a_close_in_puts_its_answers_out_of_date() -> None:
    yard = _released()
    yard.close("A")
    yard.weather(rain=True)
    yard.later(days=30)

    stand = yard.stand("A")

    assert stand.state == "closed"
    assert {point.state for point in stand.points if point.binds} == {"good"}


def test_what_was_void_at_the_close_in_stays_so() -> None:
    yard = _released()
    yard.weather(rain=True)
    yard.close("A", why="the crew could not wait")

    dry = next(point for point in yard.stand("A").points if point.check.slug == "dry")

    assert dry.state == "stale"


def test_a_reopened_zone_meets_the_weather_again() -> None:
    yard = _released()
    yard.close("A")
    yard.weather(rain=True)
    yard.reopen("A")

    dry = next(point for point in yard.stand("A").points if point.check.slug == "dry")

    assert dry.state == "stale"


def test_time_goes_by_the_moment_and_not_the_written_hour() -> None:
    yard = _released()
    end = yard.now + timedelta(hours=48)
    yard.now = end.astimezone(timezone(timedelta(hours=5))) + timedelta(seconds=1)

    assert _lapsed(yard)[0].startswith("it ran out")
