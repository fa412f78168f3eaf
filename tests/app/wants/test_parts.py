"""Stock in people's words."""

from __future__ import annotations

import pytest

from tracker.app.session import Session
from tracker.app.views.parts import parts_view, where_words
from tracker.app.wants import items, parts
from tracker.app.wants.parts import elsewhere
from tracker.build.item import as_list
from tracker.build.stock import lots_of, on_hand
from tracker.errors import BadInput, CloseinError, Refused


def lots(session: Session, name: str) -> dict[str, float | None]:
    part = session.names.find(name, ("part",))
    return {place: lot.quantity for place, lot in lots_of(session.build, part).items()}


def test_what_comes_adds_up_and_what_is_used_goes(heron: Session) -> None:
    heron.do(parts.receive("glands", "4", "Shelf 2"))
    heron.do(parts.receive("glands", "2 packs", "shelf 2"))
    heron.do(parts.use("glands", "3", for_what="H12"))

    assert lots(heron, "glands") == {"Shelf 2": 21.0}
    assert heron.build.acts[-1].facts[0]["for"] == heron.names.find("H12").id


def test_a_quantity_is_read_in_the_parts_own_unit(heron: Session) -> None:
    heron.do(parts.receive("wire-red", "100 ft"))

    assert lots(heron, "wire-red") == {"site": pytest.approx(30.48)}
    with pytest.raises(BadInput, match="needs a unit"):
        heron.do(parts.receive("wire-red", "31"))


@pytest.mark.parametrize(
    ("answer", "quantity"),
    [("12", 12.0), ("0", 0.0), ("plenty", None), ("LOW", None), ("out", 0.0), ("unknown", None)],
)
def test_a_count_is_a_number_or_a_level(
    heron: Session, answer: str, quantity: float | None
) -> None:
    heron.do(parts.count("glands", None, answer))

    assert lots(heron, "glands") == {"site": quantity}


def test_measured_lengths_are_kept_each_on_its_own(heron: Session) -> None:
    heron.do(parts.count("wire-red", "reel", "4.2m, 10 ft; 3.1m"))

    part = heron.names.find("wire-red", ("part",))
    lot = lots_of(heron.build, part)["reel"]
    assert lot.lengths == (4.2, pytest.approx(3.048), 3.1)


@pytest.mark.parametrize("answer", ["plent", "-3", "3 boxes", "", "4,2,1"])
def test_what_is_no_count_is_refused(heron: Session, answer: str) -> None:
    with pytest.raises(BadInput):
        heron.do(parts.count("glands", None, answer))


def test_a_part_in_two_places_is_taken_from_the_one_that_is_named(heron: Session) -> None:
    heron.do(parts.receive("glands", "4", "shelf"))
    heron.do(parts.receive("glands", "8", "Ola's home"))

    with pytest.raises(BadInput, match="Ola's home, shelf; say which"):
        heron.do(parts.use("glands", "1"))
    heron.do(parts.move("glands", "all", "ola's home", "SHELF"))
    heron.do(parts.use("glands", "1"))

    assert lots(heron, "glands") == {"Ola's home": 0.0, "shelf": 11.0}


def test_more_can_not_be_moved_than_is_there_but_what_was_used_was_used(heron: Session) -> None:
    heron.do(parts.count("glands", "shelf", "2"))

    with pytest.raises(Refused, match="only 2 of glands"):
        heron.do(parts.move("glands", "3", "shelf", "bin"))
    heron.do(parts.use("glands", "3"))
    assert lots(heron, "glands") == {"shelf": 0.0}


def test_nothing_can_be_taken_from_what_nobody_counted(heron: Session) -> None:
    with pytest.raises(Refused, match="nobody has counted glands"):
        heron.do(parts.use("glands", "1"))


def test_an_order_that_arrives_is_no_longer_on_order(heron: Session) -> None:
    heron.do(parts.order("glands", "2 packs", "2030-05-09", "the chandler"))
    part = heron.names.find("glands", ("part",))
    assert [order.quantity for order in heron.build.orders[part.id]] == [20.0]

    heron.do(parts.receive("glands", "20"))

    assert heron.build.orders[part.id] == ()
    with pytest.raises(BadInput, match="due is a date"):
        heron.do(parts.order("glands", "1", "next week"))


def test_out_sets_the_level_and_raises_one_blocker_that_names_what_it_stops(
    heron: Session,
) -> None:
    heron.do(items.change("glands", {"stops": "spray"}))
    heron.do(parts.receive("glands", "4", "shelf"))
    act = heron.do(parts.out("glands"))

    blocker = heron.names.find("out-glands", ("blocker",))
    assert [fact["f"] for fact in act.facts] == ["stock.counted", "item.added"]
    assert blocker.get("kind") == "part"
    assert as_list(blocker.get("part")) == [heron.names.find("glands").id]
    assert heron.names.find("spray").id in as_list(blocker.get("stops"))
    again = heron.do(parts.out("glands"))
    assert [fact["f"] for fact in again.facts] == ["stock.counted"]


def test_out_on_site_leaves_what_lies_at_a_helpers_home_and_says_so(heron: Session) -> None:
    heron.do(parts.receive("glands", "4", "shelf"))
    heron.do(parts.receive("glands", "6", "Ola's home"))
    heron.do(parts.out("glands"))

    part = heron.names.find("glands", ("part",))
    assert on_hand(heron.build, part) == 6.0
    assert heron.names.find("out-glands").title == "out of cable glands; 6 at Ola's home"
    row = next(row for row in parts_view(heron) if row["part"] == "glands")
    assert row["short"]
    assert where_words(row) == "6 at Ola's home"


def test_a_blocker_need_not_be_raised(heron: Session) -> None:
    act = heron.do(parts.out("glands", raises_blocker=False))

    assert [fact["f"] for fact in act.facts] == ["stock.counted"]


@pytest.mark.parametrize(
    ("place", "away"),
    [
        ("Ola's home", True),
        ("ola's van", True),
        ("Ola Brandt", True),
        ("home", True),
        ("shelf 2", False),
        ("granola tin", False),
    ],
)
def test_a_helpers_home_or_vehicle_is_elsewhere(heron: Session, place: str, away: bool) -> None:
    assert elsewhere(heron.names, place) is away


def test_a_quantity_is_set_aside_for_an_item_or_for_words(heron: Session) -> None:
    heron.do(parts.count("glands", None, "9"))
    heron.do(parts.set_aside("glands", "2", None, "H12"))
    heron.do(parts.set_aside("glands", "1", None, "the spare box"))

    assert [row.for_what for row in heron.build.aside] == [
        heron.names.find("H12").id,
        "the spare box",
    ]


def test_pack_size_must_be_known_to_count_in_packs(heron: Session) -> None:
    with pytest.raises(CloseinError, match="in a pack is unknown"):
        heron.do(parts.order("wire-red", "2 packs"))
