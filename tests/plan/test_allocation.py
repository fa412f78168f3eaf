"""Stock given out: all or nothing, never twice, and it is said whom it robs."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.plan.workshop import Yard, added, count, run, shop, takes, task
from tracker.build import item, stock
from tracker.plan.allocation import Allocation, by_task, rank
from tracker.plan.chain import Chains
from tracker.plan.demand import demand


def _allocation(yard: Yard, arrivals: bool = False, partly: bool = False) -> Allocation:
    order = rank(Chains(yard.cover))
    lines = by_task(demand(yard.cover))
    return Allocation(yard.cover, order, lines, arrivals=arrivals, partly=order if partly else ())


def _bags(*wants: float, there: float) -> Yard:
    """Tasks that begin sooner the earlier they stand here, and bags for some of them."""
    rows = [
        task(f"t{number}", likely=9.0 - number, parts=[takes("bag", want)])
        for number, want in enumerate(wants)
    ]
    yard = shop(added("part", "bag"), *rows)
    count(yard, "bag", number=there)
    return yard


def test_the_task_that_must_begin_first_takes_first_and_robs_the_other() -> None:
    found = _allocation(_bags(3.0, 3.0, there=4.0))

    assert not found.shares["task:t0"].lacks
    (lack,) = found.shares["task:t1"].lacks
    assert (lack.need, lack.have, lack.robbed_by) == (3.0, 1.0, ("task:t0",))
    assert found.robs == {"task:t0": ("task:t1",)}


def test_a_task_that_can_not_have_all_takes_nothing_and_the_next_may() -> None:
    found = _allocation(_bags(5.0, 3.0, there=4.0))

    assert found.shares["task:t0"].taken == ()
    assert not found.shares["task:t1"].lacks
    assert found.robs == {}


@given(st.lists(st.integers(1, 9), min_size=1, max_size=6), st.integers(0, 20))
def test_never_more_is_given_than_there_is_and_none_is_kept_from_who_could_have_it(
    wants: list[int], there: int
) -> None:
    shares = _allocation(_bags(*map(float, wants), there=float(there))).shares

    rest = float(there)
    for number, want in enumerate(wants):
        given_out = sum(row.quantity for row in shares[f"task:t{number}"].taken)
        assert given_out == (want if want <= rest else 0.0)
        rest -= given_out


def _wire(*lengths_m: float, runs: tuple[float, ...]) -> Yard:
    rows = [run(f"L{n}", length_m=m, gauge="2.5mm2") for n, m in enumerate(runs, 1)]
    yard = shop(task("run-drops"), added("part", "twin", unit="m", gauge="2.5mm2", cores=2), *rows)
    count(yard, "twin", lengths=lengths_m)
    return yard


def test_enough_wire_in_all_is_a_shortage_where_no_length_reaches() -> None:
    share = _allocation(_wire(8.0, 8.0, 8.0, 7.0, runs=(9.4,))).shares["task:run-drops"]

    (lack,) = share.lacks
    assert (lack.have, lack.longest) == (31.0, 9.4)


def test_each_piece_comes_from_the_shortest_length_that_reaches() -> None:
    share = _allocation(_wire(12.0, 5.0, runs=(4.0, 6.0))).shares["task:run-drops"]

    assert {(row.subject, row.cut_from) for row in share.taken} == {
        ("run:L1", 5.0),
        ("run:L2", 12.0),
    }


def test_a_task_is_served_in_part_by_subject() -> None:
    share = _allocation(_wire(5.0, runs=(4.0, 6.0)), partly=True).shares["task:run-drops"]

    assert (share.subjects, share.share) == (("run:L1",), 0.5)
    assert [row.quantity for row in share.taken] == [4.0]


def test_what_is_set_aside_goes_to_nobody_else() -> None:
    yard = _bags(3.0, 3.0, there=4.0)
    yard.do(stock.set_aside(yard.item("bag"), "bin", 3.0, "task:t1"))

    shares = _allocation(yard).shares

    assert shares["task:t0"].lacks and not shares["task:t1"].lacks


def test_what_is_ordered_counts_from_its_date() -> None:
    yard = _bags(3.0, 3.0, there=4.0)
    yard.do(stock.order(yard.item("bag"), 2.0, "2027-03-09"))

    assert _allocation(yard).shares["task:t1"].lacks[0].due == "2027-03-09"
    by_date = _allocation(yard, arrivals=True).shares
    assert [by_date[name].ready_on for name in ("task:t0", "task:t1")] == ["", "2027-03-09"]


def test_what_comes_on_no_known_day_or_never_leaves_the_day_open() -> None:
    yard = _bags(3.0, 9.0, there=4.0)
    yard.do(stock.order(yard.item("bag"), 2.0))

    share = _allocation(yard, arrivals=True).shares["task:t1"]

    assert share.ready_on is None and share.lacks


def test_plenty_is_enough_and_what_nobody_counted_is_said() -> None:
    yard = shop(
        *(added("part", name) for name in ("bag", "pin", "film")),
        task("mask", parts=[takes("bag", 9.0), takes("pin", 9.0), takes("film", 9.0)]),
    )
    count(yard, "bag", level="plenty")
    count(yard, "film", level="low")

    share = _allocation(yard).shares["task:mask"]

    assert not share.lacks
    assert share.doubts == (("pin", "unknown"), ("film", "low"))


def test_wire_on_order_comes_in_the_lengths_it_is_sold_in() -> None:
    yard = _wire(runs=(12.0,))
    yard.do(item.change(yard.item("twin"), {"pack": 10.0}))
    yard.do(stock.order(yard.item("twin"), 20.0, "2027-03-09"))

    (lack,) = _allocation(yard, arrivals=True).shares["task:run-drops"].lacks
    assert (lack.on_order, lack.due) == (20.0, None)

    yard.do(item.change(yard.item("twin"), {"pack": 20.0}))
    assert _allocation(yard, arrivals=True).shares["task:run-drops"].ready_on == "2027-03-09"
