"""The kinds of item, and what their fields take from what people type."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.build.making import Yard, added
from tracker.act import Fact
from tracker.build import kinds as kinds_of_item
from tracker.build.kinds import Field, kind_of, kinds, show, take
from tracker.build.names import Names
from tracker.errors import BadInput, UnknownName
from tracker.quantity import parse
from tracker.quantity.units import TAKEN

TYPES = {"text", "number", "whole", "yesno", "choice", "names", "date", "list"}
EVERY = [(kind, field) for kind in kinds().values() for field in kind.fields.values()]
UNITS = {"pct": "%"}


def _names(*facts: Fact) -> Names:
    return Names(Yard(*facts).build)


NOBODY = _names(added("run", "L0"))


def _field(type: str = "number", **more: Any) -> Field:
    return Field("depth_m", type, **more)


def _failing(sound: Callable[[Field], bool]) -> list[str]:
    return [f"{kind.name}.{field.name}" for kind, field in EVERY if not sound(field)]


def test_every_field_has_a_known_type_and_says_what_it_means() -> None:
    assert _failing(lambda field: field.type in TYPES and bool(field.help)) == []


def test_choices_have_words_and_names_have_kinds_that_are_there() -> None:
    assert _failing(lambda field: (field.type == "choice") == bool(field.of)) == []
    assert _failing(lambda field: field.type == "names" or not field.one) == []
    assert _failing(lambda field: field.kind == "any" or field.type == "names") == []
    assert {field.kind for _, field in EVERY} - set(kinds()) == {"any"}


def test_every_number_has_a_range() -> None:
    def sound(field: Field) -> bool:
        ends = (field.low, field.high)
        return None not in ends and ends == tuple(sorted(ends))  # type: ignore[type-var]

    assert _failing(lambda field: field.type not in ("number", "whole") or sound(field)) == []


def test_every_unit_is_that_of_its_fields_name_and_can_be_typed() -> None:
    def sound(field: Field) -> bool:
        ending = field.name.rpartition("_")[2]
        named = UNITS.get(ending, ending).casefold() == field.unit.casefold()
        return field.type == "number" and named and field.unit in TAKEN

    assert _failing(lambda field: not field.unit or sound(field)) == []


def test_every_default_is_a_value_its_field_takes() -> None:
    def sound(field: Field) -> bool:
        return field.default is None or take(field, field.default, NOBODY) == field.default

    assert _failing(sound) == []


typed_values = st.text(max_size=8) | st.integers() | st.floats() | st.booleans()


@given(st.sampled_from([field for _, field in EVERY]), typed_values | st.lists(typed_values))
@settings(max_examples=400)
def test_every_field_takes_what_is_typed_or_says_in_a_sentence_why_not(
    field: Field, typed: Any
) -> None:
    try:
        value = take(field, typed, NOBODY)
    except BadInput as error:
        assert str(error)
    else:
        assert show(field, value, NOBODY).replace("\t", "").isprintable()
        assert take(field, value, NOBODY) == value or field.type == "names"


def test_the_kinds_that_templates_and_people_name_are_there() -> None:
    assert {"vehicle", "zone", "bay", "run", "hole", "part", "blocker", "person"} <= set(kinds())
    assert {"phase", "task", "check", "holdpoint"} <= set(kinds())
    assert "place" not in kinds()


def test_an_unknown_kind_offers_the_nearest() -> None:
    with pytest.raises(UnknownName, match="no kind of item is called 'runn'; did you mean run"):
        kind_of("runn")


@pytest.mark.parametrize(
    ("kind", "typed", "name"),
    [
        ("run", "length_m", "length_m"),
        ("run", "length", "length_m"),
        ("run", "drop_max", "drop_max_pct"),
        ("run", "to", "to"),
        ("bay", "to", "to_m"),
        ("run", "station", "station_m"),
        ("run", "title", "title"),
    ],
)
def test_the_unit_at_the_end_of_a_field_may_be_left_off(kind: str, typed: str, name: str) -> None:
    assert kind_of(kind).field(typed).name == name


def test_an_unknown_field_offers_the_nearest_or_all() -> None:
    with pytest.raises(BadInput, match="a wire run has no field 'lenght_m'; did you mean length_m"):
        kind_of("run").field("lenght_m")
    with pytest.raises(BadInput, match="a zone has no field 'qqqq'; there is bay, title"):
        kind_of("zone").field("qqqq")


def test_placed_kinds_have_the_fields_of_a_place() -> None:
    for name in ("face", "station_m", "bay", "covered_by"):
        assert name in kind_of("hole").fields
        assert name not in kind_of("person").fields


@pytest.mark.parametrize("typed", [None, "", "  ", "unknown", " Unknown "])
@pytest.mark.parametrize("type", sorted(TYPES))
def test_nothing_and_unknown_make_a_field_unknown(typed: str | None, type: str) -> None:
    assert take(_field(type), typed, NOBODY) is None


@pytest.mark.parametrize(
    ("field", "typed", "value"),
    [
        (_field("text"), " a lamp\x1b[0m ", "a lamp[0m"),
        (_field("text"), 12, "12"),
        (_field(unit="m"), "4 ft", 1.2192),
        (_field(unit="m"), "5.5 m", 5.5),
        (_field(unit="m"), 5.5, 5.5),
        (_field(unit="m"), 5, 5.0),
        (_field(unit="C"), "62F", pytest.approx(16.667, abs=1e-3)),
        (_field(), "1,5", 1.5),
        (_field("whole"), "12", 12),
        (_field("whole"), 12, 12),
        (_field("yesno"), "Yes", True),
        (_field("yesno"), "n", False),
        (_field("yesno"), False, False),
        (_field("choice", of=("left", "right")), " LEFT ", "left"),
        (_field("date"), " 2027-04-18 ", "2027-04-18"),
        (_field("list"), "crimp, , roof", ["crimp", "roof"]),
        (_field("list"), ["crimp", " gas "], ["crimp", "gas"]),
    ],
)
def test_a_typed_value_is_taken_in_the_fields_own_form(
    field: Field, typed: Any, value: Any
) -> None:
    taken = take(field, typed, NOBODY)

    assert taken == value
    assert isinstance(taken, bool) == (field.type == "yesno")


@pytest.mark.parametrize(
    ("field", "typed", "problem"),
    [
        (_field("text"), ["a"], "depth_m is a text"),
        (_field("text"), True, "depth_m is a text; True is not"),
        (_field(unit="m"), "18", "depth_m: '18' needs a unit"),
        (_field(unit="m"), "5 kg", "depth_m: '5 kg' is not in a unit taken here"),
        (_field(unit="m"), True, "depth_m is a number; True is not"),
        (_field(unit="m"), [1], "depth_m is a number"),
        (_field(), "many", "depth_m: 'many' can't be read"),
        (_field(unit="m", low=0.0, high=5.0), "6 m", "depth_m 6 m is outside 0 to 5 m"),
        (_field(unit="m", low=0.0, high=5.0), -0.1, "depth_m -0.1 m is outside 0 to 5 m"),
        (_field(low=0.0, high=5.0), 10**400, "depth_m is too large a number"),
        (_field("whole", low=1, high=5), "6", "depth_m 6 is outside 1 to 5"),
        (_field("whole", low=1, high=5), 10**400, "depth_m is too large"),
        (_field("whole"), "1.5", "depth_m is a whole number; '1.5' is not"),
        (_field("whole"), True, "depth_m is a whole number; 'True' is not"),
        (_field("yesno"), "maybe", "depth_m is yes or no; 'maybe' is neither"),
        (_field("choice", of=("left", "right")), "lefft", "can't be 'lefft'; did you mean left"),
        (_field("choice", of=("left", "right")), "up", "can't be 'up'; there is left, right"),
        (_field("date"), "18.4.2027", "depth_m is a date like 2027-04-18"),
        (_field("names", kind="run"), "L99", "no run is called 'L99'"),
    ],
)
def test_a_value_that_can_not_be_taken_is_named_with_what_is_allowed(
    field: Field, typed: Any, problem: str
) -> None:
    with pytest.raises(BadInput) as refused:
        take(field, typed, NOBODY)

    assert problem in str(refused.value)


def test_both_ends_of_a_range_are_taken() -> None:
    field = _field(unit="m", low=0.0, high=5.0)

    assert [take(field, value, NOBODY) for value in (0.0, 5.0)] == [0.0, 5.0]


def test_names_are_kept_as_ids_and_ranges_work() -> None:
    names = _names(added("run", "L1"), added("run", "L2"), added("hole", "H1"))
    field = kind_of("hole").field("carries")

    assert take(field, "L1-L2", names) == ["run:L1", "run:L2"]
    assert take(field, ["l2", "L1"], names) == ["run:L2", "run:L1"]
    with pytest.raises(BadInput, match="no run is called 'H1'"):
        take(field, "H1", names)
    assert take(kind_of("blocker").field("stops"), "H1", names) == ["hole:H1"]


def test_a_field_of_one_name_holds_that_items_id_and_no_list() -> None:
    names = _names(added("holdpoint", "pre-foam"), added("holdpoint", "pre-panel"))
    field = kind_of("check").field("before")

    assert take(field, "pre-foam", names) == "holdpoint:pre-foam"
    for typed, count in (("pre-foam,pre-panel", 2), ([], 0)):
        with pytest.raises(BadInput, match=f"one holdpoint, not {count}"):
            take(field, typed, names)


def test_none_is_a_hold_point_that_buries_nothing_and_elsewhere_no_names_at_all() -> None:
    names = _names(added("run", "L1"))

    assert take(kind_of("run").field("covered_by"), "none", names) == "none"
    assert take(kind_of("hole").field("carries"), "none", names) == []


def test_a_plain_number_that_can_be_read_two_ways_is_refused() -> None:
    with pytest.raises(BadInput, match="two ways"):
        take(kind_of("part").field("needed"), "1,000", NOBODY)


def test_every_kind_of_item_can_have_a_title() -> None:
    assert take(kind_of("part").field("title"), "cable glands", NOBODY) == "cable glands"


@pytest.mark.parametrize(
    ("field", "value", "shown"),
    [
        (_field(unit="m"), None, "unknown"),
        (_field(unit="m"), 5.5, "5.5 m"),
        (_field(), 12.0, "12"),
        (_field("yesno"), False, "no"),
        (_field("yesno"), True, "yes"),
        (_field("names"), ["run:L0", "run:gone"], "L0, run:gone"),
        (_field("names"), "none", "none"),
        (_field("list"), ["crimp", "gas"], "crimp, gas"),
        (_field("text"), "a\x1b[0m", "a[0m"),
        (_field(unit="m"), "a long way", "a long way"),
        (_field("list"), 5, "5"),
    ],
)
def test_a_value_is_shown_as_people_read_it(field: Field, value: Any, shown: str) -> None:
    assert show(field, value, NOBODY) == shown


@given(st.floats(0.01, 4.9))
def test_a_number_shown_is_taken_back_as_it_was(value: float) -> None:
    field = _field(unit="m", low=0.0, high=5.0)

    assert parse(show(field, value, NOBODY), "m") == pytest.approx(value, rel=1e-5)


def test_the_table_is_read_once() -> None:
    assert kinds_of_item.kinds() is kinds()


def test_what_depends_on_rules_or_products_has_sources_that_differ_and_no_default() -> None:
    profile = [field for field in kinds()["vehicle"].fields.values() if field.sources]

    assert len(profile) > 10
    assert [field.name for field in profile if len(field.sources) < 2] == []
    assert [field.name for field in profile if field.default is not None or field.due] == []
    assert [kind.name for kind, field in EVERY if field.sources and kind.name != "vehicle"] == []
