from __future__ import annotations

from typing import Any

import pytest

from tests.app.wants.scene import Asking, scene
from tracker.app.session import Reservation
from tracker.app.wants.settling import accept, settle, settle_check
from tracker.build.answer import standing
from tracker.build.state import Build
from tracker.errors import BadInput, CloseinError, Refused, UnknownName


def set_length(value: float) -> dict[str, Any]:
    return {"f": "item.set", "id": "run1", "set": {"length_m": value, "route": f"way {value:g}"}}


def answer(result: str) -> dict[str, Any]:
    return {"f": "point.answered", "check": "check-gas", "subject": "vehicle", "result": result}


SAID = (("Ida", set_length(5.5)), ("Ola", set_length(6.2)), ("Ida", answer("good")))
SAID = (*SAID, ("Ola", answer("bad")))


def settled(*words: str) -> Build:
    """The state once a field is settled."""
    item, field, value = words
    (fact,) = settle(item, field, value, by="Ida")(scene(*SAID))
    return scene(*SAID, ("Ida", dict(fact)))


@pytest.mark.parametrize(
    ("typed", "value"), [("6.2", 6.2), ("6.2 m", 6.2), ("5500mm", 5.5), ("7 m", 7.0)]
)
def test_a_field_in_conflict_takes_a_standing_or_a_new_value(typed: str, value: float) -> None:
    run = settled("L1", "length", typed).items["run1"]

    assert run.get("length_m") == value
    assert list(run.rivals) == ["route"]


def test_a_text_is_settled_by_what_somebody_said() -> None:
    assert settled("L1", "route", "WAY 5.5").items["run1"].get("route") == "way 5.5"


def test_a_check_in_conflict_is_settled_by_a_new_answer() -> None:
    (fact,) = settle_check("gas", [], "bad", by="Ida", why="hisses")(scene(*SAID))
    build = scene(*SAID, ("Ida", dict(fact)))

    stand = standing(build, build.items["check-gas"], build.items["vehicle"])
    assert stand.state == "bad"


@pytest.mark.parametrize(
    ("words", "error", "problem"),
    [
        (("L1", None, "6.2 m"), BadInput, "in conflict in length_m, route; say which"),
        (("L1", "length", None), BadInput, "length_m is 5.5 m or 6.2 m"),
        (("L1", "gauge", "x"), UnknownName, "no field in conflict is called 'gauge'"),
        (("L2", "length", "6 m"), Refused, "has no field in conflict"),
        (("L1", "length", "long"), BadInput, "can't be read"),
        (("L8", "length", "6 m"), UnknownName, "L8"),
    ],
)
def test_a_want_that_settles_nothing_is_refused(
    words: tuple[Any, ...], error: type[CloseinError], problem: str
) -> None:
    with pytest.raises(error, match=problem):
        settle(*words, by="Ida")(scene(*SAID))


def test_a_check_that_is_not_in_conflict_is_not_settled() -> None:
    with pytest.raises(Refused, match="gas on vehicle is not in conflict"):
        settle_check("gas", [], "bad", by="Ida")(scene())


def test_a_buried_item_is_settled_only_with_a_reason() -> None:
    closed = ("Ida", {"f": "hold.closed", "hold": "hold", "zone": "port", "covered": ["run1"]})
    build = scene(*SAID, closed)

    with pytest.raises(Refused, match="is buried; a change to it needs a reason"):
        settle("L1", "length", "6.2 m", by="Ida")(build)
    (fact,) = settle("L1", "length", "6.2 m", by="Ida", why="tape read twice")(build)
    assert fact["why"] == "tape read twice"


STANDING = Asking((Reservation("gap-12ab", "a"), Reservation("damaged-9f", "b")))


@pytest.mark.parametrize("key", ["gap-12ab", " gap "])
def test_a_reservation_is_accepted_by_its_name_or_a_beginning(key: str) -> None:
    (fact,) = accept(STANDING, key, "known")(scene())  # type: ignore[arg-type]

    assert (fact["key"], fact["why"]) == ("gap-12ab", "known")


@pytest.mark.parametrize(
    ("asking", "key", "why", "problem"),
    [
        (STANDING, "gap-99", "x", "no reservation is called 'gap-99'"),
        (STANDING, "", "x", "no reservation is called ''"),
        (STANDING, "gap-12ab", "  ", "needs a reason"),
        (Asking((Reservation("gap-1", ""), Reservation("gap-2", ""))), "gap", "x", "fits several"),
        (Asking(), "gap-1", "x", "no reservation stands"),
    ],
)
def test_what_accepts_nothing_is_refused(asking: Any, key: str, why: str, problem: str) -> None:
    with pytest.raises(CloseinError, match=problem):
        accept(asking, key, why)(scene())
