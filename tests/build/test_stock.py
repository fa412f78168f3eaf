"""Stock: counts, movements and orders, lot by lot."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.build.making import Yard, added
from tracker.act import Fact
from tracker.build import stock
from tracker.build.stock import LEVELS, Lot, lots_of, on_hand
from tracker.errors import BadInput


def _yard() -> Yard:
    return Yard(added("part", "gland", unit="each"), added("part", "wire", unit="m"))


def _count(yard: Yard, place: str = "shelf", part: str = "gland", **answer: Any) -> Fact:
    return stock.count(yard.build, yard.item(part), place, **answer)


def _move(yard: Yard, quantity: float, why: str = "used", place: str = "shelf") -> Fact:
    return stock.move(yard.item("gland"), place, quantity, why)


def _lot(yard: Yard, place: str = "shelf") -> Lot:
    return yard.build.lots["part:gland", place]


def test_what_was_never_counted_is_what_came_and_went() -> None:
    yard = _yard()
    yard.do(_move(yard, 5.0, "received"))
    yard.do(_move(yard, -2.0))

    assert on_hand(yard.build, yard.item("gland")) == 3.0


def test_a_count_is_a_new_beginning() -> None:
    yard = _yard()
    yard.do(_move(yard, 5.0, "received"))
    yard.do(_count(yard, number=4))
    yard.do(_move(yard, -1.0))

    assert (_lot(yard).quantity, _lot(yard).unseen) == (3.0, ())
    assert _lot(yard).counted == yard.build.acts[2].at


def test_a_use_the_counter_had_not_heard_of_is_mentioned_and_not_subtracted() -> None:
    yard = _yard()
    yard.do(_move(yard, 5.0, "received"))
    count = _count(yard, number=4)
    unheard = yard.do(_move(yard, -1.0), writer="bbbbbbbb")
    yard.do(count)

    assert _lot(yard).quantity == 4.0
    assert [(move.ref, move.quantity) for move in _lot(yard).unseen] == [(unheard.ref(0), -1.0)]


def test_the_next_count_has_seen_what_the_last_one_mentioned() -> None:
    yard = _yard()
    count = _count(yard, number=4)
    yard.do(_move(yard, -1.0))
    yard.do(count)
    yard.do(_count(yard, number=3))

    assert _lot(yard).unseen == ()


def test_movements_of_two_who_worked_apart_add_up() -> None:
    yard = _yard()
    yard.do(_count(yard, number=10))
    for writer in ("aaaaaaaa", "bbbbbbbb"):
        yard.do(_move(yard, -3.0), writer=writer)

    assert _lot(yard).quantity == 4.0


def test_places_are_lots_of_their_own_and_add_up_over_the_part() -> None:
    yard = _yard()
    yard.do(_count(yard, "van", number=2), _count(yard, "shelf", number=3))

    assert list(lots_of(yard.build, yard.item("gland"))) == ["shelf", "van"]
    assert on_hand(yard.build, yard.item("gland")) == 5.0
    assert lots_of(yard.build, yard.item("wire")) == {}


def test_measured_lengths_are_pieces_and_their_sum_is_on_hand() -> None:
    yard = _yard()
    yard.do(_count(yard, part="wire", lengths=[4.2, 3.1]))

    (lot,) = lots_of(yard.build, yard.item("wire")).values()
    assert lot.lengths == (4.2, 3.1)
    assert on_hand(yard.build, yard.item("wire")) == pytest.approx(7.3)


@pytest.mark.parametrize(
    ("counts", "have"),
    [
        ([], "unknown"),
        ([{"level": "plenty"}], "plenty"),
        ([{"level": "low"}], "low"),
        ([{"level": "out"}], 0),
        ([{"level": "unknown"}], "unknown"),
        ([{"level": "low"}, {"number": 2}], 2.0),
        ([{"level": "low"}, {"level": "out"}], "low"),
        ([{"level": "out"}, {"level": "unknown"}], 0),
        ([{"level": "plenty"}, {"number": 2}], "plenty"),
    ],
)
def test_a_guess_is_a_good_answer_where_nobody_counts(
    counts: list[dict[str, Any]], have: float | str
) -> None:
    yard = _yard()
    for place, answer in enumerate(counts):
        yard.do(_count(yard, f"shelf {place}", **answer))

    assert on_hand(yard.build, yard.item("gland")) == have


def test_what_came_after_it_was_out_is_there() -> None:
    yard = _yard()
    yard.do(_count(yard, level="out"))
    yard.do(_move(yard, 6.0, "received"))

    assert on_hand(yard.build, yard.item("gland")) == 6.0


@given(st.lists(st.integers(-20, 20).filter(bool), max_size=12), st.integers(0, 20))
def test_a_lot_is_its_count_and_all_movements_since_and_never_below_nothing(
    moves: list[int], number: int
) -> None:
    yard = _yard()
    yard.do(_count(yard, number=number))
    for quantity in moves:
        yard.do(_move(yard, quantity))

    assert _lot(yard).quantity == max(0, number + sum(moves))


def test_what_was_used_is_known_of_the_part_wherever_it_lay() -> None:
    yard = _yard()
    yard.do(_move(yard, -2.0), _move(yard, -1.0, place="van"), _move(yard, -5.0, "moved"))

    assert yard.build.used == {"part:gland": 3.0}


@pytest.mark.parametrize(
    ("arrived", "still"),
    [(3.0, [7.0, 5.0]), (10.0, [5.0]), (12.0, [3.0]), (99.0, []), (-4.0, [10.0, 5.0])],
)
def test_what_arrives_is_taken_off_the_oldest_order_first(
    arrived: float, still: list[float]
) -> None:
    yard = _yard()
    for quantity in (10.0, 5.0):
        yard.do(stock.order(yard.item("gland"), quantity, "2027-03-09", "the yard"))
    yard.do(_move(yard, arrived, "received"))

    assert [order.quantity for order in yard.build.orders["part:gland"]] == still


def test_an_order_keeps_its_date_and_supplier() -> None:
    yard = _yard()
    done = yard.do(stock.order(yard.item("gland"), 10, "2027-03-09", "the yard"))

    assert yard.build.orders["part:gland"] == (
        stock.Order(done.ref(0), 10.0, "2027-03-09", "the yard"),
    )


def test_what_is_set_aside_is_kept_for_something() -> None:
    yard = _yard()
    done = yard.do(stock.set_aside(yard.item("gland"), "shelf", 2, "run:L1"))

    assert yard.build.aside == [stock.SetAside(done.ref(0), "part:gland", "shelf", 2.0, "run:L1")]


@pytest.mark.parametrize(
    ("answer", "problem"),
    [
        ({}, "a count is a number, measured lengths, or one of"),
        ({"number": 2, "level": "low"}, "a count is a number"),
        ({"level": "some"}, f"'some' is no level of stock; it is one of {', '.join(LEVELS)}"),
        ({"number": -1}, "can't be below 0"),
        ({"lengths": [1.0, -0.1]}, "can't be below 0"),
    ],
)
def test_a_count_that_says_nothing_or_too_much_is_refused(
    answer: dict[str, Any], problem: str
) -> None:
    with pytest.raises(BadInput, match=problem):
        _count(_yard(), **answer)


def test_quantities_that_can_not_be_are_refused() -> None:
    part = _yard().item("gland")
    with pytest.raises(BadInput, match="how much of gland"):
        stock.move(part, "shelf", 0, "used")
    with pytest.raises(BadInput, match="an order of gland must be above 0"):
        stock.order(part, 0)
    with pytest.raises(BadInput, match="needs a quantity above 0"):
        stock.set_aside(part, "shelf", 0, "L1")


@pytest.mark.parametrize(
    "fact",
    [
        {"f": "stock.moved", "part": "part:gland", "place": "shelf", "quantity": True},
        {"f": "stock.moved", "part": "part:gland", "place": None, "quantity": 1},
        {"f": "stock.counted", "part": "part:gland", "place": "shelf", "level": "some"},
        {"f": "stock.counted", "part": "part:gland", "place": "shelf", "lengths": ["1"]},
        {"f": "stock.ordered", "part": "part:gland", "quantity": 1, "due": 20270309},
        {"f": "stock.set-aside", "part": "part:gland", "place": "shelf", "quantity": 1},
    ],
)
def test_a_fact_that_can_not_be_read_moves_nothing(fact: Fact) -> None:
    yard = _yard()
    yard.do(fact)

    assert (yard.build.lots, yard.build.orders, yard.build.aside) == ({}, {}, [])
    assert len(yard.build.unknown) == 1
