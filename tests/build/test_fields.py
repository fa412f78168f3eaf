"""No act, whoever wrote it, puts a text where a number is reckoned with."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.build.making import act, added
from tracker.build.fields import fits
from tracker.build.fold import fold

JUNK = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["min", "likely", "part", "x"]), inner, max_size=3)
    ),
    max_leaves=6,
)


@pytest.mark.parametrize(
    ("name", "good", "bad"),
    [
        ("length_m", 5.5, "5.5"),
        ("needed", 12, True),
        ("load_a", 0.8, float("nan")),
        ("booked", "2027-04-18", "soon"),
        ("booked@zone", "2027-04-18", 3),
        ("bay", ["a", "b"], [["a"]]),
        ("each", "run", ["run"]),
        ("waive", False, "no"),
        ("limit", {"min": 0.3, "unit": "m"}, {"min": "0.3", "unit": "m"}),
        ("hours", {"likely": [1.0, 0.2]}, {"likely": "long"}),
        ("parts", [{"part": "clip", "qty": 2.0}], [{"part": 3}]),
        ("where", {"exit": True}, {"exit": {"deep": 1}}),
        ("colour", "red", {"red": 1}),
    ],
)
def test_a_field_holds_what_its_name_says_and_nothing_else(name: str, good: Any, bad: Any) -> None:
    assert fits(name, good)
    assert not fits(name, bad)


@given(st.sampled_from(["length_m", "limit", "hours", "where", "parts", "bay", "booked"]), JUNK)
def test_any_value_is_held_or_passed_over(name: str, value: Any) -> None:
    assert fits(name, value) in (True, False)


def test_a_wrong_value_leaves_the_field_unknown_and_the_rest_as_it_was() -> None:
    made = act(1, added("run", "L1", length_m="x", to="lamp"))
    changed = act(2, {"f": "item.set", "id": "run:L1", "set": {"load_a": [1], "gauge": "14AWG"}})

    run = fold([made, changed]).items["run:L1"]

    assert run.fields == {"to": "lamp", "gauge": "14AWG"}
