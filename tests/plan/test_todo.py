"""What is still to do before a hold point."""

from __future__ import annotations

from contextlib import suppress
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.build.making import Yard, added, check, ground, hold, run
from tracker.act import Fact
from tracker.build import stock
from tracker.build.work import worked
from tracker.errors import CloseinError
from tracker.plan.todo import Todo, all_closed, booking, next_hold, tasks_before, todo


def _todo(yard: Yard, zone: str = "", slug: str = "foam", **more: Any) -> Todo:
    key = f"zone:{zone}" if zone else ""
    return todo(yard.cover, yard.item(slug), key, yard.now, **more)


def _yard(*facts: Fact) -> Yard:
    return Yard(*ground(), run("L1", "B1"), run("L2", "B4"), check("label"), *facts)


def _close(yard: Yard, zone: str) -> None:
    yard.release(zone)
    yard.close(zone)


def test_points_over_all_zones_are_counted_once_each() -> None:
    yard = _yard(run("L3"), check("dry", each="once"))
    yard.mark("label", "L1")
    yard.mark("label", "L2", "bad")
    yard.mark("dry", "vehicle", "na", why="no rain here")

    plan = _todo(yard)

    assert plan.counts == {"good": 1, "bad": 1, "waived": 0, "na": 1, "open": 1}
    assert [(p.subject.slug, p.state) for p in plan.open_points] == [("L3", "open"), ("L2", "bad")]


def test_a_zone_named_shows_that_zone_alone() -> None:
    plan = _todo(_yard(), "B")

    assert [point.subject.slug for point in plan.points] == ["L2"]
    assert [stand.zone for stand in plan.zones] == ["zone:B"]


def test_zones_that_are_closed_already_are_not_to_do() -> None:
    yard = _yard()
    yard.mark("label", "L1")
    _close(yard, "A")

    plan = _todo(yard)

    assert [stand.zone for stand in plan.zones] == ["zone:B"]
    assert [point.subject.slug for point in plan.points] == ["L2"]
    assert _todo(yard, "A").state == "closed"


def test_a_hold_point_closed_everywhere_still_shows_all_of_it() -> None:
    yard = _yard()
    for zone, slug in (("A", "L1"), ("B", "L2")):
        yard.mark("label", slug)
        _close(yard, zone)
    yard.do(run("L9", "B1"))

    plan = _todo(yard)

    assert (plan.state, plan.passed) == ("closed", True)
    assert all_closed(yard.cover, yard.item("foam"))
    assert [item.slug for item in plan.late] == ["L9"]


def test_a_vehicle_without_zones_is_one() -> None:
    yard = Yard(ground()[0], hold(), run("L1"), check("label"))

    assert [stand.zone for stand in _todo(yard).zones] == [""]


@pytest.mark.parametrize(
    ("in_a", "in_b", "overall"),
    [
        ("not due", "not due", "not due"),
        ("ready", "not due", "open"),
        ("released", "not due", "open"),
        ("ready", "ready", "ready"),
        ("released", "ready", "ready"),
        ("released", "released", "released"),
        ("lapsed", "not due", "lapsed"),
        ("closed", "ready", "ready"),
        ("closed", "closed", "closed"),
        ("reopened", "ready", "reopened"),
    ],
)
def test_the_zone_that_is_furthest_back_speaks_for_all(in_a: str, in_b: str, overall: str) -> None:
    yard = _yard()
    for zone, slug, state in (("A", "L1", in_a), ("B", "L2", in_b)):
        if state != "not due":
            yard.mark("label", slug)
        if state not in ("not due", "ready"):
            yard.release(zone)
        if state in ("closed", "reopened"):
            yard.close(zone)
        if state == "reopened":
            yard.reopen(zone)
        if state == "lapsed":
            yard.mark("label", slug)

    plan = _todo(yard)

    assert plan.state == overall
    assert plan.passed == (overall in ("ready", "released", "closed"))


def test_days_are_counted_to_the_booked_date_and_below_nothing_once_it_has_passed() -> None:
    yard = _yard()
    assert (_todo(yard).booked, _todo(yard).days) == (None, None)

    yard.change("foam", booked="2027-03-17")
    assert (_todo(yard).booked, _todo(yard).days) == ("2027-03-17", 16)

    yard.later(days=20)
    assert _todo(yard).days == -4


def test_a_zones_own_booking_goes_before_that_of_the_hold_point() -> None:
    yard = _yard()
    yard.change("foam", **{"booked": "2027-03-10", "booked@zone:B": "2027-03-24"})
    foam = yard.item("foam")
    assert booking(yard.cover, foam, "zone:A") == "2027-03-10"
    assert booking(yard.cover, foam, "zone:B") == "2027-03-24"
    assert booking(yard.cover, foam, "") == "2027-03-10"

    yard.mark("label", "L1")
    _close(yard, "A")
    assert booking(yard.cover, foam, "") == "2027-03-24"

    yard.mark("label", "L2")
    _close(yard, "B")
    assert booking(yard.cover, foam, "") is None


def test_blockers_that_stop_this_hold_point_come_first_and_cleared_ones_are_gone() -> None:
    yard = _yard(
        added("blocker", "elsewhere", stops=["task:x"]),
        added("blocker", "here", stops=["check:label"]),
        added("blocker", "gone", stops=["holdpoint:foam"], cleared="2027-03-01"),
    )

    assert [item.slug for item in _todo(yard).blockers] == ["here", "elsewhere"]


def test_unknowns_are_those_of_what_this_close_in_buries() -> None:
    yard = _yard(
        added("hole", "H1", bay=["bay:B1"], through="rib"),
        added("hole", "H2", bay=["bay:B4"]),
        added("anchor", "A1"),
    )

    found = [(item.slug, fields) for item, fields in _todo(yard, "A").unknowns]

    assert found[1:] == [("H1", ("diameter_mm",))]
    assert found[0][0] == "L1"


def test_the_vehicles_unstated_profile_is_due_once_while_a_point_that_rests_on_it_is_open() -> None:
    limit = {"max_profile": "gas_loss_pa", "unit": "Pa"}
    yard = _yard(
        check("tight", each="once", limit=limit),
        check("tight-after", limit={**limit, "min_profile": "gas_low_loss_pa"}),
    )
    unknowns = _todo(yard, "A").unknowns

    assert [fields for item, fields in unknowns if item.slug == "vehicle"] == [
        ("gas_loss_pa", "gas_low_loss_pa")
    ]
    yard.change("vehicle", gas_loss_pa=690.0)
    assert _todo(yard, "A").unknowns[0][1] == ("gas_low_loss_pa",)
    yard.mark("tight-after", "L1", "na", why="one test only here")
    assert "vehicle" not in [item.slug for item, _ in _todo(yard, "A").unknowns]


def test_fields_in_conflict_are_named() -> None:
    yard = _yard()
    for value in ("lamp", "fan"):
        yard.do({"f": "item.set", "id": "run:L1", "set": {"to": value}})

    assert [(item.slug, field) for item, field in _todo(yard).conflicts] == [("L1", "to")]


def test_shortages_reservations_and_the_reasons_of_a_lapse_are_there() -> None:
    yard = _yard(added("part", "glands", needed=2.0))
    yard.do(stock.count(yard.build, yard.item("glands"), "rack", level="out"))
    yard.mark("label", "L1")
    yard.release("A")
    yard.do(run("L9", "B1"))

    plan = _todo(yard, reservations=["acts are missing"])

    assert [row.part.slug for row in plan.shortages] == ["glands"]
    assert plan.reservations == ("acts are missing",)
    assert plan.reasons == ("label on L9 is new and open", "reservation: acts are missing")


TASKS = (
    added("phase", "wiring", order=6),
    added("task", "pull", phase="phase:wiring", crew=2, hours={"likely": [2.0, 0.4]}),
    added("task", "clip", phase="phase:wiring", hours={"likely": [1.0, 0.0]}),
    added("task", "mask", phase="phase:insulation", hours={"likely": [1.0, 0.2]}),
    added("task", "wipe", phase="phase:insulation", hours={"likely": [0.5, 0.0]}),
    added(
        "task", "spray", phase="phase:insulation", needs=["task:mask"], hours={"likely": [9.0, 0.0]}
    ),
    added("task", "trim", phase="phase:insulation", needs=["task:spray"]),
)


def _tasks() -> Yard:
    yard = _yard(*TASKS)
    yard.change("mask", needs=["task:wipe"])
    yard.change("foam", closed_by="task:spray")
    return yard


def test_tasks_before_a_hold_point_are_those_of_earlier_phases_and_what_its_closing_needs() -> None:
    yard = _tasks()

    found = {task.slug for task in tasks_before(yard.cover, yard.item("foam"))}

    assert found == {"pull", "clip", "mask", "wipe"}


def test_needs_that_run_in_a_circle_or_to_what_is_not_here_are_followed_once() -> None:
    yard = _tasks()
    yard.change("wipe", needs=["task:mask", "task:gone"])

    assert len(tasks_before(yard.cover, yard.item("foam"))) == 4


def test_hours_left_grow_with_the_body_and_shrink_with_what_is_done() -> None:
    yard = _tasks()
    whole = (2.0 + 0.4 * 7.5) * 2 + 1.0 + (1.0 + 0.2 * 7.5) + 0.5
    assert _todo(yard).hours_left == whole

    yard.do(worked(yard.item("pull"), 0.5), worked(yard.item("clip"), 1.0))
    assert _todo(yard).hours_left == whole - 5.0 - 1.0

    yard.change("vehicle", length_m=None)
    assert _todo(yard).hours_left == 2.0 + 1.0 + 0.5


def test_the_next_hold_point_is_the_first_booked_one_else_the_first_not_closed() -> None:
    yard = Yard(
        *ground(),
        added("phase", "lining", order=9),
        hold("lined", phase="phase:lining", buries=[]),
        check("flat", each="once", before="holdpoint:lined"),
        check("label"),
        run("L1"),
    )

    def following() -> str | None:
        found = next_hold(yard.cover)
        return found.slug if found else None

    assert following() == "foam"
    yard.change("lined", booked="2027-04-01")
    assert following() == "lined"
    yard.change("foam", **{"booked@zone:B": "2027-03-20"})
    assert following() == "foam"
    yard.mark("label", "L1")
    for zone in ("A", "B"):
        _close(yard, zone)
    assert following() == "lined"


def test_when_all_are_closed_the_last_one_is_meant_and_without_any_none() -> None:
    yard = _yard()
    for zone, slug in (("A", "L1"), ("B", "L2")):
        yard.mark("label", slug)
        _close(yard, zone)

    found = next_hold(yard.cover)

    assert found is not None and found.slug == "foam"
    assert next_hold(Yard(run("L1")).cover) is None


LIMIT = {"min": 1.0, "sign_min": 0.5, "unit": "m"}
bays = st.sampled_from([None, "B1", "B2", "B3", "B4"])
eaches = st.sampled_from(["run", "once", "zone", "bay", "hole"])
classes = st.sampled_from(["hold", "surveillance"])


@st.composite
def builds(draw: st.DrawFn) -> Yard:
    """A build at some moment: runs and checks anywhere, answered, changed, signed, closed."""
    yard = Yard(*ground())
    for number in range(draw(st.integers(0, 4))):
        yard.do(run(f"L{number}", draw(bays), load_a=float(number)))
    for number in range(draw(st.integers(0, 4))):
        limit = {"limit": LIMIT} if draw(st.booleans()) else {}
        lapse = draw(st.sampled_from([{}, {"lapse": "weather"}, {"lapse": "walk"}]))
        more = {"watches": ["load_a"], "class": draw(classes), **limit, **lapse}
        yard.do(check(f"c{number}", draw(eaches), **more))
    for _ in range(draw(st.integers(0, 12))):
        with suppress(CloseinError):
            _happens(draw, yard)
    return yard


def _happens(draw: st.DrawFn, yard: Yard) -> None:
    step = draw(st.sampled_from(["mark", "mark", "mark", "set", "rain", "time", "hold", "remove"]))
    points = yard.cover.points(yard.item("foam"))
    runs = [item for item in yard.cover.by_kind.get("run", [])]
    if step == "mark" and points:
        asked, subject = draw(st.sampled_from(points))
        result = draw(st.sampled_from(["good", "bad", "measured", "waived", "na", "reopened"]))
        value = draw(st.sampled_from([0.2, 0.7, 1.5])) if result == "measured" else None
        facts = yard.marked(asked.slug, subject.slug, result, value=value, why="so", second="Ola")
        yard.do(*facts, *facts[: draw(st.integers(0, 1))])
    elif step == "set" and runs:
        yard.change(draw(st.sampled_from(runs)).slug, load_a=draw(st.floats(0, 9)))
    elif step == "remove" and runs:
        yard.remove(draw(st.sampled_from(runs)).slug)
    elif step == "rain":
        yard.weather(rain=True)
    elif step == "time":
        yard.later(hours=draw(st.integers(1, 60)))
    elif step == "hold":
        move = draw(st.sampled_from(["release", "close", "withdraw", "reopen"]))
        getattr(yard, move)(draw(st.sampled_from(["A", "B"])))


@given(builds())
@settings(max_examples=150)
def test_in_any_build_the_counts_add_up_and_what_is_listed_is_what_is_open_or_bad(
    yard: Yard,
) -> None:
    for zone in ("", "A", "B"):
        plan = _todo(yard, zone)

        assert sum(plan.counts.values()) == len(plan.points)
        assert len(plan.open_points) == plan.counts["open"] + plan.counts["bad"]
        assert len({(p.check.id, p.subject.id) for p in plan.points}) == len(plan.points)
        if plan.state in ("ready", "released"):
            assert all(point.settled for point in plan.points if point.binds)


@given(builds())
@settings(max_examples=100)
def test_in_any_build_the_zones_together_cover_what_the_whole_vehicle_does(yard: Yard) -> None:
    foam = yard.item("foam")
    whole = set(yard.cover.keys(foam))

    assert set(yard.cover.keys(foam, "zone:A")) | set(yard.cover.keys(foam, "zone:B")) == whole
