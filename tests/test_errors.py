"""Errors people meet."""

from __future__ import annotations

import inspect
import re

import pytest

from tracker import errors
from tracker.errors import BadFile, CloseinError, NotSaved, UnknownName, did_you_mean

ALL = [
    found
    for _, found in inspect.getmembers(errors, inspect.isclass)
    if issubclass(found, CloseinError)
]


def test_the_tree_in_the_docstring_names_every_error_under_its_parent() -> None:
    tree: list[tuple[int, str]] = [
        (line.index(name), name)
        for line in (errors.__doc__ or "").splitlines()
        if (found := re.match(r"[ │├└─]*([A-Z]\w+)  +\S", line)) and (name := found[1])
    ]
    parents: dict[str, str] = {}
    for place, (depth, name) in enumerate(tree[1:], 1):
        parents[name] = next(up for deep, up in reversed(tree[:place]) if deep < depth)

    assert parents == {
        found.__name__: found.__bases__[0].__name__ for found in ALL if found is not CloseinError
    }


def test_only_a_disk_that_took_nothing_ends_with_status_three() -> None:
    assert {found.exit_status for found in ALL if found is not NotSaved} == {2}
    assert NotSaved.exit_status == 3


def test_an_unknown_name_keeps_what_was_known_and_offers_the_nearest() -> None:
    error = UnknownName("run", "L21", ["L12", "L2", "L1"])

    assert error.known == ("L12", "L2", "L1")
    assert str(error) == "no run is called 'L21'; did you mean L2 or L1 or L12?"


def test_a_bad_file_says_file_and_line_first() -> None:
    assert str(BadFile("plan.toml", 7, "no such key")) == "plan.toml:7: no such key"
    assert str(BadFile("plan.toml", None, "no such key")) == "plan.toml: no such key"


@pytest.mark.parametrize(
    ("name", "known", "clause"),
    [
        ("labl", ["label", "lead"], "; did you mean label?"),
        ("zzz", ["label", "lead"], "; there is label, lead"),
        ("zzz", [f"name{number}" for number in range(9)], ""),
        ("zzz", [], ""),
    ],
)
def test_near_names_are_offered_or_a_few_are_all_named(
    name: str, known: list[str], clause: str
) -> None:
    assert did_you_mean(name, known) == clause
