"""Which spool each piece is cut from."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.workshop import Yard, added, count, run, shop, task
from tracker.build import stock
from tracker.plan.cuts import Cuts, cuts
from tracker.plan.demand import demand
from tracker.plan.shelf import ON_ORDER
from tracker.plan.spools import TO_BUY


def _yard(*lengths_m: float, pack: float | None = None, conductors: int = 2) -> Yard:
    """Runs of these lengths in one twin cable, one piece each."""
    more = {"pack": pack} if pack else {}
    return shop(
        task("run-drops", phase="phase:wiring"),
        added("part", "twin", unit="m", gauge="2.5mm2", cores=2, **more),
        *(
            run(f"L{number}", length_m=length_m, gauge="2.5mm2", conductors=conductors)
            for number, length_m in enumerate(lengths_m, 1)
        ),
    )


def _plan(yard: Yard) -> Cuts:
    (plan,) = cuts(yard.cover, demand(yard.cover))
    return plan


def _bars(plan: Cuts) -> list[tuple[str, float, list[float], float]]:
    return [
        (bar.place, bar.length_m, [piece.length_m for piece in bar.pieces], bar.remnant_m)
        for bar in plan.bars
    ]


def test_each_piece_is_cut_from_a_measured_length_and_the_longest_rest_is_kept() -> None:
    yard = _yard(5.0, 4.0, 3.0)
    count(yard, "twin", "reel", lengths=[30.0, 7.0, 5.5])

    plan = _plan(yard)

    assert sorted(_bars(plan)) == [
        ("reel", 5.5, [5.0], 0.5),
        ("reel", 7.0, [4.0, 3.0], 0.0),
    ]
    assert (plan.bought, plan.unplaced, plan.proved) == (0, (), True)
    assert plan.from_hand


def test_metres_enough_in_lengths_too_short_are_a_shortage() -> None:
    yard = _yard(9.4)
    count(yard, "twin", "reel", lengths=[9.0, 8.5, 7.5, 6.0])

    plan = _plan(yard)

    assert plan.short_of_m == 9.4
    assert [piece.length_m for piece in plan.unplaced] == [9.4]
    assert plan.bars == ()


def test_what_does_not_reach_is_bought_in_the_length_it_is_sold_in() -> None:
    yard = _yard(9.4, 9.0, 6.0, 2.0, pack=20.5)
    count(yard, "twin", "reel", lengths=[7.0])

    plan = _plan(yard)

    assert _bars(plan) == [
        ("reel", 7.0, [6.0], 1.0),
        (TO_BUY, 20.5, [9.4, 9.0, 2.0], 0.1),
    ]
    assert (plan.bought, plan.proved, plan.put_up_m) == (1, True, 20.5)


def test_a_piece_longer_than_what_is_sold_is_left_over_and_not_joined() -> None:
    plan = _plan_counted(_yard(12.0, pack=10.0))

    assert [piece.length_m for piece in plan.unplaced] == [12.0]
    assert (plan.bought, plan.bars) == (0, ())


def _plan_counted(yard: Yard) -> Cuts:
    count(yard, "twin", "reel", number=0.0)
    return _plan(yard)


def test_a_run_of_three_wires_is_three_pieces() -> None:
    yard = _yard(4.0, conductors=6)
    count(yard, "twin", "reel", lengths=[8.5, 4.2])

    assert sorted(_bars(_plan(yard))) == [
        ("reel", 4.2, [4.0], 0.2),
        ("reel", 8.5, [4.0, 4.0], 0.5),
    ]


def test_of_what_is_only_said_to_be_there_nothing_is_cut_or_bought() -> None:
    for level in ("plenty", "low", "unknown"):
        yard = _yard(5.0, pack=25.0)
        count(yard, "twin", "bin", level=level)

        plan = _plan(yard)

        assert plan.said == (("bin", level),)
        assert (plan.bars, plan.bought, len(plan.unplaced)) == ((), 0, 1)
        assert plan.short_of_m is None


def test_a_part_nobody_counted_is_unknown() -> None:
    assert _plan(_yard(5.0, pack=25.0)).said == (("", "unknown"),)


def test_out_is_known_to_be_nothing_so_that_it_is_bought() -> None:
    yard = _yard(5.0, pack=25.0)
    count(yard, "twin", "bin", level="out")

    assert _bars(_plan(yard)) == [(TO_BUY, 25.0, [5.0], 20.0)]


def test_a_sum_is_taken_for_one_length_and_says_so_but_measured_lengths_go_first() -> None:
    yard = _yard(5.0)
    count(yard, "twin", "loose", number=20.0)
    assert [(bar.place, bar.measured) for bar in _plan(yard).bars] == [("loose", False)]
    assert not _plan(yard).from_hand

    count(yard, "twin", "reel", lengths=[20.5])
    assert [(bar.place, bar.measured) for bar in _plan(yard).bars] == [("reel", True)]


def test_what_is_on_order_is_cut_before_more_is_bought() -> None:
    yard = _yard(9.0, 9.0, 9.0, pack=10.0)
    count(yard, "twin", "reel", lengths=[9.5])
    yard.do(stock.order(yard.item("twin"), 10.0, "2027-03-09"))

    assert [place for place, *_ in _bars(_plan(yard))] == ["reel", ON_ORDER, TO_BUY]


def test_an_order_of_two_put_ups_is_two_lengths() -> None:
    yard = _yard(12.0, pack=10.0)
    count(yard, "twin", "reel", number=0.0)
    yard.do(stock.order(yard.item("twin"), 20.0, "2027-03-09"))

    assert [piece.length_m for piece in _plan(yard).unplaced] == [12.0]


def test_the_next_hold_point_is_served_first() -> None:
    yard = shop(
        added("phase", "later", order=20),
        task("run-drops"),
        task("pull-data", phase="phase:later"),
        added("part", "twin", unit="m", gauge="2.5mm2", cores=2, pack=25.0),
        run("L1", length_m=9.0, gauge="2.5mm2"),
        run("L2", length_m=4.0, gauge="2.5mm2", system="data"),
        run("L3", length_m=5.0, gauge="2.5mm2", system="data"),
    )
    count(yard, "twin", "reel", lengths=[9.0])

    assert _bars(_plan(yard)) == [
        ("reel", 9.0, [9.0], 0.0),
        (TO_BUY, 25.0, [5.0, 4.0], 16.0),
    ]


def test_what_is_kept_for_something_else_is_not_cut() -> None:
    yard = _yard(5.0)
    count(yard, "twin", "reel", lengths=[6.0, 4.0])
    yard.do(stock.set_aside(yard.item("twin"), "reel", 5.5, "the trailer light"))

    assert len(_plan(yard).unplaced) == 1

    yard.do(stock.set_aside(yard.item("twin"), "reel", 4.0, "run:L1"))
    yard.do(stock.count(yard.build, yard.item("twin"), "spare", lengths=[5.0]))
    assert [place for place, *_ in _bars(_plan(yard))] == ["spare"]


def test_wire_of_no_part_of_the_build_is_named_and_not_cut() -> None:
    yard = shop(task("run-drops"), run("L1", length_m=3.0, gauge="10AWG"))

    plan = _plan(yard)

    assert (plan.part, plan.name, len(plan.unplaced)) == ("", "wire 10AWG x 2", 2)


_length = st.integers(1, 150).map(lambda tenths: tenths / 10)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(_length, min_size=1, max_size=7),
    st.lists(_length, max_size=5),
    st.lists(_length, max_size=2),
    st.none() | _length,
    st.none() | _length,
)
def test_every_piece_is_there_once_no_spool_is_over_full_and_no_stock_counts_twice(
    wanted: list[float],
    lengths: list[float],
    sums: list[float],
    ordered: float | None,
    pack: float | None,
) -> None:
    yard = _yard(*wanted, pack=pack)
    count(yard, "twin", "reel", lengths=lengths or [0.0])
    for number, quantity in enumerate(sums):
        count(yard, "twin", f"loose {number}", number=quantity)
    if ordered:
        yard.do(stock.order(yard.item("twin"), ordered, "2027-03-09"))

    plan = _plan(yard)

    placed = [piece for bar in plan.bars for piece in bar.pieces]
    names = Counter(piece.subject for piece in [*placed, *plan.unplaced])
    assert names == Counter(f"run:L{number}" for number in range(1, len(wanted) + 1))
    for bar in plan.bars:
        assert bar.pieces
        cut = sum(piece.length_m for piece in bar.pieces)
        assert abs(bar.length_m - cut - bar.remnant_m) < 1e-6
        assert bar.remnant_m > -1e-6
    there = Counter([("reel", length) for length in lengths])
    there.update((f"loose {number}", quantity) for number, quantity in enumerate(sums))
    used = Counter(
        (bar.place, bar.length_m) for bar in plan.bars if bar.place not in (ON_ORDER, TO_BUY)
    )
    assert used <= there
    coming = sum(bar.length_m for bar in plan.bars if bar.place == ON_ORDER)
    assert coming <= (ordered or 0.0) + 1e-6
    assert plan.bought == sum(bar.place == TO_BUY for bar in plan.bars)
    if pack:
        assert all(piece.length_m > pack for piece in plan.unplaced)
