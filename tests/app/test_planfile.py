"""The plan as TOML: out and in again changes nothing, and only what is said changes."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.act import Act
from tracker.app.planfile import compare
from tracker.app.plantext import export, toml
from tracker.app.session import Session
from tracker.app.wants import items, phases
from tracker.build.fold import EMPTY, fold
from tracker.build.item import add, change
from tracker.build.kinds import Field, kinds
from tracker.build.names import Names
from tracker.build.state import Build
from tracker.errors import BadFile


def folded(*facts: Mapping[str, Any], onto: Build = EMPTY) -> Build:
    number = len(onto.acts) + 1
    return fold(
        [Act(f"{number:012x}-aaaaaaaa-{number}", "2030-05-02T08:00:00+00:00", "Ida", facts)], onto
    )


def test_a_file_of_runs_and_holes_is_one_act_whose_items_name_each_other(bare: Session) -> None:
    runs = "".join(f'[[run]]\nname = "L{n}"\nlength = "{n} ft"\n' for n in range(1, 31))
    holes = "".join(f'[[hole]]\nname = "H{n}"\ncarries = ["L{n}"]\n' for n in range(1, 31))
    acts = len(bare.build.acts)

    bare.do(items.take_file(holes + runs, "plan.toml"))

    assert len(bare.build.acts) == acts + 1
    run, hole = bare.names.find("L7"), bare.names.find("H7")
    assert run.get("length_m") == pytest.approx(7 * 0.3048)
    assert hole.get("carries") == [run.id]


def test_only_items_that_the_file_itself_names_get_an_id_of_their_own(bare: Session) -> None:
    text = '[[run]]\nname = "L1"\n[[run]]\nname = "L2"\n[[hole]]\nname = "H1"\ncarries = "L1"\n'
    facts = {fact["slug"]: fact for fact in compare(bare.build, text, "f").facts}

    assert "id" in facts["L1"]
    assert "id" not in facts["L2"] and "id" not in facts["H1"]
    assert compare(bare.build, text, "f").facts == compare(bare.build, text, "f").facts


def test_out_and_in_again_changes_nothing(heron: Session) -> None:
    for everything in (False, True):
        text = export(heron.build, "Heron", everything=everything)
        assert compare(heron.build, text, "plan.toml").facts == []


def test_what_came_with_the_phases_is_left_out_unless_asked_for(heron: Session) -> None:
    assert "[[check]]" not in export(heron.build, "Heron")
    assert "[[check]]" in export(heron.build, "Heron", everything=True)


def test_a_whole_plan_makes_the_same_build_elsewhere(heron: Session) -> None:
    elsewhere = folded(add("vehicle", "vehicle", {}, "vehicle"))
    text = export(heron.build, "Heron")

    copy = folded(*compare(elsewhere, text, "plan.toml").facts, onto=elsewhere)

    assert export(copy, "Heron") == text


def test_what_a_file_leaves_out_stays(heron: Session) -> None:
    text = '[[run]]\nname = "L1"\nlength_m = 6\n[[run]]\nname = "L2"\nto = "unknown"\n'
    heron.do(items.take_file(text, "plan.toml"))

    assert heron.names.find("L1").get("to") == "reading lamp"
    assert heron.names.find("L1").get("length_m") == 6.0
    assert heron.names.find("L2").get("to") is None
    assert heron.names.find("L12").removed is None


def test_an_item_is_removed_and_renamed_only_where_the_file_says_so(heron: Session) -> None:
    text = '[[run]]\nname = "L1"\nremoved = "no lamp"\n[[run]]\nname = "L2"\nrename = "L40"\n'
    difference = compare(heron.build, text, "plan.toml")
    heron.do(lambda _: difference.facts)

    assert difference.lines == ["- wire run L1: no lamp", "~ wire run L2: renamed L40"]
    assert sorted(heron.names.by_kind["run"]) == ["L12", "L40"]
    assert compare(heron.build, text.split('[[run]]\nname = "L2"')[0], "plan.toml").facts == []


def test_a_change_to_what_is_buried_needs_its_reason(heron: Session) -> None:
    run, hold = heron.names.find("L1"), heron.names.find("pre-foam", ("holdpoint",))
    heron.do(lambda _: [{"f": "hold.closed", "hold": hold.id, "covered": [run.id]}])
    text = '[[run]]\nname = "L1"\nto = "lamp"\n'

    with pytest.raises(BadFile, match=r"plan\.toml:2: L1 is buried"):
        compare(heron.build, text, "plan.toml")
    (fact,) = compare(heron.build, text + 'reason = "moved"\n', "plan.toml").facts
    assert fact["why"] == "moved"
    (fact,) = compare(heron.build, text, "plan.toml", why="all moved").facts
    assert fact["why"] == "all moved"


@pytest.mark.parametrize(
    ("text", "line", "why"),
    [
        ("[[runn]]\n", 1, "did you mean run"),
        ('[[run]]\nto = "x"\n', 1, "lacks the key 'name'"),
        ('[[run]]\nname = "L1"\nlenght_m = 3\n', 3, "did you mean length_m"),
        ('[[run]]\nname = "L1"\nlength_m = 900\n', 3, "outside 0 to 200"),
        ('[[run]]\nname = "L1"\nlength = "5"\n', 3, "needs a unit"),
        ('[[run]]\nname = "L1"\nlength = "5m"\nlength_m = 5\n', 4, "given twice"),
        ('[[run]]\nname = "L 9"\n', 2, "short name"),
        ('[[run]]\nname = "L90"\n[[run]]\nname = "l90"\n', 4, "stands here twice"),
        ('[[hole]]\nname = "H9"\n\ncarries = ["L99"]\n', 4, "no run is called 'L99'"),
        ('[[hole]]\nname = "H9"\nthrough = "ribb"\n', 3, "did you mean rib"),
        ('[[run]]\nname = "L99"\nremoved = "x"\n', 2, "can't be changed"),
        ('[[run]]\nname = "L1"\nrename = "L2"\n', 2, "is free"),
        ('[[run]]\nname = "L1"\ncritical = 1\n', 3, "yes or no"),
        ('[[run]]\nname = "L1"\nto = ["x"]\n', 3, "is a text"),
        ('[[holdpoint]]\nname = "pre-panel"\n', 2, "comes with a phase"),
        ('[[check]]\nname = "label-both-ends"\nremoved = "x"\n', 3, "can't be removed"),
        ("[[vehicle]]\n", 1, "written as [vehicle]"),
        ("[[run]\n", 1, "TOML"),
    ],
)
def test_a_fault_is_one_sentence_with_its_line_and_nothing_counts(
    heron: Session, text: str, line: int, why: str
) -> None:
    with pytest.raises(BadFile) as caught:
        compare(heron.build, '[[run]]\nname = "L77"\n' + text, "plan.toml")

    assert str(caught.value).startswith(f"plan.toml:{line + 2}: ")
    assert why in str(caught.value)
    assert "\n" not in str(caught.value)


def test_only_what_was_edited_changes_whatever_others_did_meanwhile(heron: Session) -> None:
    base = export(heron.build, "Heron")
    heron.do(items.change("L2", {"to": "pump"}))
    heron.do(items.remove("L12", "gone"))
    edited = base.replace("reading lamp", "ceiling lamp")

    facts = compare(heron.build, edited, "plan.toml", base=base).facts

    assert [fact["set"] for fact in facts] == [{"to": "ceiling lamp"}]


def test_editing_what_was_removed_meanwhile_is_an_error(heron: Session) -> None:
    base = export(heron.build, "Heron")
    heron.do(items.remove("L12", "gone"))

    with pytest.raises(BadFile, match="in the meantime"):
        compare(heron.build, base.replace('"pump"', '"tap"'), "plan.toml", base=base)


def test_two_that_share_a_name_and_a_conflict_come_out_and_in(heron: Session) -> None:
    heron.do(lambda _: [add("run", "L1", {"to": "heater"})])
    run = heron.names.find("L2")
    heron.do(lambda _: [change(run, {"to": "a"}), change(run, {"to": "b"})])
    text = export(heron.build, "Heron")

    assert 'name = "L1~2"' in text
    assert "# in conflict: to is" in text
    assert compare(heron.build, text, "plan.toml").facts == []


def test_what_others_wrote_into_fields_never_breaks_the_text() -> None:
    odd: dict[str, Any] = {
        "to": 'a "b"\n\x00\x7f\ud800',
        "length_m": float("inf"),
        "route": {"x": 1},
    }
    build = folded(add("run", "L90", odd | {"bay": ["gone", 3]}))
    text = export(build, "He\nron")

    assert tomllib.loads(text)["run"][-1] == {"name": "L90", "to": 'a "b"\n\x00\x7f?'}
    assert compare(build, text, "plan.toml").facts == []


@given(st.text())
def test_any_text_is_quoted_on_one_line_and_read_back(text: str) -> None:
    line = f"x = {toml(text)}"

    assert "\n" not in line
    sound = text.encode("utf-8", "replace").decode()
    assert tomllib.loads(line)["x"] == sound


@given(st.floats(allow_nan=False, allow_infinity=False) | st.integers() | st.booleans())
def test_any_number_is_written_exactly(value: float) -> None:
    assert tomllib.loads(f"x = {toml(value)}")["x"] == value


def _value(field: Field, bays: list[str]) -> st.SearchStrategy[Any]:
    low = field.low if field.low is not None else 0.0
    high = field.high if field.high is not None else 1e6
    texts = st.text(st.characters(codec="utf-8"), min_size=1, max_size=12)
    clean = texts.filter(lambda text: text.isprintable() and text.strip() == text)
    told = clean.filter(lambda text: text.casefold() != "unknown")
    if field.name == "unit":
        return st.sampled_from(["each", "m", "box"])
    match field.type:
        case "number":
            return st.floats(low, high)
        case "whole":
            return st.integers(int(low), int(high))
        case "yesno":
            return st.booleans()
        case "choice":
            return st.sampled_from(field.of)
        case "date":
            return st.dates().map(str)
        case "list":
            return st.lists(told.filter(lambda text: "," not in text), min_size=1, max_size=3)
        case "names":
            few = st.lists(st.sampled_from(bays), min_size=1, max_size=3, unique=True)
            return few if field.kind == "bay" else st.nothing()
    return told


@st.composite
def builds(draw: st.DrawFn) -> Build:
    """A build of any items with any known fields."""
    bays = [f"bay-{number}" for number in range(3)]
    facts = [add("vehicle", "vehicle", {}, "vehicle")]
    facts += [add("bay", f"B{number}", {}, identifier) for number, identifier in enumerate(bays)]
    for number in range(draw(st.integers(0, 4))):
        kind = kinds()[draw(st.sampled_from(["run", "hole", "zone", "part", "person", "box"]))]
        fields = {}
        for field in kind.fields.values():
            values = _value(field, bays)
            if not values.is_empty and draw(st.booleans()):
                fields[field.name] = draw(values)
        facts.append(add(kind.name, draw(st.sampled_from(["a", "b", f"n{number}"])), fields))
    return folded(*facts)


@settings(max_examples=30)
@given(builds())
def test_any_build_comes_out_and_in_unchanged_and_whole(build: Build) -> None:
    text = export(build, "any")

    assert compare(build, text, "plan.toml").facts == []
    if any("~" in name for rows in Names(build).by_kind.values() for name in rows):
        return  # a second of one name can be added only once it has a name of its own
    empty = folded(add("vehicle", "vehicle", {}, "vehicle"))
    copy = folded(*compare(empty, text, "plan.toml").facts, onto=empty)
    assert export(copy, "any") == text


def test_the_whole_of_every_shipped_phase_comes_out_and_in(bare: Session) -> None:
    bare.do(phases.adopt(["framing", "deck", "rough-in-wiring", "insulation"]))
    text = export(bare.build, "Heron", everything=True)

    assert compare(bare.build, text, "plan.toml").facts == []
