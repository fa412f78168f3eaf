"""The fold: total, deterministic, and whole whatever the order in which acts arrive."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.build.making import Yard, act, check, ground, run
from tracker.act import Act
from tracker.build.fold import APPLIERS, EMPTY, dead_acts, fold, undone_by

words = st.sampled_from(["run:L1", "check:label", "part:foam", "good", "L1", "", "2027-03-01", "~"])
json = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | words | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words | st.text(), inner),
    max_leaves=6,
)
SOUND: list[dict[str, Any]] = [
    {"f": "item.added", "id": "run:L1", "kind": "run", "slug": "L1", "fields": {"to": "lamp"}},
    {"f": "item.added", "kind": "part", "slug": "foam", "fields": {}, "id": "part:foam"},
    {"f": "item.set", "id": "run:L1", "set": {"to": "fan", "slug": "L2"}, "over": {"to": ["x/0"]}},
    {"f": "item.removed", "id": "run:L1", "why": "not needed"},
    {"f": "item.renewed", "id": "check:label", "set": {"text": "labelled", "say": None}},
    {
        "f": "phase.adopted",
        "phase": {"id": "phase:x", "slug": "x", "fields": {}},
        "items": [{"id": "check:label", "kind": "check", "slug": "label", "fields": {}}],
    },
    {
        "f": "point.answered",
        "check": "check:label",
        "subject": "run:L1",
        "result": "measured",
        "value": 0.4,
        "saw": {"to": "lamp"},
        "over": [],
        "why": "near enough",
        "second": "Ola",
    },
    {
        "f": "hold.released",
        "hold": "phase:x",
        "zone": "",
        "basis": {"a": [0]},
        "open": [["c", "s"]],
        "second": "Ola",
    },
    {"f": "hold.withdrawn", "hold": "phase:x", "why": "rain"},
    {"f": "hold.closed", "hold": "phase:x", "covered": ["run:L1"]},
    {"f": "hold.reopened", "hold": "phase:x", "why": "short wire"},
    {"f": "task.worked", "task": "run:L1", "fraction": 0.5, "hours": 2.0, "next": "clips"},
    {"f": "stock.counted", "part": "part:foam", "place": "shelf", "count": 3, "saw": []},
    {"f": "stock.counted", "part": "part:foam", "place": "shelf", "lengths": [1.0, 2.0]},
    {"f": "stock.counted", "part": "part:foam", "place": "shelf", "level": "low"},
    {"f": "stock.moved", "part": "part:foam", "place": "shelf", "quantity": 2, "why": "received"},
    {"f": "stock.ordered", "part": "part:foam", "quantity": 2, "due": "2027-03-09"},
    {"f": "stock.set-aside", "part": "part:foam", "place": "s", "quantity": 1, "for": "run:L1"},
    {"f": "condition.logged", "zone": "", "surface_c": 4.0, "rain": True},
    {"f": "day.started", "people": 2, "from_h": 8, "dry": True},
    {"f": "note.written", "text": "swept", "on": ["run:L1"]},
    {"f": "inbox.put", "text": "twelve ok"},
    {"f": "inbox.sorted", "line": "x/0", "into": "note"},
    {"f": "reservation.accepted", "key": "gap-1", "why": "seen"},
    {"f": "undo", "acts": ["x"]},
]


@st.composite
def spoilt(draw: st.DrawFn) -> dict[str, Any]:
    """A fact of a known kind of which some keys are gone, or hold anything at all."""
    fact = dict(draw(st.sampled_from(SOUND)))
    for key in draw(st.lists(st.sampled_from(sorted(fact)), max_size=2)):
        if draw(st.booleans()):
            fact.pop(key, None)
        else:
            fact[key] = draw(json)
    return fact


facts = spoilt() | st.sampled_from(SOUND) | st.dictionaries(st.just("f") | words, json, max_size=3)


@st.composite
def junk(draw: st.DrawFn) -> list[Act]:
    """Acts whose facts may say anything; some undo acts that are, were or never will be."""
    acts = [
        act(number, *draw(st.lists(facts, max_size=3)), writer=draw(st.sampled_from(WRITERS)))
        for number in range(1, draw(st.integers(1, 8)) + 1)
    ]
    for number in range(len(acts)):
        if draw(st.integers(0, 3)) == 0:
            targets = draw(st.lists(st.sampled_from([each.id for each in acts]), max_size=2))
            acts[number] = acts[number]._replace(facts=({"f": "undo", "acts": targets},))
    return acts


WRITERS = ("aaaaaaaa", "bbbbbbbb", "cccccccc")


def test_every_kind_of_fact_has_a_sound_example_and_all_of_them_are_taken() -> None:
    build = fold([act(number, fact) for number, fact in enumerate(SOUND, 1)])

    assert {fact["f"] for fact in SOUND} == set(APPLIERS)
    assert build.unknown == []


@given(junk(), st.randoms(use_true_random=False))
@settings(max_examples=120)
def test_whatever_facts_say_the_fold_never_raises_and_every_order_gives_one_state(
    acts: list[Act], random: Any
) -> None:
    whole = fold(acts)
    shuffled = random.sample(acts, len(acts)) + acts[:2]
    cut = random.randrange(len(shuffled) + 1)

    assert fold(shuffled) == whole
    assert fold(shuffled[cut:], fold(shuffled[:cut])) == whole


@given(junk(), st.integers(0, 8))
@settings(max_examples=60)
def test_a_build_that_was_given_never_changes(acts: list[Act], cut: int) -> None:
    given_build = fold(acts[:cut])
    before = deepcopy(given_build)

    fold(acts[cut:], given_build)

    assert given_build == before


@given(spoilt())
@settings(max_examples=150)
def test_a_fact_that_can_not_be_read_changes_nothing_at_all(fact: dict[str, Any]) -> None:
    before = fold([act(1, *SOUND[:2]), act(2, SOUND[4])])

    after = fold([act(3, fact)], before)

    if after.unknown:
        after.unknown, after.acts = [], before.acts
        assert after == before


def test_no_acts_leave_the_build_as_it_is() -> None:
    build = Yard(*ground()).build

    assert fold([], build) is build
    assert fold([]) == EMPTY


@pytest.mark.parametrize("fact", [{"f": "run.painted", "id": "L1"}, {"f": ["undo"]}, {}])
def test_a_fact_of_an_unknown_kind_is_named_and_passed_over(fact: dict[str, Any]) -> None:
    build = fold([act(1, run("L1"), fact)])

    assert build.unknown == [f"{act(1).id}/1"]
    assert "run:L1" in build.items


def test_a_phase_with_one_bad_row_is_not_taken_by_halves() -> None:
    phase = {"id": "phase:x", "slug": "x", "fields": {}}
    rows = [{"id": "check:a", "kind": "check", "slug": "a", "fields": {}}, {"id": "check:b"}]

    build = fold([act(1, {"f": "phase.adopted", "phase": phase, "items": rows})])

    assert build.items == {}
    assert len(build.unknown) == 1


def test_a_fact_about_an_item_that_comes_later_waits_for_it() -> None:
    early = act(1, {"f": "item.set", "id": "run:L1", "set": {"to": "lamp"}})
    late = act(2, run("L1"))

    assert list(fold([early]).orphans) == ["run:L1"]
    assert fold([late, early]).items["run:L1"].fields["to"] == "lamp"
    assert fold([late], fold([early])).orphans == {}


def test_an_answer_that_lacks_two_items_waits_for_both() -> None:
    answer = {"f": "point.answered", "check": "check:a", "subject": "run:L1", "result": "good"}

    build = fold([act(1, answer), act(2, check("a"))])
    assert list(build.orphans) == ["run:L1"]

    build = fold([act(3, run("L1"))], build)
    assert build.answers["check:a", "run:L1"][0].result == "good"


def test_the_same_item_added_twice_stays_as_it_was_first() -> None:
    build = fold([act(1, run("L1", to="lamp")), act(2, run("L1", to="fan"))])

    assert build.items["run:L1"].get("to") == "lamp"


def test_an_undo_of_an_undo_lets_the_act_live_again() -> None:
    first, second = act(1, run("L1")), act(2, {"f": "undo", "acts": [act(1).id]})
    third = act(3, {"f": "undo", "acts": [second.id]})

    assert dead_acts([first, second]) == {first.id}
    assert dead_acts([third, first, second]) == {second.id}


def test_an_undo_of_an_act_that_has_not_arrived_counts_when_it_does() -> None:
    undo, late = act(1, {"f": "undo", "acts": [act(2).id]}), act(2, run("L1"))

    assert fold([late], fold([undo])) == fold([undo, late])
    assert fold([undo, late]).items == {}


@pytest.mark.parametrize("acts", [None, 5, "abc", [5, None], {"a": 1}])
def test_an_undo_that_names_no_acts_undoes_nothing(acts: Any) -> None:
    assert undone_by(act(1, {"f": "undo", "acts": acts})) == []


def test_two_undone_facts_that_replace_each_other_do_not_go_on_for_ever() -> None:
    one, other = act(2).ref(0), act(3).ref(0)
    setting = {"f": "item.set", "id": "run:L1", "set": {"to": "x"}}
    acts = [
        act(1, run("L1")),
        act(2, setting | {"over": {"to": [other]}}),
        act(3, setting | {"over": {"to": [one]}}),
        act(4, {"f": "undo", "acts": [act(2).id, act(3).id]}),
        act(5, setting | {"over": {"to": [one]}}),
    ]

    assert fold(acts).items["run:L1"].get("to") == "x"
