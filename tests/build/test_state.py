"""The state: copies that may be changed, facts that wait, and what replaces what."""

from __future__ import annotations

import pytest

from tests.build.making import Yard, act, check, ground, run
from tracker.act import Act, Fact
from tracker.build.fold import EMPTY, fold
from tracker.build.state import Absent, Build


def _set(value: str, *over: str) -> Fact:
    return {"f": "item.set", "id": "run:L1", "set": {"to": value}, "over": {"to": list(over)}}


def _ref(number: int) -> str:
    return act(number).ref(0)


def _fold(*facts: Fact) -> Build:
    return fold([act(number, fact) for number, fact in enumerate(facts, 1)])


def _undo(number: int) -> Fact:
    return {"f": "undo", "acts": [act(number).id]}


def test_a_fact_undone_in_the_middle_of_a_chain_makes_no_false_conflict() -> None:
    build = _fold(run("L1"), _set("a"), _set("b", _ref(2)), _set("c", _ref(3)), _undo(3))

    subject = build.items["run:L1"]
    assert (subject.rivals, subject.heads["to"], subject.get("to")) == ({}, (_ref(4),), "c")


def test_two_facts_undone_in_a_row_are_both_seen_through() -> None:
    build = _fold(
        run("L1"),
        _set("a"),
        _set("b", _ref(2)),
        _set("c", _ref(3)),
        _set("d", _ref(4)),
        {"f": "undo", "acts": [act(3).id, act(4).id]},
    )

    assert build.items["run:L1"].heads["to"] == (_ref(5),)


def test_an_answer_undone_in_the_middle_of_a_chain_makes_no_false_conflict() -> None:
    answer = {"f": "point.answered", "check": "check:label", "subject": "run:L1", "result": "good"}
    acts = [
        act(1, run("L1"), check("label")),
        act(2, answer),
        act(3, answer | {"over": [_ref(2)]}),
        act(4, answer | {"result": "bad", "over": [_ref(3)]}),
        act(5, _undo(3)),
    ]

    heads = fold(acts).answers["check:label", "run:L1"]

    assert [head.ref for head in heads] == [_ref(4)]


def test_what_was_replaced_by_an_undone_fact_stands_again() -> None:
    build = _fold(run("L1"), _set("a"), _set("b", _ref(2)), _undo(3))

    assert build.items["run:L1"].get("to") == "a"


def test_a_real_conflict_stays_one_when_what_both_replaced_is_undone() -> None:
    build = _fold(run("L1"), _set("a"), _set("b", _ref(2)), _set("c", _ref(2)), _undo(2))

    assert build.items["run:L1"].rivals == {"to": {_ref(3): "b", _ref(4): "c"}}


def test_a_conflict_is_over_when_one_side_is_undone() -> None:
    build = _fold(run("L1"), _set("b"), _set("c"), _undo(2))

    subject = build.items["run:L1"]
    assert (subject.rivals, subject.get("to")) == ({}, "c")


def test_a_chain_of_thousands_of_undone_facts_is_seen_through() -> None:
    facts: list[Fact] = [run("L1"), _set("0")]
    facts += [_set(str(number), _ref(number - 1)) for number in range(3, 3000)]
    acts = [act(number, fact) for number, fact in enumerate(facts, 1)]
    acts.append(act(5000, {"f": "undo", "acts": [each.id for each in acts[2:-1]]}))

    assert len(fold(acts).items["run:L1"].heads["to"]) == 1


def test_items_of_a_draft_are_copied_before_they_change() -> None:
    before = Yard(*ground()).build
    draft = before.draft()

    draft.own("vehicle").fields["length_m"] = 99.0

    assert before.items["vehicle"].get("length_m") == 7.5
    assert draft.own("vehicle") is draft.items["vehicle"]


def test_what_is_not_here_is_named() -> None:
    with pytest.raises(Absent, match="run:L1"):
        EMPTY.draft().own("run:L1")
    with pytest.raises(Absent, match="run:L1"):
        Yard(*ground()).build.need("vehicle", "run:L1")


def test_an_item_is_found_by_its_id_or_not_at_all() -> None:
    build = _fold(run("L1"))

    assert build.item("run:L1") is build.items["run:L1"]
    assert build.item("run:L2") is None


def test_two_builds_that_know_the_same_are_equal_whatever_they_were_made_of() -> None:
    acts: list[Act] = [act(1, run("L1")), act(2, _set("a"))]

    assert fold(acts) == fold(acts[1:], fold(acts[:1]))
    assert fold(acts) != fold(acts[:1])
