from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.app.views.words.counting import counted, natural, ranges


@pytest.mark.parametrize(
    ("names", "words"),
    [
        ([], ""),
        (["L1"], "L1"),
        (["L1", "L2"], "L1 L2"),
        (["L1", "L2", "L3", "L4", "L7"], "L1-L4 L7"),
        (["L9", "L10", "L11"], "L9-L11"),
        (["L1", "H2", "L3"], "L1 H2 L3"),
        (["L3", "L2", "L1"], "L3 L2 L1"),
        (["L1", "L2", "L2~2", "L3"], "L1 L2 L2~2 L3"),
        (["gas-1a", "gas-2a"], "gas-1a gas-2a"),
        (["vehicle", "port"], "vehicle port"),
    ],
)
def test_names_numbered_in_a_row_become_a_range(names: list[str], words: str) -> None:
    assert ranges(names) == words


@given(st.lists(st.integers(0, 30), max_size=20))
def test_a_range_names_what_went_in_and_nothing_else(numbers: list[int]) -> None:
    names = [f"L{number}" for number in numbers]

    back: list[str] = []
    for word in ranges(names).split():
        first, *last = (int(digits) for digits in re.findall(r"\d+", word))
        back += [f"L{number}" for number in range(first, (last or [first])[0] + 1)]

    assert back == names


@pytest.mark.parametrize(("count", "words"), [(0, "0 items"), (1, "1 item"), (2, "2 items")])
def test_a_count_agrees_with_its_noun(count: int, words: str) -> None:
    assert counted(count, "item") == words


def test_names_sort_with_their_numbers_as_numbers() -> None:
    names = ["vehicle", "B10", "B2", "A5", "B2~2", "B"]

    assert sorted(names, key=natural) == ["A5", "B", "B2", "B10", "B2~2", "vehicle"]
