"""Adding, changing and removing items."""

from __future__ import annotations

import pytest

from tracker.app.session import Session
from tracker.app.wants import items
from tracker.build.item import add, change
from tracker.errors import BadInput, CloseinError, Refused, UnknownName


def test_an_item_needs_nothing_but_a_name_and_gets_one_where_none_is_given(bare: Session) -> None:
    bare.do(items.add("run", None, {}))
    bare.do(items.add("run", None, {"to": "fan", "length": "18 ft"}))

    second = bare.names.find("L2", ("run",))
    assert bare.names.find("L1", ("run",)).fields == {}
    assert second.fields == {"to": "fan", "length_m": pytest.approx(5.4864)}


def test_a_name_that_is_taken_is_refused_with_one_that_is_free(heron: Session) -> None:
    with pytest.raises(BadInput, match=r"called 'l2' already; 'L\d+' is free"):
        heron.do(items.add("run", "l2", {}))


@pytest.mark.parametrize("slug", ["L 1", "", "-a", "a/b", "a" * 41, "$(date)"])
def test_a_name_that_can_not_be_typed_is_refused(bare: Session, slug: str) -> None:
    with pytest.raises(BadInput, match="short name"):
        bare.do(items.add("run", slug, {}))


@pytest.mark.parametrize(
    ("kind", "values", "why"),
    [
        ("rnu", {}, "did you mean run"),
        ("run", {"lenght": "3m"}, "did you mean length_m"),
        ("run", {"length": "3"}, "needs a unit"),
        ("run", {"length": "3m", "length_m": "4m"}, "given twice"),
        ("run", {"bay": "B99"}, "no bay is called 'B99'"),
        ("hole", {"through": "ribb"}, "did you mean rib"),
        ("check", {"each": "runn"}, "did you mean run"),
        ("vehicle", {}, "one vehicle"),
        ("holdpoint", {}, "closein phases adopt"),
        ("part", {"unit": "ft"}, "keep it in m"),
    ],
)
def test_what_can_not_be_added_says_what_is_allowed(
    heron: Session, kind: str, values: dict[str, str], why: str
) -> None:
    before = heron.build.acts

    with pytest.raises(CloseinError, match=why):
        heron.do(items.add(kind, None, values))
    assert heron.build.acts == before


def test_a_range_is_changed_as_one_act_and_only_where_it_differs(heron: Session) -> None:
    heron.do(items.change("L1", {"gauge": "14AWG"}))
    act = heron.do(items.change("L1-L12", {"gauge": "14AWG"}))

    changed = {heron.names.name(fact["id"]) for fact in act.facts}
    assert changed == {"L2", "L12"}


def test_a_change_that_changes_nothing_is_refused(heron: Session) -> None:
    with pytest.raises(BadInput, match="nothing changes"):
        heron.do(items.change("L1", {"to": "reading lamp"}))


def test_an_item_is_renamed_and_unknown_forgets_a_value(heron: Session) -> None:
    heron.do(items.change("L1", {"name": "L7", "length": "unknown"}))

    item = heron.names.find("L7")
    assert item.get("length_m") is None
    assert item.get("to") == "reading lamp"


def test_several_can_not_be_renamed_at_once_nor_to_a_name_that_is_taken(heron: Session) -> None:
    with pytest.raises(BadInput, match="one item at a time"):
        heron.do(items.change("L1,L2", {"name": "L9"}))
    with pytest.raises(BadInput, match="is free"):
        heron.do(items.change("L1", {"name": "L2"}))


def test_a_field_in_conflict_is_settled_by_saying_the_value_that_shows(heron: Session) -> None:
    run = heron.names.find("L1")
    heron.do(lambda _: [change(run, {"to": "lamp"}), change(run, {"to": "fan"})])
    assert "to" in heron.names.find("L1").rivals

    heron.do(items.change("L1", {"to": "fan"}))

    assert heron.names.find("L1").rivals == {}


def test_what_is_buried_changes_only_with_a_reason_that_is_kept(heron: Session) -> None:
    run, hold = heron.names.find("L1"), heron.names.find("pre-foam", ("holdpoint",))
    heron.do(lambda _: [{"f": "hold.closed", "hold": hold.id, "covered": [run.id]}])

    with pytest.raises(Refused, match="buried"):
        heron.do(items.change("L1", {"length": "6m"}))
    act = heron.do(items.change("L1", {"length": "6m"}, why="moved the lamp"))

    assert act.facts[0]["why"] == "moved the lamp"
    assert heron.names.find("L1").get("length_m") == 6.0


def test_an_item_is_removed_with_a_reason_and_its_record_stays(heron: Session) -> None:
    run = heron.names.find("L1")

    with pytest.raises(Refused, match="reason"):
        heron.do(items.remove("L1", "  "))
    heron.do(items.remove("L1", "no lamp there"))

    assert heron.build.items[run.id].removed == "no lamp there"
    with pytest.raises(UnknownName):
        heron.names.find("L1")


@pytest.mark.parametrize("name", ["label-both-ends", "pre-foam", "phase:insulation", "vehicle"])
def test_what_came_with_a_phase_can_not_be_removed(heron: Session, name: str) -> None:
    with pytest.raises(Refused, match="can't be removed"):
        heron.do(items.remove(name, "it is in the way"))


def test_a_template_check_keeps_its_class_but_its_limit_can_be_set(heron: Session) -> None:
    with pytest.raises(Refused, match="its class stays"):
        heron.do(items.change("label-both-ends", {"class": "review"}))
    heron.do(items.change("lead-length", {"limit_min": "0.5"}))

    assert heron.names.find("lead-length").get("limit_min") == 0.5


def test_a_check_of_ones_own_counts_before_its_hold_point(heron: Session) -> None:
    values = {"text": "The lamp's box is level", "each": "run", "before": "pre-foam"}
    heron.do(items.add("check", "box-level", {**values, "class": "hold"}))

    hold = heron.names.find("pre-foam", ("holdpoint",))
    subjects = [s.slug for c, s in heron.cover.points(hold) if c.slug == "box-level"]
    assert subjects == ["L1", "L2", "L12"]


def test_a_name_two_kinds_share_is_told_apart_by_its_kind(heron: Session) -> None:
    heron.do(lambda _: [add("box", "L1", {})])

    with pytest.raises(BadInput, match="kind:name"):
        heron.do(items.change("L1", {"height": "1m"}))
    heron.do(items.change("box:L1", {"height": "1m"}))
    assert heron.names.find("box:L1").get("height_m") == 1.0
