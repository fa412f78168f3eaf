"""The walk: every check of a hold point, by the place where it is met."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.views.todo import todo_view
from tracker.app.views.walk import blockers_view, walk_view
from tracker.app.wants import blockers, checks, items


def place(session: Session, name: str, zone: str | None = None) -> dict[str, Any]:
    """One place of the walk."""
    return next(row for row in walk_view(session, zone=zone)["places"] if row["name"] == name)


def row(session: Session, check: str, subject: str) -> dict[str, Any]:
    """One row of the walk."""
    return next(
        point
        for found in walk_view(session)["places"]
        for point in found["points"]
        if (point["check"], point["subject"]) == (check, subject)
    )


def test_bays_come_first_in_walking_order_then_zones_then_the_vehicle(heron: Session) -> None:
    heron.do(items.add("run", "L99", {"to": "somewhere"}))
    names = [found["name"] for found in walk_view(heron)["places"]]

    assert names == ["B1", "B2", "B3", "B4", "front", "rear", "whole vehicle", "not placed yet"]


def test_every_point_of_the_hold_point_stands_in_exactly_one_place(heron: Session) -> None:
    walk, todo = walk_view(heron), todo_view(heron)
    rows = [point for found in walk["places"] for point in found["points"]]

    assert len(rows) == todo["points"]["total"]
    assert len({(point["check"], point["subject"]) for point in rows}) == len(rows)
    assert {key: value for key, value in walk.items() if key != "places"} == todo


def test_what_is_settled_stays_in_its_place_and_is_no_longer_open(heron: Session) -> None:
    before = place(heron, "B1")["open"]
    heron.do(checks.mark("label-both-ends", ["L1"], "good", by="Ida"))
    after = place(heron, "B1")

    assert after["open"] == before - 1
    assert row(heron, "label-both-ends", "L1")["state"] == "good"
    assert row(heron, "label-both-ends", "L1") in after["points"]


def test_a_bay_and_a_zone_of_one_name_are_two_places(heron: Session) -> None:
    heron.do(items.add("zone", "B1", {"bay": "B1"}))
    names = [found["name"] for found in walk_view(heron)["places"]]

    assert names.count("B1") == 2


def test_a_row_says_what_may_be_asked_of_it(heron: Session) -> None:
    assert row(heron, "lead-length", "L1")["measured"]
    assert row(heron, "lead-length", "L1")["unit"] == "m"
    assert row(heron, "insulation-resistance", "L1")["band"]
    assert not row(heron, "label-both-ends", "L1")["measured"]
    assert row(heron, "label-both-ends", "L1")["may_be_waived"]
    assert not row(heron, "exit-path", "vehicle")["may_be_waived"]


def test_one_zone_shows_its_own_bays_alone(heron: Session) -> None:
    names = [found["name"] for found in walk_view(heron, zone="front")["places"]]

    assert "B1" in names and "B3" not in names


def test_blockers_can_be_seen_before_there_is_a_hold_point(bare: Session) -> None:
    bare.do(blockers.stuck("no dry day", kind="weather"))
    bare.do(blockers.stuck("no torch", kind="tool"))
    bare.do(blockers.unstuck("stuck1", on="2030-05-02"))

    assert [row["text"] for row in blockers_view(bare)] == ["no torch"]
    assert not blockers_view(bare)[0]["stops_this"]


def test_a_label_read_by_another_is_told_from_other_second_person_checks(heron: Session) -> None:
    rows = [point for found in walk_view(heron)["places"] for point in found["points"]]
    read = {point["check"] for point in rows if point["label_read"]}
    others = {point["check"] for point in rows if point["how"] == "second person"} - read

    assert read == {"label-read-blind"}
    assert "people-out" in others
