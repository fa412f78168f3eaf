"""Releasing, closing, reopening: who may do what when, zone by zone."""

from __future__ import annotations

from typing import Any

import pytest

from tests.build.making import Yard, added, check, ground, hold, run
from tracker.act import Fact
from tracker.build import release
from tracker.build.release import closed_zones, is_buried
from tracker.errors import BadInput, Refused


def _yard(*facts: Fact) -> Yard:
    """A run in each zone and one over both; nothing is answered yet."""
    return Yard(
        *ground(),
        run("L1", "B1"),
        run("L2", "B4"),
        added("run", "L3", bay=["bay:B2", "bay:B3"]),
        check("label"),
        *facts,
    )


def _ready(*facts: Fact) -> Yard:
    yard = _yard(*facts)
    for slug in ("L1", "L2", "L3"):
        yard.mark("label", slug)
    return yard


def _released(*facts: Fact) -> Yard:
    yard = _ready(*facts)
    yard.release("A")
    return yard


def _closed() -> Yard:
    yard = _released()
    yard.close("A")
    return yard


def _add_blocker(yard: Yard, *stops: str) -> None:
    yard.do(added("blocker", "stuck1", stops=list(stops), title="no crew"))


def test_a_hold_point_goes_from_not_due_through_all_its_states() -> None:
    yard = _yard()
    assert yard.stand("A").state == "not due"
    yard.mark("label", "L1")
    assert yard.stand("A").state == "open"
    yard.mark("label", "L3")
    assert yard.stand("A").state == "ready"
    yard.release("A")
    assert yard.stand("A").state == "released"
    yard.do(run("L9", "B1"))
    assert yard.stand("A").state == "lapsed"
    yard.withdraw("A")
    assert yard.stand("A").state == "open"
    yard.mark("label", "L9")
    yard.release("A")
    yard.close("A")
    assert yard.stand("A").state == "closed"
    yard.reopen("A")
    assert yard.stand("A").state == "reopened"


@pytest.mark.parametrize("key", ["booked", "booked@zone:A"])
def test_a_booked_date_makes_a_hold_point_due_in_its_zone(key: str) -> None:
    yard = _yard()
    yard.change("foam", **{key: "2027-03-17"})

    assert yard.stand("A").state == "open"
    assert yard.stand("B").state == ("open" if key == "booked" else "not due")


def test_zones_are_released_each_for_itself() -> None:
    yard = _released()

    assert (yard.stand("A").state, yard.stand("B").state) == ("released", "ready")


def test_an_answer_to_what_lies_in_two_zones_or_in_all_counts_in_each() -> None:
    yard = Yard(*ground(), check("label"), check("dry", each="once"), run("L3"))
    yard.mark("label", "L3")
    yard.mark("dry", "vehicle")

    assert (yard.stand("A").state, yard.stand("B").state) == ("ready", "ready")


def test_a_release_keeps_names_zone_and_what_it_signed() -> None:
    yard = _ready(check("swept", each="zone", **{"class": "review"}))
    fact = yard.release("A", present="remote").facts[0]

    assert (fact["by"], fact["second"], fact["present"]) == ("Ida", "Ola", "remote")
    assert fact["zone"] == "zone:A"
    assert sum(len(numbers) for numbers in fact["basis"].values()) == 2
    assert fact["open"] == [["check:swept", "zone:A"]]


def test_the_whole_vehicle_is_released_without_a_zone() -> None:
    yard = Yard(hold("roof", buries=[]), *ground()[:1])
    yard.do(check("tight", each="once", before="holdpoint:roof"))
    yard.mark("tight", "vehicle")

    fact = release.release(yard.stand("", "roof"), "Ida", "Ola", "present", yard.now)

    assert "zone" not in fact


def test_what_is_unsettled_and_binds_is_named_when_a_release_is_refused() -> None:
    yard = _yard(*(run(f"L{number}", "B1") for number in (4, 5, 6)))
    yard.mark("label", "L1", "bad")

    with pytest.raises(Refused, match="label on L1, label on L3, label on L4 and 2 more must be"):
        yard.release("A")


@pytest.mark.parametrize("zone", ["A", "B"])
def test_checks_that_do_not_bind_stop_no_release(zone: str) -> None:
    yard = _ready(check("swept", each="bay", **{"class": "surveillance"}))
    yard.mark("swept", "B1", "bad")
    yard.release(zone)

    assert yard.stand(zone).state == "released"


def test_what_can_never_be_waived_stops_a_release_whatever_its_class() -> None:
    yard = _ready(check("gas", each="once", waive=False, **{"class": "witness"}))

    assert yard.stand("A").state == "open"
    with pytest.raises(Refused, match="gas on vehicle must be"):
        yard.release("A")


@pytest.mark.parametrize("stops", ["holdpoint:foam", "phase:insulation", "check:label"])
def test_a_blocker_of_the_hold_point_its_phase_or_a_check_stops_a_release(stops: str) -> None:
    yard = _ready()
    _add_blocker(yard, stops)

    assert yard.stand("A").state == "open"
    with pytest.raises(Refused, match="while stuck1 stands; 'closein unstuck' clears it"):
        yard.release("A")

    yard.change("stuck1", cleared="2027-03-02")
    assert yard.stand("A").state == "ready"


@pytest.mark.parametrize("stops", ["zone:B", "check:taped"])
def test_a_blocker_of_one_zone_or_of_what_lies_in_it_leaves_the_others_alone(stops: str) -> None:
    yard = _ready(run("L4", "B4", taped=True), check("taped", where={"taped": True}))
    yard.mark("label", "L4")
    yard.mark("taped", "L4")
    _add_blocker(yard, stops)

    assert [blocker.slug for blocker in yard.stand("B").blockers] == ["stuck1"]
    assert yard.stand("B").state == "open"
    assert yard.stand("A").state == "ready"


def test_a_blocker_of_a_check_that_nothing_is_held_against_yet_stops_every_zone() -> None:
    yard = _ready(check("taped", where={"taped": True}))
    _add_blocker(yard, "check:taped")

    assert (yard.stand("A").state, yard.stand("B").state) == ("open", "open")


def test_a_blocker_of_something_else_stops_nothing() -> None:
    yard = _ready()
    _add_blocker(yard, "run:L1")

    assert yard.stand("A").state == "ready"


def test_a_reservation_refuses_release_and_close_and_nothing_else() -> None:
    yard = _ready()
    stand = yard.stand("A", reservations=["acts are missing"])
    with pytest.raises(Refused, match=r"reservation: acts are missing; .*accept"):
        release.release(stand, "Ida", "Ola", "present", yard.now)

    yard.release("A")
    stand = yard.stand("A", reservations=["acts are missing"])
    assert stand.state == "lapsed"
    with pytest.raises(Refused, match="waits for a reservation"):
        release.close(yard.cover, stand, "no time", yard.now)
    assert release.withdraw(stand, "look again", yard.now)["f"] == "hold.withdrawn"

    yard.close("A")
    stand = yard.stand("A", reservations=["acts are missing"])
    assert release.reopen(stand, "a short wire", yard.now)["f"] == "hold.reopened"


def test_a_hold_point_that_covers_nothing_is_not_ready_and_not_released() -> None:
    yard = Yard(*ground())
    yard.change("foam", booked="2027-03-17")

    assert yard.stand("A").state == "open"
    with pytest.raises(Refused, match="covers nothing here yet"):
        yard.release("A")


@pytest.mark.parametrize("second", ["Ida", " ida ", "IDA"])
@pytest.mark.parametrize("present", ["present", "remote"])
def test_the_second_person_is_another_one(second: str, present: str) -> None:
    with pytest.raises(Refused, match=r"takes two people.*--next-day"):
        _ready().release("A", second=second, present=present)


@pytest.mark.parametrize(("by", "second"), [("", "Ola"), ("Ida", "  ")])
def test_both_names_are_needed(by: str, second: str) -> None:
    with pytest.raises(BadInput, match="takes two names"):
        _ready().release("A", by=by, second=second)


def test_how_the_second_person_took_part_is_one_of_three_words() -> None:
    with pytest.raises(BadInput, match="'asleep' is not one of present, remote, next-day"):
        _ready().release("A", present="asleep")


def test_one_person_alone_signs_the_day_after_the_last_answer_and_it_is_marked_so() -> None:
    yard = _ready()
    yard.later(hours=15)
    with pytest.raises(Refused, match="something was answered today"):
        yard.release("A", second="Ida", present="next-day")

    yard.later(hours=1)
    done = yard.release("A", second="Ida", present="next-day")

    assert done.facts[0]["present"] == "next-day"
    assert yard.stand("A").state == "released"


@pytest.mark.parametrize(
    ("reach", "allowed"),
    [
        ("not due", {"none"}),
        ("ready", {"release"}),
        ("released", {"release", "withdraw", "close"}),
        ("closed", {"reopen"}),
        ("reopened", {"release", "close"}),
    ],
)
def test_in_each_state_only_its_moves_are_allowed(reach: str, allowed: set[str]) -> None:
    yard = _yard() if reach == "not due" else _ready()
    steps = ["release", "close", "reopen"]
    states = {"released": 1, "closed": 2, "reopened": 3}
    for step in steps[: states.get(reach, 0)]:
        getattr(yard, step)("A")
    stand, now = yard.stand("A"), yard.now
    assert stand.state == reach
    moves = {
        "release": lambda: release.release(stand, "Ida", "Ola", "present", now),
        "withdraw": lambda: release.withdraw(stand, "why", now),
        "close": lambda: release.close(yard.cover, stand, "why", now),
        "reopen": lambda: release.reopen(stand, "why", now),
    }
    for name, move in moves.items():
        if name in allowed:
            assert move()["hold"] == "holdpoint:foam"
        else:
            with pytest.raises(Refused, match=f"foam is {reach}; what can be done now"):
                move()


@pytest.mark.parametrize("move", ["withdraw", "reopen"])
def test_taking_back_needs_a_reason(move: str) -> None:
    yard = _released() if move == "withdraw" else _closed()

    with pytest.raises(Refused, match="needs a reason; add --why"):
        getattr(yard, move)("A", why=" ")


def test_a_lapsed_release_is_closed_only_with_a_reason_and_says_what_lapsed() -> None:
    yard = _released()
    yard.do(run("L9", "B1"))
    with pytest.raises(Refused, match=r"foam is lapsed \(label on L9 is new and open\)"):
        yard.close("A")

    done = yard.close("A", why="the foam is in the hose")

    assert done.facts[0]["why"] == "the foam is in the hose"
    assert yard.stand("A").state == "closed"


def test_no_reason_closes_over_what_can_never_be_waived() -> None:
    yard = _ready(check("gas", each="once", waive=False))
    yard.mark("gas", "vehicle")
    yard.release("A")
    yard.mark("gas", "vehicle", "bad")

    with pytest.raises(Refused, match="gas on vehicle is bad and can never be waived"):
        yard.close("A", why="in a hurry")


def test_a_close_in_lists_what_it_covered() -> None:
    yard = _closed()
    events = yard.build.holds["holdpoint:foam", "zone:A"]

    assert events[-1].fact["covered"] == ["run:L1", "run:L3"]
    assert closed_zones(yard.build, yard.item("foam")) == {"zone:A"}


def test_what_was_closed_in_is_buried_until_the_zone_is_reopened() -> None:
    yard = _closed()
    buried = {slug: is_buried(yard.cover, yard.item(slug)) for slug in ("L1", "L2", "L3")}
    assert buried == {"L1": True, "L2": False, "L3": True}

    yard.reopen("A")
    assert not is_buried(yard.cover, yard.item("L1"))


def test_items_that_surface_after_a_close_in_were_not_known_at_close_in() -> None:
    yard = _closed()
    assert yard.stand("A").late == ()

    yard.do(run("L9", "B1"), run("L10", "B4"), run("L11"))

    assert [item.slug for item in yard.stand("A").late] == ["L9", "L11"]
    assert not is_buried(yard.cover, yard.item("L9"))
    assert yard.stand("A").state == "closed"


def test_a_reopened_zone_is_signed_and_closed_again_with_what_is_there_then() -> None:
    yard = _closed()
    yard.reopen("A")
    yard.do(run("L9", "B1"))
    with pytest.raises(Refused, match="label on L9 must be"):
        yard.release("A")

    yard.mark("label", "L9")
    yard.release("A")
    yard.close("A")

    assert is_buried(yard.cover, yard.item("L9"))
    assert yard.stand("A").late == ()


def test_the_last_release_is_the_one_that_is_shown() -> None:
    yard = _released()
    done = yard.release("A", second="Per")

    shown = yard.stand("A").release

    assert shown is not None and shown.ref == done.ref(0)


def test_two_who_released_and_withdrew_apart_come_to_the_later_of_the_two() -> None:
    yard = _released()
    fact = release.withdraw(yard.stand("A"), "rain came in", yard.now)
    again: dict[str, Any] = dict(
        release.release(yard.stand("A"), "Per", "Ola", "present", yard.now)
    )
    yard.do(again, writer="bbbbbbbb")
    yard.do(fact, writer="cccccccc")

    assert yard.stand("A").state == "ready"


def test_a_hold_point_that_is_closed_says_nothing_of_another() -> None:
    yard = _closed()
    yard.do(hold("roof", buries=[]))

    assert closed_zones(yard.build, yard.item("roof")) == set()
    assert closed_zones(_released().build, yard.item("foam")) == set()
