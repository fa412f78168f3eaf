"""Items, parts and the inbox as people read them."""

from __future__ import annotations

from tracker.app.session import Session
from tracker.app.views.items import all_names, item_view, items_view
from tracker.app.views.parts import amount_words, parts_view, where_words
from tracker.app.wants import checks, diary, items, parts
from tracker.build.item import add, change


def test_one_item_tells_what_is_known_unknown_and_found_of_it(heron: Session) -> None:
    heron.do(checks.mark("label-both-ends", ["L1"], "good", by="Ida"))
    heron.do(diary.note("chafed", ["L1"]))
    view = item_view(heron, "l1")

    assert view["fields"] == {"to": "reading lamp", "length_m": "5.5 m"}
    assert view["bay"] == ["B1"]
    assert "gauge" in view["unknown"] and "gauge" in view["empty"]
    assert view["named_by"] == ["H12"]
    assert [(row["check"], row["result"]) for row in view["answers"]] == [
        ("label-both-ends", "good")
    ]
    assert [row["text"] for row in view["notes"]] == ["chafed"]
    assert view["covered_by"] == "pre-foam" and not view["buried"]


def test_a_conflict_shows_both_values(heron: Session) -> None:
    run = heron.names.find("L1")
    heron.do(lambda _: [change(run, {"to": "lamp"}), change(run, {"to": "fan"})])

    assert item_view(heron, "L1")["conflicts"] == {"to": ["lamp", "fan"]}


def test_an_item_nobody_placed_is_in_no_bay_of_a_list(heron: Session) -> None:
    heron.do(items.add("run", "L40", {}))

    assert [row["name"] for row in items_view(heron, "run", zone="front")] == ["L1", "L2", "L12"]
    assert [row["name"] for row in items_view(heron, "run", bay="B2")] == ["L12"]


def test_removed_items_are_listed_apart_with_their_reason(heron: Session) -> None:
    heron.do(items.remove("L2", "no fan"))

    assert [(row["name"], row["removed"]) for row in items_view(heron, removed=True)] == [
        ("L2", "no fan")
    ]
    assert "L2" not in [row["name"] for row in items_view(heron)]


def test_fields_of_a_kind_nobody_knows_are_shown_and_of_a_wrong_shape_are_not(
    heron: Session,
) -> None:
    odd = {"length_m": "long", "bay": [{"x": 1}], "to": ["a"]}
    heron.do(lambda _: [add("run", "L40", odd), add("sail", "s1", {"area": 3})])

    rows = {row["name"]: row for row in [*items_view(heron, "run"), *items_view(heron)]}
    assert not {"length_m", "bay"} & set(rows["L40"]["fields"])
    assert rows["s1"]["fields"] == {"area": "3"}


def test_only_names_that_mean_nothing_to_a_shell_are_completed(heron: Session) -> None:
    heron.do(lambda _: [add("run", "$(reboot)", {}), add("run", "L1", {})])

    assert all_names(heron, "run") == ["L1", "L2", "L12", "L1~2"]


def test_parts_that_are_short_come_first_and_say_where_the_rest_lies(heron: Session) -> None:
    heron.do(parts.receive("wire-red", "40 m", "reel"))
    heron.do(parts.receive("glands", "8", "Ola's home"))
    rows = parts_view(heron)

    assert [(row["part"], row["short"]) for row in rows] == [("glands", True), ("wire-red", False)]
    assert rows[0]["lots"][0]["elsewhere"]
    assert rows[0]["missing"] == 4.0
    assert [row["part"] for row in parts_view(heron, short=True)] == ["glands"]


def test_a_quantity_is_said_with_its_unit_unless_it_is_counted() -> None:
    assert amount_words(31.0, "m") == "31 m"
    assert amount_words(12.0, "each") == "12"
    assert amount_words("low", "m") == "low"
    assert amount_words(None, "m") == "unknown"


def test_what_came_after_a_place_was_out_is_there_again(heron: Session) -> None:
    heron.do(parts.count("glands", "bin 1", "out"))
    heron.do(parts.receive("glands", "12", "bin 1"))

    row = next(row for row in parts_view(heron) if row["part"] == "glands")
    assert where_words(row) == "12 at bin 1"
