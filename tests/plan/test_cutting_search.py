"""The parts of the cutting search against trying everything."""

from __future__ import annotations

from collections import Counter
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fill import fills, fullest
from tracker.plan.cutting.fit import counted, fit
from tracker.plan.cutting.greedy import fullest_first
from tracker.plan.cutting.repack import repack
from tracker.plan.cutting.search import search

PLENTY = 1_000_000
falling = st.lists(st.integers(1, 30), min_size=1, max_size=8).map(
    lambda pieces: sorted(pieces, reverse=True)
)
bars = st.lists(st.sampled_from([11, 20, 20, 27, 33, 40]), min_size=1, max_size=4).map(sorted)


def _can_be_cut(pieces: list[int], rooms: tuple[int, ...]) -> bool:
    """By trying each piece in each bar."""
    if not pieces:
        return True
    return any(
        _can_be_cut(pieces[1:], (*rooms[:at], room - pieces[0], *rooms[at + 1 :]))
        for at, room in enumerate(rooms)
        if room >= pieces[0] and room not in rooms[:at]
    )


@settings(max_examples=500)
@given(falling, bars)
def test_the_search_finds_a_plan_where_there_is_one_and_only_there(
    pieces: list[int], rooms: list[int]
) -> None:
    loads, certain = search(*counted(pieces), rooms, Effort(PLENTY))

    assert certain
    assert (loads is not None) == _can_be_cut(pieces, tuple(rooms))
    if loads is not None:
        assert Counter(piece for load in loads for piece in load) == Counter(pieces)
        assert all(sum(load) <= room for load, room in zip(loads, rooms, strict=True))


@settings(max_examples=300)
@given(falling, bars)
def test_a_fit_is_certain_and_right_with_effort_enough(pieces: list[int], rooms: list[int]) -> None:
    loads, certain = fit(pieces, rooms, Effort(PLENTY))

    assert certain
    assert (loads is not None) == _can_be_cut(pieces, tuple(rooms))


@given(falling, bars, st.integers(0, 40))
def test_a_search_that_ends_early_never_says_that_it_is_certain_of_nothing(
    pieces: list[int], rooms: list[int], effort: int
) -> None:
    loads, certain = search(*counted(pieces), rooms, Effort(effort))

    if certain:
        assert (loads is not None) == _can_be_cut(pieces, tuple(rooms))


@given(falling, st.integers(0, 60), st.integers(0, 40))
def test_every_way_to_fill_a_bar_comes_once_and_the_fullest_first(
    pieces: list[int], room: int, least: int
) -> None:
    sizes, counts = counted(pieces)
    expected = {
        numbers
        for numbers in product(*(range(count + 1) for count in counts))
        if least <= sum(n * size for n, size in zip(numbers, sizes, strict=True)) <= room
    }

    found = list(fills(sizes, counts, room, least))

    as_numbers = [tuple(dict(chosen).get(at, 0) for at in range(len(sizes))) for _, chosen in found]
    assert len(as_numbers) == len(set(as_numbers))
    assert set(as_numbers) == expected
    empty = [rest for rest, _ in found]
    assert empty == sorted(empty)
    assert all(
        rest == room - sum(sizes[at] * number for at, number in chosen) for rest, chosen in found
    )


@given(falling, st.integers(0, 60), st.booleans())
def test_the_fullest_load_is_as_full_as_any(pieces: list[int], room: int, skip: bool) -> None:
    taken, over = fullest(pieces, room, lambda: skip)

    sums = {0}
    for piece in pieces:
        sums |= {total + piece for total in sums}
    assert sum(taken) == max(total for total in sums if total <= room)
    assert sorted([*taken, *over], reverse=True) == pieces


@given(falling, bars)
def test_repacking_loses_no_piece_and_overfills_no_bar(pieces: list[int], rooms: list[int]) -> None:
    loads, over = fullest_first(pieces, rooms)

    packed = repack(loads, over, rooms, Effort(300))

    if packed is not None:
        assert Counter(piece for load in packed for piece in load) == Counter(pieces)
        assert all(sum(load) <= room for load, room in zip(packed, rooms, strict=True))
    else:
        assert over
