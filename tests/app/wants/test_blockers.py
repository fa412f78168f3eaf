"""Raising and clearing blockers."""

from __future__ import annotations

import pytest

from tracker.app.session import Session
from tracker.app.views.todo import todo_view
from tracker.app.wants.blockers import stuck, unstuck
from tracker.errors import BadInput, CloseinError, Refused


def test_a_blocker_that_stops_the_hold_point_stands_in_its_way(heron: Session) -> None:
    heron.do(stuck("the rig has no date", kind="person", stops=["pre-foam"], owes="Ola"))

    (row,) = todo_view(heron, "pre-foam")["blockers"]
    assert row["text"] == "the rig has no date"
    assert row["owes"] == "Ola"
    assert row["stops_this"]


def test_a_blocker_needs_only_words(heron: Session) -> None:
    heron.do(stuck("something rattles"))

    assert heron.names.find("stuck1", ("blocker",)).title == "something rattles"
    with pytest.raises(BadInput, match="few words"):
        heron.do(stuck(" \x07 "))


def test_a_blocker_about_a_part_is_of_that_kind(heron: Session) -> None:
    heron.do(stuck("wrong thread", part="glands", slug="thread"))

    assert heron.names.find("thread").get("kind") == "part"


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ({"kind": "prt"}, "did you mean part"),
        ({"stops": ["spry"]}, "did you mean spray"),
        ({"part": "glandz"}, "did you mean glands"),
        ({"expected": "soon"}, "expected is a date"),
    ],
)
def test_what_is_wrong_with_a_blocker_is_said(
    heron: Session, more: dict[str, object], why: str
) -> None:
    with pytest.raises(CloseinError, match=why):
        heron.do(stuck("x", **more))  # type: ignore[arg-type]


def test_a_cleared_blocker_stops_nothing_and_is_cleared_once(heron: Session) -> None:
    heron.do(stuck("rain", kind="weather", stops=["pre-foam"]))
    heron.do(unstuck("stuck1", on="2030-05-03", lost_h="1h30"))

    blocker = heron.names.find("stuck1")
    assert blocker.get("cleared") == "2030-05-03"
    assert blocker.get("lost_h") == 1.5
    assert todo_view(heron, "pre-foam")["blockers"] == []
    with pytest.raises(Refused, match="cleared on 2030-05-03 already"):
        heron.do(unstuck("stuck1", on="2030-05-04"))
