"""Every phase, adopted for vehicles that have little in common, folds and lists."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache

import pytest

from tracker.act import Act, act_id
from tracker.app.wants.phases import adopt
from tracker.build import item
from tracker.build.coverage import Coverage
from tracker.build.fold import EMPTY, fold
from tracker.build.item import VEHICLE
from tracker.plan.todo import todo
from tracker.templates.load import shipped

NOW = datetime(2027, 3, 6, 8, 5, tzinfo=UTC)
VEHICLES = {
    "a bus of 11 m": {"body": "bus", "length_m": 11.0, "engine": True},
    "a van of 6 m": {"body": "van", "length_m": 6.0, "engine": True},
    "a sandwich-panel trailer": {"body": "sandwich panel", "length_m": 5.0, "engine": False},
}
ITEMS = ("run", "hole", "backing", "box", "opening", "pipe", "drain", "heat-maker", "no-fill")
BAYS_A_METRE = 2


@cache
def acts_of(name: str) -> tuple[Act, ...]:
    """The acts of a build of a vehicle: all phases, bays by its length, one of each kind a bay."""
    vehicle = VEHICLES[name]
    adopted = adopt(shipped())(EMPTY)
    facts = [item.add(VEHICLE, VEHICLE, vehicle, VEHICLE)]
    for number in range(1, int(vehicle["length_m"] * BAYS_A_METRE) + 1):
        bay = f"bay:{number}"
        facts.append(item.add("bay", f"B{number}", {"face": "left"}, bay))
        facts += [item.add(kind, f"{kind}-{number}", {"bay": [bay]}) for kind in ITEMS]
    parts = [tuple(facts), *((fact,) for fact in adopted)]
    return tuple(
        Act(act_id(1_800_000_000_000 + number, "aaaaaaaa", number), NOW.isoformat(), "Ida", part)
        for number, part in enumerate(parts, 1)
    )


@pytest.mark.parametrize("name", VEHICLES)
def test_all_phases_fold_and_every_hold_point_lists(name: str) -> None:
    build = fold(acts_of(name))
    cover = Coverage(build)

    plans = [todo(cover, hold, "", NOW) for hold in cover.holds]

    assert len(cover.by_kind["phase"]) == 13
    assert not build.unknown and not build.orphans
    assert all(sum(plan.counts.values()) == len(plan.points) for plan in plans)
    assert all(plan.points for plan in plans)


def test_more_vehicle_is_more_work_and_what_a_body_has_not_is_not_asked() -> None:
    covers = {name: Coverage(fold(acts_of(name))) for name in VEHICLES}
    asked = {
        name: {check.slug for hold in cover.holds for check, _ in cover.points(hold)}
        for name, cover in covers.items()
    }
    hours = {
        name: todo(cover, cover.holds[-1], "", NOW).hours_left for name, cover in covers.items()
    }
    bus, van, trailer = VEHICLES

    assert hours[bus] > hours[van] > 0
    assert asked[trailer] - asked[bus] <= {"rot-graded", "mend-core"}
    assert asked[bus] - asked[trailer]
