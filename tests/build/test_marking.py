"""Marking checks: what goes with which check, and what is refused."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, added, check, ground, run
from tracker.build import marking
from tracker.errors import BadInput, Refused

OHMS = {"min": 1.0, "sign_min": 0.5, "unit": "Mohm"}


def _yard() -> Yard:
    return Yard(
        *ground(),
        run("L1", "B1", to="lamp"),
        run("L2", "B1"),
        run("L3", "B2"),
        added("run", "L4", bay=["bay:B1", "bay:B2"]),
        run("L5"),
        run("L6"),
        run("L7", covered_by="none"),
        added("hole", "H1", bay=["bay:B1"]),
        check("label", watches=["to"]),
        check("tugged", how="photo"),
        check("lit", how="function"),
        check("read", how="second person"),
        check("ohms", how="insulation", limit=OHMS),
        check("gas", each="once", how="air", waive=False, missed="gas in the wall"),
        check("swept", each="bay", **{"class": "surveillance"}),
        check("walk", each="zone"),
    )


def _state(yard: Yard, slug: str, subject: str) -> str:
    return next(
        point.state
        for point in yard.stand().points
        if (point.check.slug, point.subject.slug) == (slug, subject)
    )


def test_an_answer_remembers_the_watched_fields_and_the_limit_as_they_were() -> None:
    yard = _yard()

    assert yard.marked("label", "L1")[0]["saw"] == {"to": "lamp"}
    assert yard.marked("ohms", "L1", "measured", value=2.0)[0] == {
        "f": "point.answered",
        "check": "check:ohms",
        "subject": "run:L1",
        "result": "measured",
        "value": 2.0,
        "unit": "Mohm",
        "by": "Ida",
        "saw": {"limit": [1.0, None, 0.5]},
    }


@pytest.mark.parametrize("slug", ["label", "tugged"])
@pytest.mark.parametrize("subjects", ["L1 L2", "L1 L2 L4", "L3 L4"])
def test_what_is_looked_at_or_photographed_is_marked_for_a_whole_bay(
    slug: str, subjects: str
) -> None:
    assert len(_yard().marked(slug, subjects)) == len(subjects.split())


@pytest.mark.parametrize("subjects", ["L1 L3", "L1 L2 L3 L4", "L1 L5"])
def test_what_shares_no_bay_is_not_marked_good_together(subjects: str) -> None:
    with pytest.raises(Refused, match="only within one bay"):
        _yard().marked("label", subjects)


def test_bays_are_marked_one_by_one() -> None:
    with pytest.raises(Refused, match="only within one bay"):
        _yard().marked("swept", "B1 B2")


@pytest.mark.parametrize("slug", ["lit", "read"])
def test_tests_and_second_person_checks_are_never_marked_together(slug: str) -> None:
    with pytest.raises(Refused, match="is answered one subject at a time, not 2 at once"):
        _yard().marked(slug, "L1 L2", second="Ola")


def test_measured_values_and_waivers_are_never_given_together() -> None:
    yard = _yard()
    with pytest.raises(Refused, match="one subject at a time"):
        yard.marked("ohms", "L1 L2", "measured", value=2.0)
    with pytest.raises(Refused, match="a waiver is answered one subject at a time"):
        yard.marked("label", "L1 L2", "waived", why="no room", second="Ola")


@pytest.mark.parametrize(
    ("result", "more"), [("bad", {}), ("reopened", {"why": "ink ran"}), ("na", {"why": "no label"})]
)
def test_what_holds_nothing_open_may_be_marked_together_anywhere(
    result: str, more: dict[str, Any]
) -> None:
    assert len(_yard().marked("label", "L1 L3 L5", result, **more)) == 3


def test_a_subject_named_twice_is_answered_once() -> None:
    yard = _yard()
    yard.mark("label", "L1 L1")

    assert _state(yard, "label", "L1") == "good"


def test_a_check_with_a_number_can_not_be_ticked() -> None:
    with pytest.raises(Refused, match="ohms is decided by its number; give --value in Mohm"):
        _yard().marked("ohms", "L1")


@pytest.mark.parametrize(
    ("slug", "result", "problem"),
    [
        ("label", "measured", "label asks for no number"),
        ("ohms", "measured", "ohms needs a number"),
        ("label", "waived", "the reason can't be empty"),
        ("label", "na", "the reason can't be empty"),
        ("label", "reopened", "the reason can't be empty"),
        ("label", "fine", "'fine' is no answer"),
    ],
)
def test_a_result_that_does_not_go_with_its_check_is_refused(
    slug: str, result: str, problem: str
) -> None:
    with pytest.raises(BadInput, match=problem):
        _yard().marked(slug, "L1", result, why=" ")


def test_a_failed_number_is_measured_again_or_waived_by_two() -> None:
    yard = _yard()
    yard.mark("ohms", "L1", "measured", value=0.4, second="Ola", why="damp day")
    assert _state(yard, "ohms", "L1") == "bad"

    yard.mark("ohms", "L1", "waived", why="retest at handover", second="Ola")
    assert _state(yard, "ohms", "L1") == "waived"

    yard.mark("ohms", "L1", "measured", value=1.0)
    assert _state(yard, "ohms", "L1") == "good"


def test_a_size_below_nought_is_no_measurement_unless_the_limit_reaches_there() -> None:
    yard = Yard(
        *ground(),
        run("L1", "B1"),
        check("clipped", limit={"max": 450.0, "unit": "mm"}),
        check("depth", limit={"min": -6.0, "max": 6.0, "unit": "mm"}),
        check("warm", limit={"max": 20.0, "unit": "C"}),
    )

    with pytest.raises(BadInput, match="clipped: -5 mm is below 0"):
        yard.marked("clipped", "L1", "measured", value=-5.0)
    for slug in ("depth", "warm"):
        assert yard.marked(slug, "L1", "measured", value=-5.0)[0]["value"] == -5.0


@pytest.mark.parametrize(
    ("second", "why", "state"),
    [(None, None, "bad"), (None, "damp day", "bad"), ("Ola", "damp day", "good")],
)
def test_a_value_in_the_sign_off_band_is_good_with_a_second_name_and_a_reason(
    second: str | None, why: str | None, state: str
) -> None:
    yard = _yard()
    yard.mark("ohms", "L1", "measured", value=0.7, second=second, why=why)

    assert _state(yard, "ohms", "L1") == state


@pytest.mark.parametrize("why", [None, "  "])
def test_a_second_name_in_the_band_without_a_reason_is_refused(why: str | None) -> None:
    with pytest.raises(Refused, match=r"0\.7 needs a reason beside the second name"):
        _yard().marked("ohms", "L1", "measured", value=0.7, second="Ola", why=why)


@pytest.mark.parametrize("second", [None, " "])
def test_waiving_what_holds_the_work_takes_a_second_name(second: str | None) -> None:
    with pytest.raises(Refused, match="takes a second name; give --second"):
        _yard().marked("label", "L1", "waived", why="no room", second=second)


def test_waiving_what_does_not_hold_the_work_takes_a_reason_only() -> None:
    assert _yard().marked("swept", "B1", "waived", why="no broom")


def test_what_can_never_be_waived_says_what_happens_when_it_is_missed() -> None:
    with pytest.raises(Refused, match="gas can never be waived: gas in the wall"):
        _yard().marked("gas", "vehicle", "waived", why="no gauge", second="Ola")


def test_not_applicable_needs_a_reason_and_no_second_name() -> None:
    yard = _yard()
    yard.mark("gas", "vehicle", "na", why="no gas aboard")

    assert _state(yard, "gas", "vehicle") == "na"


@pytest.mark.parametrize(
    ("slug", "result", "more"),
    [
        ("read", "good", {}),
        ("label", "waived", {"why": "no room"}),
        ("ohms", "measured", {"value": 0.7, "why": "damp"}),
    ],
)
def test_the_second_person_is_never_the_first(slug: str, result: str, more: dict[str, Any]) -> None:
    with pytest.raises(Refused, match="the second person can't be Ida again"):
        _yard().marked(slug, "L1", result, second=" ida ", **more)


def test_a_second_person_check_needs_one_to_be_good_but_none_to_be_bad() -> None:
    yard = _yard()
    with pytest.raises(Refused, match="read is read by a second person; give --second NAME"):
        yard.marked("read", "L1")

    assert yard.marked("read", "L1", "bad")


def test_a_label_read_blind_must_be_that_of_the_record() -> None:
    yard = _yard()
    with pytest.raises(Refused, match="the label reads 'L7' and the record says L1"):
        yard.marked("read", "L1", second="Ola", read=" L7 ")

    fact = yard.marked("read", "L1", second="Ola", read=" l1", present="remote")[0]

    assert (fact["read"], fact["present"]) == (" l1", "remote")
    assert yard.marked("read", "L1", "bad", second="Ola", read="L7")


@pytest.mark.parametrize(
    ("slug", "subject", "problem"),
    [
        ("label", "H1", "label is held against each run; H1 is a hole"),
        ("gas", "L1", "gas is held against each vehicle; L1 is a run"),
        ("label", "L7", "label does not apply to L7"),
    ],
)
def test_a_subject_of_the_wrong_kind_is_refused(slug: str, subject: str, problem: str) -> None:
    with pytest.raises(BadInput, match=problem):
        _yard().marked(slug, subject)


def test_a_removed_subject_is_refused_with_the_reason_it_went() -> None:
    yard = _yard()
    yard.remove("L1", "no lamp")

    with pytest.raises(Refused, match="L1 was removed: no lamp"):
        yard.marked("label", "L1")


def test_without_a_subject_there_is_nothing_to_mark() -> None:
    with pytest.raises(BadInput, match="label has no subject"):
        _yard().marked("label", "")


def test_a_zone_check_without_zones_is_held_against_the_vehicle() -> None:
    yard = _yard()
    for zone in ("A", "B"):
        yard.remove(zone)

    assert yard.marked("walk", "vehicle")


@pytest.mark.parametrize(
    ("slug", "value", "counts"),
    [("ohms", 2.0, "good"), ("ohms", 0.7, "bad"), ("label", 2.0, "unknown")],
)
def test_a_value_can_be_judged_before_it_is_given(slug: str, value: float, counts: str) -> None:
    yard = _yard()

    assert marking.verdict(yard.cover, yard.item(slug), yard.item("L1"), value) == counts


def test_only_an_answer_that_is_there_can_be_taken_back() -> None:
    yard = _yard()
    with pytest.raises(Refused, match="label on L1 is open already"):
        marking.taken_back(yard.cover, yard.item("label"), yard.item("L1"))

    yard.mark("label", "L1")
    marking.taken_back(yard.cover, yard.item("label"), yard.item("L1"))

    yard.mark("label", "L1", "reopened", why="ink ran")
    with pytest.raises(Refused, match="open already"):
        marking.taken_back(yard.cover, yard.item("label"), yard.item("L1"))
