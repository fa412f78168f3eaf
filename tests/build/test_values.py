"""Values inside facts are looked at strictly."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tracker.build import values


@pytest.mark.parametrize(
    ("read", "value", "read_as"),
    [
        (values.text, "L1", "L1"),
        (values.text_or_none, None, None),
        (values.number, 3, 3.0),
        (values.number_or_none, 0.5, 0.5),
        (values.number_or_none, None, None),
        (values.yesno_or_none, False, False),
        (values.yesno_or_none, None, None),
        (values.texts, ["a", "b"], ("a", "b")),
        (values.table, {"a": 1}, {"a": 1}),
    ],
)
def test_a_value_of_the_right_type_is_given_back(
    read: Callable[[Any], Any], value: Any, read_as: Any
) -> None:
    assert read(value) == read_as


@pytest.mark.parametrize(
    ("read", "value"),
    [
        (values.text, None),
        (values.text, 12),
        (values.text_or_none, ["a"]),
        (values.number, True),
        (values.number, "12"),
        (values.number, None),
        (values.number, float("inf")),
        (values.number, float("nan")),
        (values.number_or_none, "cold"),
        (values.yesno_or_none, 1),
        (values.texts, "ab"),
        (values.texts, ["a", 1]),
        (values.texts, None),
        (values.table, [["a", 1]]),
    ],
)
def test_a_value_of_another_type_is_not_taken(read: Callable[[Any], Any], value: Any) -> None:
    with pytest.raises(ValueError, match=r"not a|neither"):
        read(value)
