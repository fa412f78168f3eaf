"""How a point stands: what makes an answer out of date, and what makes it hold again."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, check, ground, run
from tracker.act import Fact
from tracker.build import item
from tracker.build.answer import OPEN_STATES, Standing

LEAD = {"function": "lead_from_rib", "unit": "m"}


def _yard(*facts: Fact, **fields: Any) -> Yard:
    return Yard(
        *ground(),
        run("L1", "B1", to="lamp", length_m=4.0),
        check("label", watches=["to", "length_m", "slug", "bay", "load_a"]),
        check("lead", how="measure", limit=LEAD),
        *facts,
    )


def _point(yard: Yard, slug: str = "label", zone: str = "A") -> Standing:
    return next(point for point in yard.stand(zone).points if point.check.slug == slug)


def test_a_point_nobody_answered_is_open() -> None:
    point = _point(_yard())

    assert (point.state, point.answer, point.why, point.settled) == ("open", None, "", False)


@pytest.mark.parametrize(
    ("result", "more", "settled"),
    [
        ("good", {}, True),
        ("bad", {}, False),
        ("na", {"why": "no label there"}, True),
        ("waived", {"why": "no room", "second": "Ola"}, True),
    ],
)
def test_a_point_stands_as_it_was_answered(
    result: str, more: dict[str, Any], settled: bool
) -> None:
    yard = _yard()
    yard.mark("label", "L1", result, **more)

    assert (_point(yard).state, _point(yard).settled) == (result, settled)


def test_a_reopened_point_is_open_and_says_why() -> None:
    yard = _yard()
    yard.mark("label", "L1")
    yard.mark("label", "L1", "reopened", why="the ink ran")

    assert (_point(yard).state, _point(yard).why) == ("open", "reopened: the ink ran")


@pytest.mark.parametrize(
    ("field", "value", "why"),
    [
        ("to", "fan", "to was lamp, now fan"),
        ("to", None, "to was lamp, now unknown"),
        ("length_m", 4.5, "length_m was 4, now 4.5"),
        ("load_a", 2.0, "load_a was unknown, now 2"),
        ("bay", ["bay:B1", "bay:B2"], "bay was B1, now B1, B2"),
        ("bay", [], "bay was B1, now none"),
        ("slug", "L9", "slug was L1, now L9"),
    ],
)
def test_a_watched_field_that_changes_puts_the_answer_out_of_date_until_it_is_set_back(
    field: str, value: Any, why: str
) -> None:
    yard = _yard()
    yard.mark("label", "L1")
    subject = yard.build.items["run:L1"]
    before = subject.slug if field == "slug" else subject.fields.get(field)

    yard.do(item.change(subject, {field: value}))
    assert (_point(yard).state, _point(yard).why) == ("stale", why)
    assert _point(yard).answer is not None

    yard.do(item.change(yard.build.items["run:L1"], {field: before}))
    assert _point(yard).state == "good"


def test_a_field_that_is_not_watched_changes_nothing() -> None:
    yard = _yard()
    yard.mark("label", "L1")
    yard.change("L1", colour="red", depth_m=0.02)

    assert _point(yard).state == "good"


def test_a_bad_answer_stays_bad_whatever_changes() -> None:
    yard = _yard()
    yard.mark("label", "L1", "bad")
    yard.change("L1", to="fan")

    assert _point(yard).state == "bad"


def test_not_applicable_is_out_of_date_too_when_what_it_rests_on_changes() -> None:
    yard = _yard()
    yard.mark("label", "L1", "na", why="goes to a lamp")
    yard.change("L1", to="fan")

    assert _point(yard).state == "stale"


def test_a_measured_value_is_judged_never_typed() -> None:
    yard = _yard()
    yard.mark("lead", "L1", "measured", value=0.2)
    assert _point(yard, "lead").state == "bad"

    yard.mark("lead", "L1", "measured", value=0.4)
    assert _point(yard, "lead").state == "good"


def test_an_edited_limit_puts_a_measured_value_out_of_date_and_setting_it_back_mends_it() -> None:
    yard = _yard()
    yard.mark("lead", "L1", "measured", value=0.4)

    yard.change("vehicle", panel_m=0.02)
    assert _point(yard, "lead").state == "stale"
    assert _point(yard, "lead").why.startswith("the limit changed, now at least 0.37 m")

    yard.change("vehicle", panel_m=0.01)
    assert _point(yard, "lead").state == "good"


def test_a_value_measured_before_its_limit_was_known_is_judged_once_it_is() -> None:
    yard = _yard()
    yard.change("vehicle", furring_m=None)
    yard.mark("lead", "L1", "measured", value=0.3)
    assert (_point(yard, "lead").state, _point(yard, "lead").why) == (
        "open",
        "limit unknown until furring_m of the vehicle is known",
    )

    yard.change("vehicle", furring_m=0.04)
    assert _point(yard, "lead").state == "bad"


def test_a_waived_number_is_not_out_of_date_when_the_limit_changes() -> None:
    yard = _yard()
    yard.mark("lead", "L1", "waived", why="no room", second="Ola")
    yard.change("vehicle", panel_m=0.02)

    assert _point(yard, "lead").state == "waived"


def test_a_value_of_a_check_that_asks_for_no_number_any_more_is_open() -> None:
    yard = _yard()
    yard.mark("lead", "L1", "measured", value=0.4)
    yard.change("lead", limit=None)

    assert (_point(yard, "lead").state, _point(yard, "lead").why) == (
        "open",
        "the check asks for no number now",
    )


def test_two_answers_given_apart_are_a_conflict_and_count_as_open() -> None:
    yard = _yard()
    good, bad = yard.marked("label", "L1"), yard.marked("label", "L1", "bad", by="Ola")
    yard.do(*good)
    yard.do(*bad, writer="bbbbbbbb")

    assert (_point(yard).state, _point(yard).why) == ("conflict", "good by Ida against bad by Ola")
    assert "conflict" in OPEN_STATES

    yard.mark("label", "L1")
    assert _point(yard).state == "good"


@pytest.mark.parametrize(
    ("fields", "binds"),
    [
        ({"class": "hold"}, True),
        ({"class": "surveillance"}, False),
        ({"class": "witness", "waive": False}, True),
    ],
)
def test_hold_checks_bind_and_so_does_what_can_never_be_waived(
    fields: dict[str, Any], binds: bool
) -> None:
    yard = Yard(*ground(), run("L1"), check("label", **fields))

    assert _point(yard).binds is binds
