"""What a cutting plan promises, whatever the pieces."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.errors import BadInput
from tracker.plan.cutting import Cut, CutPlan, cut_plan

lengths = st.lists(st.integers(1, 60), max_size=14)


def _first_fit(pieces: list[int], stock: list[int], buy: int | None, kerf: int) -> tuple[int, int]:
    """First fit decreasing, by the rule itself: (pieces placed, bars bought)."""
    loads: list[tuple[int, list[int]]] = [(length, []) for length in stock]
    placed = 0
    for piece in sorted(pieces, reverse=True):
        for length, load in loads:
            if sum(load) + piece + kerf * len(load) <= length:
                load.append(piece)
                break
        else:
            if buy is None or piece > buy:
                continue
            loads.append((buy, [piece]))
        placed += 1
    return placed, len(loads) - len(stock)


def _assert_valid(
    plan: CutPlan, pieces: list[int], stock: list[int], buy: int | None, kerf: int
) -> None:
    cut = [piece for one in plan.cuts for piece in one.pieces]
    assert Counter(cut) + Counter(plan.unplaced) == Counter(pieces)
    for one in plan.cuts:
        used = sum(one.pieces) + kerf * (len(one.pieces) - 1)
        assert one.pieces
        assert one.remnant == one.length - used >= 0
        assert one.length == (buy if one.stock is None else stock[one.stock])
    on_hand = [one.stock for one in plan.cuts if one.stock is not None]
    assert len(set(on_hand)) == len(on_hand)
    assert sum(one.stock is None for one in plan.cuts) == plan.bought
    assert plan.lower_bound <= plan.bought
    assert not plan.proved or plan.bought == plan.lower_bound


@settings(max_examples=300)
@given(
    pieces=lengths,
    stock=st.lists(st.integers(1, 90), max_size=4),
    buy=st.none() | st.integers(20, 80),
    kerf=st.integers(0, 4),
    effort=st.sampled_from([0, 50, 3_000]),
)
def test_every_piece_is_cut_once_from_a_bar_that_takes_it(
    pieces: list[int], stock: list[int], buy: int | None, kerf: int, effort: int
) -> None:
    plan = cut_plan(pieces, stock, buy, kerf, effort)

    _assert_valid(plan, pieces, stock, buy, kerf)


@settings(max_examples=300)
@given(
    pieces=st.lists(st.integers(1, 60), max_size=40),
    stock=st.lists(st.integers(1, 90), max_size=4),
    buy=st.none() | st.integers(20, 80),
    kerf=st.integers(0, 4),
    effort=st.sampled_from([0, 500]),
)
def test_a_plan_is_never_worse_than_first_fit_decreasing(
    pieces: list[int], stock: list[int], buy: int | None, kerf: int, effort: int
) -> None:
    placed, bought = _first_fit(pieces, stock, buy, kerf)

    plan = cut_plan(pieces, stock, buy, kerf, effort)

    here = len(pieces) - len(plan.unplaced)
    assert here >= placed
    assert here > placed or plan.bought <= bought


@given(pieces=lengths, stock=st.lists(st.integers(1, 90), max_size=4))
def test_the_order_in_which_pieces_are_given_changes_nothing(
    pieces: list[int], stock: list[int]
) -> None:
    plan = cut_plan(pieces, stock, 70, 2, 500)

    assert cut_plan(pieces[::-1], stock, 70, 2, 500) == plan


def test_enough_in_total_can_still_be_a_shortage() -> None:
    plan = cut_plan([940], stock=[800, 790, 780, 730])

    assert plan.unplaced == (940,)
    assert plan.cuts == ()


def test_most_pieces_are_placed_before_anything_else() -> None:
    plan = cut_plan([100, 60, 40], stock=[100])

    assert plan.cuts == (Cut(100, (60, 40), 0, 0),)
    assert plan.unplaced == (100,)
    assert plan.proved


def test_stock_is_used_before_a_bar_is_bought() -> None:
    plan = cut_plan([50, 50], stock=[55, 52], buy=200)

    assert plan.bought == 0
    assert [(cut.stock, cut.pieces) for cut in plan.cuts] == [(0, (50,)), (1, (50,))]


def test_the_short_remnant_is_cut_so_that_the_long_spool_stays_whole() -> None:
    plan = cut_plan([30, 20], stock=[500, 60])

    assert plan.cuts == (Cut(60, (30, 20), 10, 1),)


def test_what_is_over_is_left_in_one_piece() -> None:
    plan = cut_plan([50, 50, 30, 30, 30, 10], buy=100)

    assert plan.bought == 2
    assert sorted(cut.remnant for cut in plan.cuts) == [0, 0]
    assert sorted(cut.remnant for cut in cut_plan([40, 30, 30, 20], buy=100).cuts) == [0, 80]


def test_a_kerf_lies_between_pieces_only() -> None:
    assert cut_plan([50, 47], buy=100, kerf=3).cuts == (Cut(100, (50, 47), 0, None),)
    assert cut_plan([50, 48], buy=100, kerf=3).bought == 2
    assert cut_plan([100], buy=100, kerf=3).bought == 1


def test_a_piece_longer_than_what_can_be_bought_comes_from_stock_or_is_not_placed() -> None:
    plan = cut_plan([130, 120, 90, 90], stock=[140], buy=100)

    assert plan.unplaced == (130,)
    assert plan.bought == 2
    assert plan.cuts[0] == Cut(140, (120,), 20, 0)


def test_a_bound_by_the_sum_of_lengths_is_raised_where_pieces_go_badly_together() -> None:
    plan = cut_plan([51] * 9, buy=100)

    assert (plan.bought, plan.lower_bound, plan.proved) == (9, 9, True)


def test_nothing_to_cut_is_a_plan_too() -> None:
    assert cut_plan([], stock=[10], buy=20) == CutPlan((), 0, 0, True, ())


def test_the_same_pieces_give_the_same_plan_when_the_effort_ends_early() -> None:
    pieces = [piece for size in range(21, 60) for piece in (size, size, size + 1)]

    assert cut_plan(pieces, [80, 75], 150, 1, 5_000) == cut_plan(pieces, [80, 75], 150, 1, 5_000)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ({"pieces": [0]}, "a piece of 0 can't be planned; give whole units of 1 or more"),
        ({"pieces": [2.5]}, "a piece of 2.5"),
        ({"pieces": [True]}, "a piece of True"),
        ({"pieces": [3], "stock": [-1]}, "a bar on hand of -1"),
        ({"pieces": [3], "buy": 0}, "a bar to buy of 0"),
        ({"pieces": [3], "kerf": -1}, "a kerf of -1 can't be planned; give whole units of 0"),
        ({"pieces": [3], "effort": -1}, "an effort of -1"),
    ],
)
def test_what_is_no_length_is_refused(arguments: dict[str, object], said: str) -> None:
    with pytest.raises(BadInput, match=said.replace("(", r"\(")):
        cut_plan(**arguments)  # type: ignore[arg-type]
