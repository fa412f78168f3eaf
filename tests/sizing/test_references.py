"""Every helper against published values; and every number of every table is held by one of them."""

from __future__ import annotations

from pathlib import Path

import pytest

import tracker.sizing
from tests.sizing.checking import Check, changed, numbers, references
from tracker.sizing.tables import packaged, standing_in

REFERENCES = references()
CHECKS = [check for module in REFERENCES for check in module.checks()]
TABLES = sorted(file.stem for file in Path(tracker.sizing.__file__).parent.glob("*.toml"))


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: f"{check.helper}: {check.name}")
def test_a_published_value_comes_out(check: Check) -> None:
    assert check.holds(), f"{check.name} is not what {check.source} says"


def test_every_check_names_its_source() -> None:
    assert [check.name for check in CHECKS if not check.source.strip()] == []


@pytest.mark.parametrize("name", TABLES)
def test_a_number_changed_by_a_twentieth_is_noticed(name: str) -> None:
    table = packaged(name)
    about = [check for module in REFERENCES if name in module.TABLES for check in module.checks()]
    unnoticed = []
    for path in numbers(table):
        # No whole number of things tells "from 2.85" from "from 3".
        counted = any(str(key).endswith("_count") for key in path)
        for factor in (1.05,) if counted else (1.05, 0.95):
            with standing_in(name, changed(table, path, factor)):
                if all(check.passes() for check in about):
                    unnoticed.append((*path, factor))

    assert unnoticed == []


@pytest.mark.parametrize("name", TABLES)
def test_every_group_of_rows_names_a_source_that_is_there(name: str) -> None:
    table = packaged(name)

    assert isinstance(table["version"], str)
    for key, row in table["source"].items():
        assert set(row) == {"name", "edition", "place", "verified"}, key
        assert isinstance(row["verified"], bool)
    groups = [row for key, row in table.items() if key not in ("version", "source")]
    assert _unsourced(groups, set(table["source"])) == []


def _unsourced(node: object, known: set[str]) -> list[object]:
    """The groups that hold numbers of their own and name no source here or above."""
    if isinstance(node, dict):
        if "source" in node:
            return [] if node["source"] in known else [node]
        if any(isinstance(value, int | float | str) for value in node.values()):
            return [node]
        return [bad for value in node.values() for bad in _unsourced(value, known)]
    if isinstance(node, list):
        return [bad for value in node for bad in _unsourced(value, known)]
    return [node]
