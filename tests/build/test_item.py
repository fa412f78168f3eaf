"""Items: added once, changed by facts that name what they replace, removed with a reason."""

from __future__ import annotations

import pytest

from tests.build.making import Yard, act, added, check, ground, run
from tracker.act import Fact
from tracker.build import item
from tracker.build.fold import fold
from tracker.build.item import Item, as_list, of_kind
from tracker.errors import Refused


def test_an_item_without_an_id_is_known_by_the_fact_that_added_it() -> None:
    build = fold([act(1, item.add("run", "L1", {"to": "lamp"}))])

    assert list(build.items) == [act(1).ref(0)]


def test_a_field_that_is_set_twice_in_turn_holds_the_later_value() -> None:
    yard = Yard(run("L1"))
    yard.change("L1", length_m=4.0)
    yard.change("L1", length_m=4.5)

    assert yard.item("L1").get("length_m") == 4.5
    assert yard.item("L1").rivals == {}


def test_none_makes_a_field_unknown_again() -> None:
    yard = Yard(run("L1", to="lamp"))
    yard.change("L1", to=None)

    assert yard.item("L1").get("to", "nobody knows") == "nobody knows"
    assert "to" not in yard.item("L1").fields


def test_a_field_set_by_two_who_did_not_know_of_each_other_is_in_conflict_until_settled() -> None:
    yard = Yard(run("L1"))
    mine, theirs = (item.change(yard.item("L1"), {"length_m": value}) for value in (4.0, 4.5))
    one, other = yard.do(mine), yard.do(theirs, writer="bbbbbbbb")

    assert yard.item("L1").rivals == {"length_m": {one.ref(0): 4.0, other.ref(0): 4.5}}

    settling = item.change(yard.item("L1"), {"length_m": 4.2})
    assert settling["over"] == {"length_m": [one.ref(0), other.ref(0)]}

    yard.do(settling)
    assert (yard.item("L1").rivals, yard.item("L1").get("length_m")) == ({}, 4.2)


def test_a_conflict_of_three_that_one_settles_in_part_stays_a_conflict_of_the_rest() -> None:
    yard = Yard(run("L1"))
    fact = item.change(yard.item("L1"), {"to": "a"})
    first, second = yard.do(fact), yard.do(fact | {"set": {"to": "b"}})
    third = yard.do(fact | {"set": {"to": "c"}, "over": {"to": [first.ref(0)]}})

    assert yard.item("L1").rivals["to"] == {second.ref(0): "b", third.ref(0): "c"}


def test_different_fields_never_conflict() -> None:
    yard = Yard(run("L1"))
    facts = [item.change(yard.item("L1"), values) for values in ({"to": "lamp"}, {"load_a": 2.0})]
    for fact in facts:
        yard.do(fact)

    assert yard.item("L1").rivals == {}


def test_a_new_short_name_is_a_change_like_any_other() -> None:
    yard = Yard(run("L1"))
    yard.change("L1", slug="L7")

    assert yard.item("L7").id == "run:L1"


@pytest.mark.parametrize(
    "fact",
    [
        {"f": "item.set", "id": "run:L1", "set": {"slug": None, "to": "fan"}},
        {"f": "item.set", "id": "run:L1", "set": [["to", "fan"]]},
        {"f": "item.set", "id": "run:L1", "set": {"to": "fan"}, "over": {"to": 5}},
        {"f": "item.removed", "id": "run:L1", "why": 3},
        {"f": "item.added", "id": "run:L2", "kind": "run", "slug": 12, "fields": {}},
        {"f": "item.added", "id": "run:L2", "kind": ["run"], "slug": "L2", "fields": {}},
        {"f": "item.added", "id": 7, "kind": "run", "slug": "L2", "fields": {}},
    ],
)
def test_a_fact_with_a_value_of_the_wrong_type_changes_nothing(fact: Fact) -> None:
    before = Yard(run("L1", to="lamp"))
    after = Yard(run("L1", to="lamp"), fact)

    assert after.build.items == before.build.items
    assert len(after.build.unknown) == 1


def test_a_removed_item_stays_on_record_with_its_reason() -> None:
    yard = Yard(run("L1"), run("L2"))
    yard.remove("L1", "the lamp was dropped")

    assert yard.item("L1").removed == "the lamp was dropped"
    assert [each.slug for each in of_kind(yard.build.items.values(), "run")] == ["L2"]


@pytest.mark.parametrize("why", ["", "  "])
def test_removing_needs_a_reason(why: str) -> None:
    with pytest.raises(Refused, match="removing L1 needs a reason"):
        item.remove(Yard(run("L1")).item("L1"), why)


def test_the_vehicle_can_not_be_removed() -> None:
    with pytest.raises(Refused, match="the vehicle can't be removed"):
        item.remove(Yard(*ground()).item("vehicle"), "sold")


def test_a_reason_for_a_change_is_kept_in_the_fact() -> None:
    fact = item.change(Yard(run("L1")).item("L1"), {"to": "fan"}, "the lamp went")

    assert fact["why"] == "the lamp went"


@pytest.mark.parametrize(
    ("fact", "title"),
    [
        (run("L1"), "L1"),
        (run("L1", title="reading lamp"), "reading lamp"),
        (check("label"), "label is right"),
        (added("part", "foam", title=""), "foam"),
    ],
)
def test_people_read_the_title_then_the_text_then_the_short_name(fact: Fact, title: str) -> None:
    assert Yard(fact).item(fact["slug"]).title == title


def test_a_copy_may_be_changed_alone() -> None:
    one = Item("run:L1", "run", "L1", {"to": "lamp"}, "x/0", {"to": ("x/0",)}, {"to": {"x/0": 1}})
    other = one.copy()
    assert other == one

    other.fields["to"], other.heads["to"], other.rivals["to"] = "fan", (), {}

    assert one.fields == {"to": "lamp"}
    assert (one.heads, one.rivals) == ({"to": ("x/0",)}, {"to": {"x/0": 1}})


@pytest.mark.parametrize(
    ("value", "names"), [(None, []), ("B1", ["B1"]), (["B1", "B2"], ["B1", "B2"]), ((), [])]
)
def test_one_name_or_several_are_read_as_a_list(value: object, names: list[str]) -> None:
    assert list(as_list(value)) == names


def test_what_can_be_no_name_is_left_out_of_a_list_of_names() -> None:
    assert list(as_list(["B1", {"x": 1}, ["y"], 3])) == ["B1", 3]
    assert list(as_list({"x": 1})) == []


def test_two_new_short_names_given_apart_are_a_conflict_like_any_other() -> None:
    yard = Yard(run("L1"))
    facts = [item.change(yard.item("L1"), {"slug": slug}) for slug in ("L7", "L8")]
    for fact in facts:
        yard.do(fact)

    assert list(yard.item("L8").rivals["slug"].values()) == ["L7", "L8"]
