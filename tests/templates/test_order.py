"""The order of the work over all shipped templates: hold points, needs, hours."""

from __future__ import annotations

import pytest

from tracker.templates.load import read, shipped
from tracker.templates.phase import Task
from tracker.templates.shape import PHASES as PHASE_NAMES

PHASES = [read(name) for name in shipped()]
TASKS: dict[str, Task] = {
    f"task:{phase.name}/{task.key}": task for phase in PHASES for task in phase.tasks
}
HOLDS = {f"hold:{phase.name}/{hold.key}": hold for phase in PHASES for hold in phase.holdpoints}
CHECKS = [check for phase in PHASES for check in phase.checks]


def test_the_hold_points_gate_and_are_closed_as_the_work_runs() -> None:
    assert {key: (hold.gates, hold.closed_by) for key, hold in HOLDS.items()} == {
        "hold:shell/rust-closed": ("phase:subfloor", "task:subfloor/bed-board"),
        "hold:framing/layout-frozen": ("phase:rough-in-wiring", "task:rough-in-wiring/drill-holes"),
        "hold:deck/roof-tight": ("phase:insulation", "task:insulation/spray"),
        "hold:rough-in-plumbing-gas/pressure-tests": (
            "phase:insulation",
            "task:insulation/spray",
        ),
        "hold:insulation/pre-foam": ("phase:insulation", "task:insulation/spray"),
        "hold:insulation/after-foam": ("phase:panelling", "task:panelling/hang-panels"),
        "hold:finish-electrical/power-up": (
            "phase:finish-electrical",
            "task:finish-electrical/first-power",
        ),
        "hold:finish-plumbing-gas/gas": (
            "phase:finish-plumbing-gas",
            "task:finish-plumbing-gas/first-flame",
        ),
        "hold:commissioning/weigh-in": ("phase:commissioning", "task:commissioning/hand-over"),
    }
    assert set(TASKS["task:insulation/spray"].buries) == set(
        HOLDS["hold:insulation/pre-foam"].buries
    )
    assert {check.before for check in CHECKS} == set(HOLDS)


def before(task: str) -> set[str]:
    """Every task that must be done before this one."""
    found: set[str] = set()
    todo = [task]
    while todo:
        for need in TASKS[todo.pop()].needs:
            if need not in found:
                found.add(need)
                todo.append(need)
    return found


def test_every_need_is_a_task_and_no_task_waits_for_itself() -> None:
    for key, task in TASKS.items():
        assert [need for need in task.needs if need not in TASKS] == []
        assert key not in before(key)


def test_everything_that_foam_buries_is_done_before_the_spray() -> None:
    earlier = before("task:insulation/spray")
    for key in (
        "task:framing/fix-backing",
        "task:framing/build-boxes",
        "task:framing/buck-windows",
        "task:deck/bed-feet",
        "task:deck/hose-roof",
        "task:rough-in-wiring/test-runs",
        "task:rough-in-wiring/spare-strings",
        "task:rough-in-wiring/redline-wiring",
        "task:shell/hose-shell",
        "task:subfloor/cover-floor",
        "task:rough-in-plumbing-gas/test-drains",
        "task:rough-in-plumbing-gas/test-water",
        "task:rough-in-plumbing-gas/test-gas",
        "task:insulation/walk-down",
        "task:insulation/spray-patch",
    ):
        assert key in earlier, key
    hot = {key for key, task in TASKS.items() if task.hot_work}
    assert hot and hot <= earlier


def test_nobody_works_inside_before_the_foam_has_cured() -> None:
    spray = TASKS["task:insulation/spray"]
    assert spray.cure_h is not None and spray.cure_h >= 24
    later = [key for key in TASKS if "task:insulation/spray" in before(key)]
    assert all("task:insulation/air-out" in {key, *before(key)} for key in later)


def test_hours_grow_from_low_to_high_and_say_where_they_come_from() -> None:
    for key, task in TASKS.items():
        for length_m in (3.0, 7.6, 12.0):
            low, likely, high = (
                task.hours[band][0] + task.hours[band][1] * length_m
                for band in ("low", "likely", "high")
            )
            assert 0.0 < low <= likely <= high < 40.0, key
        assert task.basis and task.memory, key


def test_the_thirteen_phases_have_the_work_of_a_whole_conversion() -> None:
    assert shipped() == PHASE_NAMES
    assert len(TASKS) >= 130
    assert [phase.name for phase in PHASES if not 9 <= len(phase.tasks) <= 15] == []


def test_nothing_of_an_earlier_phase_is_still_to_be_done_when_the_keys_are_handed_over() -> None:
    last = "task:commissioning/hand-over"
    behind = set(TASKS) - before(last) - {last}
    assert sorted(behind) == []


def test_every_phase_comes_after_phases_that_are_earlier_in_the_trades_order() -> None:
    order = {f"phase:{phase.name}": phase.order for phase in PHASES}
    for phase in PHASES:
        assert all(order[name] < phase.order for name in phase.after), phase.name


def test_every_hold_point_is_closed_by_a_task_there_is_and_gates_no_earlier_phase() -> None:
    order = {f"phase:{phase.name}": phase.order for phase in PHASES}
    for phase in PHASES:
        for hold in phase.holdpoints:
            assert hold.closed_by in TASKS, hold.key
            assert order[hold.gates] >= phase.order, hold.key


BANDS = {
    "strip-out": ((12, 31), (62, 163)),
    "shell": ((17, 38), (62, 192)),
    "subfloor": ((11, 24), (30, 69)),
    "rough-in-plumbing-gas": ((14, 28), (32, 74)),
    "panelling": ((21, 46), (60, 156)),
}
"""Crew-hours of a short (4 m) and a long (10 m) vehicle, lowest and highest, as the trade bands
them. One straight line for each task can't meet all four ends: it errs high for the short one."""


@pytest.mark.parametrize("name", BANDS)
def test_crew_hours_lie_near_the_bands_of_the_trade(name: str) -> None:
    short, long = (
        {
            band: sum(
                task.crew * (task.hours[band][0] + task.hours[band][1] * length_m)
                for task in read(name).tasks
            )
            for band in ("low", "likely", "high")
        }
        for length_m in (4.0, 10.0)
    )
    (short_low, short_high), (long_low, long_high) = BANDS[name]
    assert short_low <= short["low"] and short["likely"] <= 1.25 * short_high
    assert short["high"] <= 2.0 * short_high
    assert long_low < long["likely"] < long_high
    assert 0.75 * long_low <= long["low"] and 0.75 * long_high <= long["high"] <= 1.25 * long_high
