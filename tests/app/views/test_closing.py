"""What a release or a close-in takes in, told before it is signed."""

from __future__ import annotations

import pytest

from tracker.app.session import Session
from tracker.app.views.buried import buried_by
from tracker.app.views.closing import closing_view, zones_of
from tracker.app.wants import blockers, checks, holds, items
from tracker.errors import BadInput, Refused


def test_zones_are_named_where_a_hold_point_buries_and_there_are_several(heron: Session) -> None:
    assert zones_of(heron, "pre-foam") == ["front", "rear"]
    for zone in ("front", "rear"):
        heron.do(items.remove(zone, "drawn otherwise"))
    assert zones_of(heron, "pre-foam") == []
    assert closing_view(heron, "pre-foam")["zone"] is None


def test_a_zone_has_to_be_named_where_there_are_several(heron: Session) -> None:
    with pytest.raises(BadInput, match="zone by zone"):
        closing_view(heron, "pre-foam")


def test_what_is_open_is_what_the_release_is_refused_for(heron: Session) -> None:
    heron.do(holds.book("pre-foam", "2027-04-18"))
    view = closing_view(heron, "pre-foam", "front")

    with pytest.raises(Refused) as refused:
        heron.do(holds.release(heron, "pre-foam", zone="front", by="Ida", second="Ola"))
    assert ", ".join(view["open"][:3]) in str(refused.value)
    assert f"and {len(view['open']) - 3} more" in str(refused.value)


def test_a_waiver_is_told_with_its_reason_and_a_blocker_by_name(heron: Session) -> None:
    heron.do(
        checks.mark("label-both-ends", ["L1"], "waived", by="Ida", second="Ola", why="a spare")
    )
    heron.do(blockers.stuck("rain", kind="weather", stops=["pre-foam"], slug="rain"))
    view = closing_view(heron, "pre-foam", "front")

    assert view["waived"] == ["label-both-ends on L1: a spare"]
    assert view["blockers"] == ["rain"]


def test_what_is_told_before_a_close_in_is_what_it_buries(heron: Session) -> None:
    told = closing_view(heron, "pre-foam", "front")["covers"]
    covered = heron.cover.covered_items(
        heron.names.find("pre-foam", ("holdpoint",)), heron.names.find("front", ("zone",)).id
    )
    fact = {"f": "hold.closed", "hold": "x", "covered": [item.id for item in covered]}

    assert told and told == buried_by(heron, heron.do(lambda build: [fact]))
