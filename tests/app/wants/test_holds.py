from __future__ import annotations

from typing import Any

import pytest

from tests.app.wants.scene import Asking, scene
from tracker.app.session import Reservation
from tracker.app.wants import holds
from tracker.app.wants.checks import mark
from tracker.build.state import Build
from tracker.errors import BadInput, Refused, UnknownName


def answered(*more: dict[str, Any]) -> Build:
    """All that binds in the zone port is good."""
    facts = [
        *mark("label", [], "good", by="Ida", bay="B1")(scene()),
        *mark("lead", ["L1"], "measured", by="Ida", value="0.4m")(scene()),
        *mark("lead", ["L2"], "measured", by="Ida", value="0.4m")(scene()),
        *mark("gas", [], "good", by="Ida")(scene()),
        *mark("moisture", [], "measured", by="Ida", value="12%")(scene()),
        *mark("dry", ["port"], "good", by="Ida")(scene()),
    ]
    return scene(*(("Ida", fact) for fact in (*facts, *more)))


def release(asking: Any, build: Build, zone: str | None = "port") -> dict[str, Any]:
    (fact,) = holds.release(asking, "pre-foam", zone=zone, by="Ida", second="Ola")(build)
    return dict(fact)


def test_a_release_signs_what_is_answered_in_its_zone() -> None:
    fact = release(Asking(), answered())

    assert (fact["f"], fact["zone"], fact["second"]) == ("hold.released", "port", "Ola")
    assert sum(map(len, fact["basis"].values())) == 7


def test_a_reservation_that_stands_when_it_is_decided_stops_it() -> None:
    asking = Asking((Reservation("gap-1", "a line is missing"),))

    with pytest.raises(Refused, match="waits for a reservation"):
        release(asking, answered())


def test_a_zone_must_be_named_where_there_are_several() -> None:
    with pytest.raises(BadInput, match="say which with --zone: port, roof"):
        release(Asking(), answered(), None)
    with pytest.raises(UnknownName, match="no zone is called 'left'"):
        release(Asking(), answered(), "left")


def test_a_hold_point_of_the_whole_vehicle_takes_no_zone() -> None:
    with pytest.raises(BadInput, match="for the whole vehicle at once; leave --zone off"):
        holds.book("road", "2027-04-18", zone="port")(scene())


def test_withdraw_close_and_reopen_go_through_their_states() -> None:
    asking = Asking()
    released = release(asking, answered())
    build = answered(released)

    (withdrawn,) = holds.withdraw(asking, "pre-foam", zone="port", why="le\033ak")(build)
    (closed,) = holds.close(asking, "pre-foam", zone="port")(build)
    (reopened,) = holds.reopen(asking, "pre-foam", zone="port", why="cut")(
        answered(released, dict(closed))
    )

    assert withdrawn["why"] == "leak"
    assert closed["covered"] == ["run1", "run2"]
    assert (reopened["f"], reopened["zone"]) == ("hold.reopened", "port")
    with pytest.raises(Refused, match="pre-foam is released"):
        holds.reopen(asking, "pre-foam", zone="port", why="cut")(build)


def test_booking_sets_the_day_of_all_zones_or_of_one() -> None:
    (whole,) = holds.book("pre-foam", "2027-04-18")(scene())
    (one,) = holds.book("pre-foam", "2027-04-24", zone="roof")(scene())

    assert whole["set"] == {"booked": "2027-04-18"}
    assert one["set"] == {"booked@roof": "2027-04-24"}


@pytest.mark.parametrize("day", ["", "tomorrow", "2027-02-30", "18.04.2027"])
def test_what_is_no_date_books_nothing(day: str) -> None:
    with pytest.raises(BadInput, match="is no date"):
        holds.book("pre-foam", day)(scene())


def test_a_booking_is_dropped_where_there_is_one() -> None:
    (fact,) = holds.book("pre-foam", "none")(
        scene(("Ida", {"f": "item.set", "id": "hold", "set": {"booked": "2027-04-18"}}))
    )

    assert fact["set"] == {"booked": None}
    with pytest.raises(Refused, match="is not booked"):
        holds.book("pre-foam", "none")(scene())
