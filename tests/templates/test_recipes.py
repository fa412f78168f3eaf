"""The recipes of fixtures: all that were promised, and one sentence for each fault."""

from __future__ import annotations

import re

import pytest

from tracker.errors import BadFile, UnknownName
from tracker.sizing.switching import stretches
from tracker.templates.recipes import load, recipe, recipes

WANTED = {
    "lamp", "lamp-row", "fan", "pump", "outlet", "switch-pair", "speaker", "heater",
    "solar-gland", "detector", "fridge", "water-heater", "camera", "tank-sender",
}  # fmt: skip

GOOD = """[[fixture]]
name = "bell"
title = "Bell"
thing = "fixture"
summary = "a bell"

[[draft]]
of = "bell"
kind = "run"
key = "feed"
when = ["feed"]
set = {to = "{name}", load = "{amps}"}

[[part]]
of = "bell"
part = "gong"
unit = "each"
qty = 1
per = "run"
"""


def test_every_fixture_has_a_run_and_its_labels() -> None:
    assert set(recipes()) == WANTED
    for each in recipes().values():
        kinds = [draft.kind for draft in each.drafts]
        assert "run" in kinds
        assert "wire-label" in [needed.part for needed in each.parts]
        assert set(kinds) & {"hole", "pipe", "box", "backing", "opening"}


def test_no_recipe_states_a_current_a_size_or_a_length() -> None:
    for each in recipes().values():
        for draft in each.drafts:
            numbers = {name for name, value in draft.fields.items() if not isinstance(value, str)}
            assert numbers <= {"carries", "conductors"}


def test_the_travellers_of_a_switch_pair_are_those_of_the_sizing_helper() -> None:
    (_, between, _) = stretches(2, along=True)
    (travellers,) = [each for each in recipe("switch-pair").drafts if each.key == "travellers"]

    assert travellers.fields["conductors"] == between.conductors


def test_every_word_a_draft_names_another_by_is_the_key_of_one() -> None:
    keys = {draft.key for each in recipes().values() for draft in each.drafts}
    named = {
        str(value).removeprefix("@")
        for each in recipes().values()
        for draft in each.drafts
        if draft.kind == "hole"
        for value in draft.fields.get("carries", ())
    }

    assert named and named <= keys


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('thing = "fixture"', 'thing = "fixtur"', ":4: thing is 'fixtur' (did you mean fixture?)"),
        ('of = "bell"\nkind', 'of = "ball"\nkind', ":8: of names 'ball' (did you mean bell?)"),
        ('kind = "run"', 'kind = "rum"', ":9: kind is 'rum' (did you mean run?)"),
        ("to = ", "too = ", ":12: a wire run has no field 'too'; did you mean to"),
        ('["feed"]', '["fed"]', ":11: when"),
        ("qty = 1", "qty = 0", ":18: qty"),
        ('per = "run"', 'per = "ru"', ":19: per is 'ru' (did you mean run?)"),
    ],
)
def test_a_fault_is_named_with_its_line(old: str, new: str, said: str) -> None:
    assert GOOD.count(old) == 1
    with pytest.raises(BadFile, match=re.escape(said)):
        load(GOOD.replace(old, new), "own.toml")


def test_a_good_one_loads_and_an_unknown_one_offers_the_nearest() -> None:
    bell = load(GOOD, "own.toml")["bell"]

    assert (bell.drafts[0].per, bell.drafts[0].at, bell.parts[0].per) == ("once", "here", "run")
    with pytest.raises(UnknownName, match="mean camera"):
        recipe("camra")
