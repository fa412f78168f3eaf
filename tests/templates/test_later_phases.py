"""What the four last phases must say, from the cabinets to the papers."""

from __future__ import annotations

from graphlib import TopologicalSorter

import pytest

from tracker.templates.load import read, shipped
from tracker.templates.phase import Check, Phase, Task

LATER = ("cabinetry", "finish-electrical", "finish-plumbing-gas", "commissioning")
PHASES: dict[str, Phase] = {name: read(name) for name in LATER}
CHECKS: dict[str, Check] = {c.key: c for phase in PHASES.values() for c in phase.checks}
EVERY: dict[str, Task] = {
    f"task:{name}/{task.key}": task for name in shipped() for task in read(name).tasks
}
TASKS: dict[str, Task] = {
    key: task for key, task in EVERY.items() if key.removeprefix("task:").split("/")[0] in LATER
}
ROWS = {"P10": 9, "P11": 13, "P12": 10, "P13": 11}
HELD = {"P10-1", "P11-1", "P11-4", "P12-1", "P12-4", "P13-1", "P13-4", "P13-6"}
RECORDS = {"P11-13", "P13-11"}

POWER, GAS, ROAD = (
    "hold:finish-electrical/power-up",
    "hold:finish-plumbing-gas/gas",
    "hold:commissioning/weigh-in",
)


def earlier(task: str) -> set[str]:
    """Every task that comes before this one, as far as there are templates."""
    found: set[str] = set()
    todo = [task]
    while todo:
        known = EVERY.get(todo.pop())
        new = set(known.needs if known else ()) - found
        found |= new
        todo += new
    return found


def test_every_row_of_the_four_phases_is_carried_by_a_check_of_them() -> None:
    named = {row for check in CHECKS.values() for row in check.trade}
    wanted = [f"{prefix}-{n}" for prefix, last in ROWS.items() for n in range(1, last + 1)]
    assert [row for row in wanted if row not in named] == []


def test_rows_that_hold_are_hold_checks_and_records_are_reviewed() -> None:
    by_row: dict[str, set[str]] = {}
    for check in CHECKS.values():
        for row in check.trade:
            by_row.setdefault(row, set()).add(check.class_)
    assert [row for row in sorted(HELD) if "hold" not in by_row[row]] == []
    assert [row for row in sorted(RECORDS) if "review" not in by_row[row]] == []


def test_each_phase_has_its_place_and_a_dozen_tasks_or_so() -> None:
    assert [PHASES[name].order for name in LATER] == [10, 11, 12, 13]
    for phase in PHASES.values():
        assert 9 <= len(phase.tasks) <= 13, phase.name
        assert phase.after, phase.name


def test_the_hold_points_are_closed_by_power_flame_and_hand_over() -> None:
    holds = {
        f"hold:{phase.name}/{hold.key}": (hold.gates, hold.closed_by)
        for phase in PHASES.values()
        for hold in phase.holdpoints
    }
    assert holds == {
        POWER: ("phase:finish-electrical", "task:finish-electrical/first-power"),
        GAS: ("phase:finish-plumbing-gas", "task:finish-plumbing-gas/first-flame"),
        ROAD: ("phase:commissioning", "task:commissioning/hand-over"),
    }
    assert {check.before for check in CHECKS.values()} == set(holds)


def test_gas_tightness_and_exits_can_never_be_waived_and_nothing_else_of_these() -> None:
    never = {key for key, check in CHECKS.items() if not check.waive}
    gas = {"appliances-tight", "regulator-drop", "joints-soaped", "gas-after-road"}
    gas |= {"service-gauge", "service-hours"}
    exits = {"furnished-path", "furnished-exit-short", "furnished-exit-long", "exit-drilled"}
    assert never == gas | exits
    assert {CHECKS[key].class_ for key in never} == {"hold"}
    assert {CHECKS[key].how for key in gas} == {"air"}


def test_the_tasks_of_all_templates_can_be_put_in_an_order() -> None:
    order = list(TopologicalSorter({key: task.needs for key, task in EVERY.items()}).static_order())
    at = {task: place for place, task in enumerate(order)}
    for key, task in EVERY.items():
        assert all(at[need] < at[key] for need in task.needs), key


def test_needs_name_tasks_of_templates_that_there_are() -> None:
    named = {need for task in TASKS.values() for need in task.needs}
    known = {need for need in named if need.removeprefix("task:").split("/")[0] in shipped()}
    assert known - set(EVERY) == set()


@pytest.mark.parametrize(
    ("first", "then"),
    [
        ("cabinetry/weigh-closed-in", "cabinetry/fix-units"),
        ("cabinetry/finish-cabinets", "finish-electrical/mount-board"),
        ("finish-electrical/torque-round", "finish-electrical/first-power"),
        ("finish-electrical/box-batteries", "finish-electrical/torque-round"),
        ("finish-electrical/first-power", "finish-plumbing-gas/fill-bleed"),
        ("finish-plumbing-gas/prove-gas", "finish-plumbing-gas/first-flame"),
        ("finish-plumbing-gas/first-flame", "commissioning/shakedown"),
        ("commissioning/drill-exits", "commissioning/shakedown"),
        ("commissioning/shakedown", "finish-plumbing-gas/tighten-after-drive"),
        ("finish-plumbing-gas/tighten-after-drive", "commissioning/weigh-wet"),
        ("commissioning/weigh-wet", "commissioning/inspect-chassis"),
        ("commissioning/register", "commissioning/hand-over"),
        ("commissioning/insure", "commissioning/hand-over"),
    ],
)
def test_what_must_come_first_comes_first(first: str, then: str) -> None:
    assert f"task:{first}" in earlier(f"task:{then}")


def test_the_last_task_waits_for_every_other_of_the_four_phases() -> None:
    last = "task:commissioning/hand-over"
    assert set(TASKS) - earlier(last) == {last}


def test_limits_are_no_laxer_than_their_sources_in_inches() -> None:
    inch = 25.4
    limit = {key: check.limit or {} for key, check in CHECKS.items()}
    assert limit["furnished-path"]["min"] >= 13 * inch
    assert limit["regulator-drop"] == {"max": 0.0, "unit": "Pa"}
    for key in ("gross-within", "axle-within", "corner-within"):
        assert limit[key] == {"max": 100.0, "unit": "%"}
    assert limit["drop-in-service"] == {"max_field": "drop_max_pct", "unit": "%"}
    assert limit["drop-in-service-critical"]["max"] == 3.0
    assert limit["furnished-clearance"] == {"min_field": "clearance_mm", "unit": "mm"}


def test_limits_that_no_source_read_gives_are_marked_as_memory() -> None:
    from_memory = {
        "sides-reckoned",
        "hottest-joint",
        "levels-true",
        "sides-scaled",
    }
    assert {key for key, check in CHECKS.items() if check.limit and check.memory} == from_memory


def test_what_the_trade_learned_about_lithium_and_alternators_is_held_before_power() -> None:
    for key in ("fuse-breaks-bank", "alternator-spared", "cold-charge-stops", "packs-equal"):
        assert (CHECKS[key].class_, CHECKS[key].before) == ("hold", POWER), key
    assert "interrupt rating" in CHECKS["fuse-breaks-bank"].text


def test_smoke_and_monoxide_alarms_are_heard_before_flame_and_again_before_the_road() -> None:
    assert (CHECKS["alarms-awake"].class_, CHECKS["alarms-awake"].before) == ("hold", GAS)
    for key in ("smoke-heard", "monoxide-heard", "monoxide-read"):
        assert (CHECKS[key].class_, CHECKS[key].before) == ("hold", ROAD), key


def test_a_vehicle_without_gas_is_asked_nothing_that_only_gas_can_answer() -> None:
    for row in ("P12-1", "P12-2", "P12-3"):
        for check in CHECKS.values():
            if row in check.trade:
                assert check.vehicle == {"gas": True}, check.key
    for key in ("join-gas", "prove-gas"):
        assert TASKS[f"task:finish-plumbing-gas/{key}"].vehicle == {"gas": True}
    assert any(c.before == GAS and c.vehicle is None for c in CHECKS.values())


def test_a_trailer_is_asked_neither_for_an_alternator_nor_for_travel_seats() -> None:
    asked = (
        CHECKS["alternator-spared"].vehicle,
        CHECKS["seats-certified"].vehicle,
        TASKS["task:finish-electrical/lead-alternator"].vehicle,
    )
    for vehicle in asked:
        assert vehicle is not None and vehicle["engine"] is True
        assert "trailer" not in vehicle["body"]


def test_mains_and_gas_are_work_for_people_who_may() -> None:
    assert TASKS["task:finish-electrical/wire-mains"].skills == ("licensed electrician",)
    for key in ("join-gas", "prove-gas", "first-flame"):
        assert TASKS[f"task:finish-plumbing-gas/{key}"].skills == ("gas",)
    for phase in PHASES.values():
        for hold in phase.holdpoints:
            assert hold.text_caution, hold.key
    for check in CHECKS.values():
        if check.where == {"system": "ac"}:
            assert check.each == "run" and "P11-12" in check.trade, check.key
    assert CHECKS["mains-by-licensed"].caution


def test_the_owners_other_duties_are_reviewed_by_what_is_on_paper() -> None:
    for key in (
        "features-listed",
        "features-pictured",
        "steps-in-order",
        "changes-declared",
        "licence-covers",
        "insurer-answers",
        "cover-unbroken",
        "certificates-filed",
        "receipts-sorted",
        "four-slips",
        "loans-returned",
        "decisions-closed",
    ):
        check = CHECKS[key]
        assert (check.class_, check.each, check.before) == ("review", "once", ROAD), key
        assert check.how in ("document", "photo"), key


BANDS = {
    "cabinetry": ((53, 126), (113, 330)),
    "finish-electrical": ((23, 53), (52, 134)),
    "finish-plumbing-gas": ((16, 28), (29, 62)),
    "commissioning": ((15, 30), (28, 69)),
}
"""Crew-hours of a short and a long vehicle, lowest and highest, as the trade bands them; the tasks
that these templates add to them (weighing, load run, inspection) make up to a third more."""


@pytest.mark.parametrize("name", LATER)
def test_crew_hours_stay_near_the_bands_of_the_trade(name: str) -> None:
    for length_m, (low, high) in zip((4.5, 10.0), BANDS[name], strict=True):
        total = {
            band: sum(
                task.crew * (task.hours[band][0] + task.hours[band][1] * length_m)
                for task in PHASES[name].tasks
            )
            for band in ("low", "likely", "high")
        }
        assert low <= total["low"] <= 1.25 * low
        assert low < total["likely"] < high
        assert 0.95 * high <= total["high"] <= 1.4 * high
