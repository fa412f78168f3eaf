"""Whether all pieces can be cut, against trying every way."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from tracker.plan.all_cut import all_cut


def _holds(pieces: list[float], bars: list[float], places: tuple[int, ...] | list[int]) -> bool:
    loads = [0.0] * len(bars)
    for piece, at in zip(pieces, places, strict=True):
        loads[at] += piece
    return all(load <= bar + 1e-6 for load, bar in zip(loads, bars, strict=True))


def test_what_first_fit_misses_is_found() -> None:
    pieces, bars = [6.0, 5.0, 4.0, 4.0], [9.0, 10.0]

    found = all_cut(pieces, bars)

    assert found is not None and _holds(pieces, bars, found)


def test_metres_enough_in_lengths_too_short_are_not_enough() -> None:
    assert all_cut([9.4], [9.0, 8.5, 7.5, 6.0]) is None


_tenths = st.integers(1, 60).map(lambda tenths: tenths / 10)


@given(st.lists(_tenths, max_size=6), st.lists(_tenths | st.just(0.0), max_size=4))
def test_it_is_found_just_where_some_way_holds(pieces: list[float], bars: list[float]) -> None:
    found = all_cut(pieces, bars)

    some = any(_holds(pieces, bars, way) for way in product(range(len(bars)), repeat=len(pieces)))
    assert (found is not None) == some
    assert found is None or _holds(pieces, bars, found)
