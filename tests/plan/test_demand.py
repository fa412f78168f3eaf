"""What tasks still take, and of which part."""

from __future__ import annotations

import pytest

from tests.plan.workshop import Yard, added, check, run, shop, takes, task
from tracker.build import item, stock
from tracker.build.work import worked
from tracker.plan.demand import all_lines, demand, rules, spare_share
from tracker.plan.line import Line


def _lines(yard: Yard, part: str) -> list[Line]:
    return [line for line in demand(yard.cover) if line.name == part]


def _wires(*runs: tuple[str, float, int]) -> Yard:
    rows = [run(name, length_m=m, gauge="2.5mm2", conductors=n) for name, m, n in runs]
    return shop(
        task("run-drops"),
        added("part", "twin", unit="m", gauge="2.5 mm2", cores=2),
        added("part", "three", unit="m", gauge="2.5mm2", cores=3),
        check("label-both-ends"),
        *rows,
    )


def test_a_row_counts_by_the_metre_once_or_for_each_of_a_kind() -> None:
    rows = [takes("tape", 2.0, "m", "m"), takes("brush", 1.0), takes("bag", 2.0, "run")]
    yard = shop(task("mask", parts=rows), run("L1"), run("L2"))

    assert [line.open for line in _lines(yard, "tape")] == [15.0]
    assert [line.open for line in _lines(yard, "brush")] == [1.0]
    assert [(line.subject, line.open) for line in _lines(yard, "bag")] == [
        ("run:L1", 2.0),
        ("run:L2", 2.0),
    ]


def test_what_the_builder_says_is_needed_goes_before_a_rough_figure() -> None:
    yard = shop(
        task("mask", parts=[takes("tape", 2.0, "m", "m")]), added("part", "tape", needed=20.0)
    )

    assert [line.open for line in _lines(yard, "tape")] == [20.0]


def test_wire_is_taken_in_the_part_of_its_gauge_with_the_conductors_it_needs() -> None:
    yard = _wires(("L1", 4.0, 2), ("L2", 5.0, 3), ("L3", 6.0, 4))

    found = [(line.subject, line.name, line.pieces, line.open) for line in demand(yard.cover)]

    assert found == [
        ("run:L1", "twin", 1, 4.0),
        ("run:L2", "three", 1, 5.0),
        ("run:L3", "twin", 2, 12.0),
    ]


def test_wire_of_a_gauge_that_no_part_has_is_named_all_the_same() -> None:
    yard = shop(task("run-drops"), run("L1", length_m=3.0, gauge="10AWG"))

    (line,) = demand(yard.cover)

    assert (line.part, line.name, line.open) == ("", "wire 10AWG x 2", 6.0)


def test_a_run_that_was_labelled_takes_no_more_wire() -> None:
    yard = _wires(("L1", 4.0, 2), ("L2", 5.0, 2))
    yard.mark("label-both-ends", "L1")

    assert [line.subject for line in demand(yard.cover)] == ["run:L2"]


def test_wire_that_was_used_serves_whole_runs_alone() -> None:
    yard = _wires(("L1", 4.0, 2), ("L2", 5.0, 2))
    yard.do(stock.move(yard.item("twin"), "shelf", -7.0, "used"))

    assert [(line.subject, line.open) for line in demand(yard.cover)] == [("run:L2", 5.0)]


def test_what_was_used_comes_off_a_count_and_a_done_task_takes_nothing() -> None:
    yard = shop(task("mask", parts=[takes("bag", 2.0, "run")]), added("part", "bag"), run("L1"))
    yard.do(stock.move(yard.item("bag"), "shelf", -1.0, "used"))
    assert [line.open for line in _lines(yard, "bag")] == [1.0]

    yard.do(worked(yard.item("mask"), 1.0))
    assert demand(yard.cover) == []
    assert [line.quantity for line in all_lines(yard.cover)] == [2.0]


def test_labels_and_clips_follow_from_the_runs_where_no_task_states_them() -> None:
    parts = [added("part", name) for name in ("wire-label", "cable-clip")]
    yard = shop(task("label-runs"), task("clip-runs"), *parts, run("L1", length_m=1.0))

    assert [line.open for line in _lines(yard, "wire-label")] == [2.0]
    assert [line.open for line in _lines(yard, "cable-clip")] == [3.0]


@pytest.mark.parametrize(
    ("lining", "size", "part"),
    [
        ("grommet", 20.0, "grommet-20"),
        ("grommet", 16.0, "grommet-any"),
        ("gland", 20.0, "roof-gland"),
        ("sleeve", 20.0, "sleeve"),
        ("none", 20.0, None),
    ],
)
def test_a_hole_takes_what_lines_it_by_its_size(lining: str, size: float, part: str | None) -> None:
    yard = shop(
        task("drill-holes", parts=[takes("grommet", 1.0, "hole")]),
        added("part", "grommet-20", lines="grommet", fits_mm=20.0),
        added("part", "grommet-any", lines="grommet"),
        added("part", "roof-gland"),
        added("hole", "H1", lining=lining, diameter_mm=size),
    )

    assert [line.name for line in demand(yard.cover)] == ([part] if part else [])


def test_every_allowance_names_its_source() -> None:
    table = rules()

    named = [table["wire"], table["hole"], table["spare"], *table["rule"]]
    assert {row["source"] for row in named} == set(table["source"])
    assert spare_share("self-drilling-screw") == 0.4
    assert spare_share("nothing-known") == 0.0


def test_foam_is_counted_by_the_bays_once_all_their_sizes_and_depths_are_known() -> None:
    foam = takes("closed-cell-foam-50mm", 5.6, "m", "m2")
    yard = shop(task("spray", parts=[foam]))
    assert [line.open for line in _lines(yard, "closed-cell-foam-50mm")] == [42.0]  # 7.5 x 5.6

    for bay in ("B1", "B2", "B3", "B4"):  # 1 m long each
        depth = 0.025 if bay == "B4" else 0.05
        yard.do(item.change(yard.item(bay), {"height_m": 2.0, "foam_m": depth}))
    (line,) = _lines(yard, "closed-cell-foam-50mm")
    assert round(line.open, 9) == 7.0
    assert line.basis == "7 m2 by the areas and depths of the bays"


def test_a_strap_for_a_tank_is_one_length_that_is_not_joined() -> None:
    yard = shop(
        task("cradle", parts=[takes("strap-50mm", 2.4, "tank", "m")]),
        added("tank", "fresh"),
        added("part", "strap-50mm", unit="m"),
    )

    (line,) = _lines(yard, "strap-50mm")

    assert (line.subject, line.open, line.piece, line.pieces) == ("tank:fresh", 2.4, True, 1)
