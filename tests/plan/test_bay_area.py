"""Areas of bays and the foam they take."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, added, ground
from tracker.build import item
from tracker.plan.bay_area import foam_m3, sides_of, taken_off


@pytest.mark.parametrize(
    ("face", "sides"),
    [("left", (3.0, 2.0)), ("ceiling", (3.0, 2.4)), ("floor", (3.0, 2.4)), ("front", (2.4, 2.0))],
)
def test_a_wall_is_length_by_height_a_ceiling_length_by_width_a_front_width_by_height(
    face: str, sides: tuple[float, float]
) -> None:
    yard = Yard(added("bay", "B9", face=face, station_m=4.0, to_m=1.0, height_m=2.0))

    assert sides_of(yard.item("B9"), 2.4) == (sides, [])


def test_what_is_unknown_is_named() -> None:
    yard = Yard(added("bay", "B8"), added("bay", "B9", face="ceiling", station_m=4.0))

    assert sides_of(yard.item("B8"), 2.4)[1] == ["face"]
    assert sides_of(yard.item("B9"), None)[1] == ["station_m and to_m", "width_m"]


def _foamed(**fields: Any) -> Yard:
    yard = Yard(*ground())
    for bay in ("B1", "B2", "B3", "B4"):
        yard.do(item.change(yard.item(bay), {"height_m": 2.0, "foam_m": 0.05, **fields}))
    return yard


def test_openings_are_taken_off_the_foam_and_shared_among_their_bays() -> None:
    yard = _foamed()
    window = {"width_mm": 1000.0, "height_mm": 500.0, "bay": ["bay:B1", "bay:B2"]}
    yard.do(added("opening", "window", **window), added("no-fill", "belt", bay=["bay:B1"]))

    taken, left_out = taken_off(yard.cover, ["bay:B1", "bay:B2"])

    assert taken == {"bay:B1": 0.25, "bay:B2": 0.25}
    assert left_out == [("no-fill:belt", "of unknown size")]
    assert foam_m3(yard.cover) == pytest.approx((8.0 - 0.5) * 0.05)


def test_one_bay_of_unknown_depth_leaves_the_foam_unknown_and_one_of_none_takes_none() -> None:
    yard = _foamed()
    yard.do(item.change(yard.item("B1"), {"foam_m": 0.0}))
    assert foam_m3(yard.cover) == pytest.approx(6.0 * 0.05)

    yard.do(item.change(yard.item("B2"), {"foam_m": None}))
    assert foam_m3(yard.cover) is None
