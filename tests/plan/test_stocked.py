"""What there is of a part, as a shelf."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.plan.stocked import MOST_PUT_UPS, put_ups


def test_wire_comes_in_whole_put_ups_and_what_is_over() -> None:
    assert put_ups(25.0, 10.0) == [10.0, 10.0, 5.0]
    assert put_ups(30.0, 10.0) == [10.0] * 3
    assert put_ups(4.0, 10.0) == [4.0]
    assert put_ups(25.0, 0.0) == [25.0]


@given(st.integers(1, 3000), st.integers(1, 400))
def test_the_put_ups_make_up_the_order(tenths: int, each: int) -> None:
    found = put_ups(tenths / 10, each / 10)

    assert len(found) <= MOST_PUT_UPS + 1
    assert max(found) <= each / 10
    if tenths / each < MOST_PUT_UPS:
        assert sum(found) == pytest.approx(tenths / 10)
