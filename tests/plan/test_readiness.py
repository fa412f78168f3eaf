"""Whether each task could begin, or why not."""

from __future__ import annotations

import pytest

from tests.plan.workshop import added, check, count, ready, reasons, run, shop, takes, task
from tracker.build import stock
from tracker.build.names import Names
from tracker.build.work import worked
from tracker.plan.causes import causes
from tracker.plan.saying import Saying


def test_a_task_waits_for_what_comes_first_and_not_for_what_this_build_has_not() -> None:
    yard = shop(task("drill"), task("pull", "drill plumbing-of-another-phase"))

    assert reasons(ready(yard), "pull") == [("task", "task:drill")]
    yard.do(worked(yard.item("drill"), 1.0))
    assert ready(yard).tasks["task:pull"].ready


def test_a_cure_runs_in_elapsed_hours() -> None:
    yard = shop(task("seal", cure_h=24.0), task("hose", "seal"))
    yard.do(worked(yard.item("seal"), 1.0))

    yard.later(hours=23)
    (reason,) = ready(yard).tasks["task:hose"].reasons
    assert (reason.kind, reason.until) == ("cure", "2027-03-02T08:02+00:00")
    yard.later(hours=1)
    assert ready(yard).tasks["task:hose"].ready


@pytest.mark.parametrize(
    ("fields", "facts", "kind"),
    [
        ({"dry": True}, {"dry": False}, "dry"),
        ({"min_c": 10.0}, {"air_c": 9.9}, "cold"),
        ({"daylight": True}, {"daylight": False}, "dark"),
        ({"power": True}, {"power": False}, "power"),
        ({"tools": ["saw"]}, {"no_tools": ("saw",)}, "tool"),
        ({"crew": 3}, {}, "people"),
    ],
)
def test_the_day_can_stand_in_the_way(
    fields: dict[str, object], facts: dict[str, object], kind: str
) -> None:
    yard = shop(task("mask", **fields), task("draw"))

    found = ready(yard, **facts)

    assert [reason.kind for reason in found.tasks["task:mask"].reasons] == [kind]
    assert found.tasks["task:draw"].ready


def test_what_nobody_said_is_not_guessed_but_said() -> None:
    yard = shop(task("mask", dry=True, min_c=10.0))

    assert ready(yard).tasks["task:mask"].only_if == ("dry", "cold")
    assert ready(yard, dry=True, air_c=10.0).tasks["task:mask"].only_if == ()


def test_somebody_who_may_do_it_must_be_there() -> None:
    yard = shop(
        task("test", skills=["meter"]),
        added("person", "Ida", may=["meter"]),
        added("person", "Ola", may=[]),
    )

    assert ready(yard).tasks["task:test"].ready
    assert reasons(ready(yard, absent=frozenset({"person:Ida"})), "test") == [("skill", "meter")]


def test_a_hold_point_holds_what_buries_until_it_is_released() -> None:
    yard = shop(task("spray", phase="phase:insulation", buries=["run"]), check("label"), run("L1"))
    assert reasons(ready(yard), "spray") == [("hold", "holdpoint:foam")]

    yard.mark("label", "L1")
    for zone in ("A", "B"):
        yard.release(zone)
    assert ready(yard).tasks["task:spray"].ready


def test_a_blocker_about_a_part_leaves_what_takes_other_parts() -> None:
    wires = [added("part", f"w{g}", unit="m", gauge=f"{g}mm2", cores=2) for g in (4, 6)]
    runs = [run("L1", length_m=3.0, gauge="4mm2"), run("L2", length_m=3.0, gauge="6mm2")]
    stuck = added("blocker", "no-six", part=["part:w6"], stops=["task:run-drops"], owes="post")
    yard = shop(task("run-drops"), *wires, *runs, stuck)
    count(yard, "w4", lengths=[9.0])
    count(yard, "w6", lengths=[1.0])

    stand = ready(yard).tasks["task:run-drops"]

    assert (stand.subjects, stand.part) == (("run:L1",), 0.5)
    said = Saying(yard.build, Names(yard.build)).stand(stand)
    assert said == "run-drops can be done in part: L1. Not all: no-six (no-six), next step: post."


def test_a_blocker_about_anything_else_stops_all_of_it() -> None:
    yard = shop(
        task("run-drops", parts=[takes("bag", 1.0, "run")]),
        added("part", "bag"),
        run("L1"),
        added("blocker", "letter", stops=["task:run-drops"]),
    )

    stand = ready(yard).tasks["task:run-drops"]

    assert not stand.partly and [reason.kind for reason in stand.reasons] == ["blocked"]


def test_a_part_that_lies_out_of_reach_is_short_and_it_is_said_where() -> None:
    yard = shop(added("part", "bag"), task("mask", parts=[takes("bag", 5.0)]))
    count(yard, "bag", "bin", number=1.0)
    count(yard, "bag", "Ola's home", number=9.0)
    assert ready(yard).tasks["task:mask"].ready

    found = ready(yard, unreached=frozenset({"Ola's home"}))

    said = Saying(yard.build, Names(yard.build)).stand(found.tasks["task:mask"])
    assert said == (
        "mask can be done in part: about 20 in 100 of it. "
        "Not all: 1 of 5 of bag here, 9 at Ola's home."
    )


def test_an_order_that_should_have_come_is_said_to_be_late() -> None:
    yard = shop(added("part", "bag"), task("mask", parts=[takes("bag", 5.0)]))
    yard.do(stock.order(yard.item("bag"), 5.0, "2027-03-01"))
    lacking = ready(yard).tasks["task:mask"].reasons[0]

    assert "late" not in Saying(yard.build, Names(yard.build), "2027-03-01").reason(lacking)
    assert "late" in Saying(yard.build, Names(yard.build), "2027-03-02").reason(lacking)


def test_causes_rank_by_all_the_work_that_waits_behind_them() -> None:
    yard = shop(
        added("part", "bag"),
        added("part", "pin"),
        task("small", parts=[takes("bag", 1.0)]),
        task("great", "small", likely=9.0),
        task("middle", likely=5.0, parts=[takes("pin", 1.0)]),
    )
    for part in ("bag", "pin"):
        count(yard, part, level="out")
    found = causes(ready(yard), yard.item("foam"))

    assert [(row.reason.what, row.crew_hours) for row in found] == [
        ("part:bag", 10.0),
        ("part:pin", 5.0),
    ]
    assert found[0].tasks == ("task:small",)
    assert found[0].after == 1


def test_tasks_in_a_circle_are_never_ready_and_hang_nothing() -> None:
    yard = shop(task("hen", "egg"), task("egg", "hen"))

    assert reasons(ready(yard), "hen") == [("task", "task:egg")]


def test_a_closed_wall_leaves_no_task_behind_it() -> None:
    yard = shop(task("clip"), task("spray", "clip"), check("label"), run("L1"))
    yard.change("foam", closed_by="task:spray")
    yard.mark("label", "L1")
    for zone in ("A", "B"):
        yard.release(zone)
        yard.close(zone)

    assert reasons(ready(yard), "clip") == [("closed", "holdpoint:foam")]


def test_an_open_answer_that_takes_two_waits_for_a_second_person() -> None:
    yard = shop(check("label"), check("read", how="second person"), run("L1"))

    alone = {
        row.point.check.slug: row.reasons for row in ready(yard, 8.0).points(yard.item("foam"))
    }

    assert not alone["label"]
    assert [reason.kind for reason in alone["read"]] == ["people"]
