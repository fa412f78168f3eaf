"""What every helper promises, asked of each in the list."""

from __future__ import annotations

import inspect
import re

import pytest

from tracker.errors import BadInput, UnknownName
from tracker.sizing.result import OutOfRange, Result, as_json
from tracker.sizing.spec import HELPERS, Input, guard, helper, taken

SECTIONS = ("Formula", "Parameters", "Returns", "Valid", "Source", "Example")


def _section(text: str, title: str) -> str:
    found = re.search(rf"^{title}\n-+\n(.*?)(?=^\w+\n-+\n|\Z)", text, re.M | re.S)
    return found[1] if found else ""


@pytest.mark.parametrize("name", HELPERS)
def test_a_helper_is_called_as_it_is_listed(name: str) -> None:
    assert helper(name).name == name
    assert helper(name).examples.strip()


@pytest.mark.parametrize("name", HELPERS)
def test_the_function_takes_the_inputs_of_the_spec_and_no_others(name: str) -> None:
    found = helper(name)

    assert [each.name for each in found.inputs] == list(inspect.signature(found.run).parameters)


@pytest.mark.parametrize("name", HELPERS)
def test_the_docstring_has_the_form_and_tells_of_every_input(name: str) -> None:
    found = helper(name)
    text = inspect.getdoc(found.run) or ""

    assert [title for title in SECTIONS if not _section(text, title)] == []
    told = re.findall(r"^(\w+): ", _section(text, "Parameters"), re.M)
    assert told == [each.name for each in found.inputs]


@pytest.mark.parametrize("name", HELPERS)
def test_the_docstring_gives_the_ranges_that_are_guarded(name: str) -> None:
    found = helper(name)
    valid = _section(inspect.getdoc(found.run) or "", "Valid")
    ranges = re.findall(r"^(\w+): ([-0-9.]+)\.\.([-0-9.]+)", valid, re.M)

    assert {key: (float(low), float(high)) for key, low, high in ranges} == {
        each.name: (each.low, each.high) for each in found.inputs if each.low is not None
    }


@pytest.mark.parametrize("name", HELPERS)
def test_a_number_of_a_helper_has_its_unit_in_its_name(name: str) -> None:
    for each in helper(name).inputs:
        if each.type == "number" and each.unit:
            unit = {"%": "percent"}.get(each.unit, each.unit)
            assert each.name.casefold().endswith(f"_{unit}".casefold()), each.name


def test_an_unknown_helper_is_a_name_not_known() -> None:
    with pytest.raises(UnknownName):
        helper("no-such-thing")


def test_guard_refuses_what_is_out_of_range_naming_the_range() -> None:
    amps = Input("load_a", "--amps", "load", "A", low=0.1, high=100, why="own limit")

    for value in (0.0, 101.0, float("nan"), float("inf")):
        with pytest.raises(OutOfRange, match=r"--amps .*outside 0.1 to 100 A \(own limit\)"):
            guard((amps,), load_a=value)
    guard((amps,), load_a=0.1)
    guard((amps,), load_a=None)


def test_a_bare_number_is_refused_where_a_unit_is_meant() -> None:
    amps = Input("load_a", "--amps", "load", "A")

    with pytest.raises(BadInput, match=r"--amps: .*needs a unit"):
        taken((amps,), {"load_a": "8"})


def test_a_result_gives_its_figures_at_the_top_of_its_json() -> None:
    from tracker.sizing.result import Figure, Source

    made = Result(
        "14 AWG",
        (Figure("drop_v", 0.2, "V", "drop"),),
        "drop",
        ("a = b",),
        (("other", "12 AWG"),),
        (Source("a book", "2nd", "p. 3", True),),
        ("check it",),
        "1",
    )

    said = as_json(made)

    assert said["drop_v"] == 0.2 == made["drop_v"]
    assert said["others"] == [{"name": "other", "answer": "12 AWG"}]
    assert said["sources"][0]["verified"] is True
    with pytest.raises(KeyError):
        made["size"]
