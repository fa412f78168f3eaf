"""A newer template against what a build took up from an older one."""

from __future__ import annotations

from tracker.act import Act, Fact
from tracker.build import item
from tracker.build.fold import EMPTY, fold
from tracker.build.state import Build
from tracker.templates.facts import facts_of
from tracker.templates.load import load
from tracker.templates.newer import newer
from tracker.templates.shipped import example

OLD = load(example(), "sauna")
TEXT = (
    example()
    .replace("edition = 1 ", "edition = 2 ")
    .replace("crew = 2\n", "crew = 3\n")
    .replace("valid_h = 72 ", "valid_h = 24 ")
    .replace('key = "foil-joints"', 'key = "foil-taped"')
    .replace('say = "distance" ', "# ")
)
NEW = load(TEXT, "sauna")
BOARDS, HOLD = "task:sauna/board-walls", "hold:sauna/pre-cedar"


def act(number: int, *facts: Fact) -> Act:
    moment = f"2030-05-02T08:{number:02d}:00+00:00"
    return Act(f"{number:012d}-aaaaaaaa-{number}", moment, "Ida", tuple(facts))


def taken_up() -> Build:
    return fold([act(1, facts_of(OLD))], EMPTY)


def test_the_same_template_changes_nothing() -> None:
    found = newer(taken_up(), OLD)

    assert found is not None and found.nothing
    assert (found.facts(), found.kept) == ([], ())


def test_a_phase_never_taken_up_has_nothing_to_compare() -> None:
    assert newer(EMPTY, NEW) is None


def test_what_is_new_changed_and_gone_is_told_item_by_item() -> None:
    found = newer(taken_up(), NEW)

    assert found is not None
    assert (found.edition_here, found.edition_there) == (1, 2)
    assert [row["id"] for row in found.added] == ["check:sauna/foil-taped"]
    assert [gone.slug for gone in found.dropped] == ["foil-joints"]
    assert {(each.item.slug, each.field, each.new) for each in found.changed} == {
        ("sauna", "edition", 2),
        ("board-walls", "crew", 3),
        ("pre-cedar", "valid_h", 24.0),
        ("stove-distance", "say", None),
    }


def test_after_taking_it_nothing_is_new_but_what_is_gone_stays() -> None:
    build = taken_up()
    found = newer(build, NEW)
    assert found is not None

    build = fold([act(2, *found.facts())], build)

    again = newer(build, NEW)
    assert again is not None and (again.added, again.changed) == ((), ())
    assert "say" not in build.items["check:sauna/stove-distance"].fields
    assert build.items["check:sauna/foil-joints"].removed is None


def test_what_was_set_by_hand_stays_and_is_told() -> None:
    build = taken_up()
    hold = build.items[HOLD]
    build = fold([act(2, item.change(hold, {"valid_h": 12.0, "booked": "2030-06-01"}))], build)
    found = newer(build, NEW)
    assert found is not None
    assert [(each.field, each.new) for each in found.kept] == [("valid_h", 24.0)]

    build = fold([act(3, *found.facts())], build)

    assert build.items[HOLD].fields["valid_h"] == 12.0
    assert build.items[HOLD].fields["booked"] == "2030-06-01"


def test_an_edit_that_somebody_made_elsewhere_wins_though_it_arrives_later() -> None:
    build = taken_up()
    found = newer(build, NEW)
    assert found is not None
    edit = act(2, item.change(build.items[HOLD], {"valid_h": 12.0}))

    together = fold([edit], fold([act(3, *found.facts())], build))
    after = fold([act(4, item.change(build.items[HOLD], {"valid_h": 9.0}))], together)

    assert together.items[HOLD].fields["valid_h"] == 12.0
    assert after.items[HOLD].rivals["valid_h"]  # of the two people's own, not of the template


def test_two_who_take_the_same_newer_template_are_in_no_conflict() -> None:
    build = taken_up()
    found = newer(build, NEW)
    assert found is not None

    both = fold([act(3, *found.facts()), act(4, *found.facts())], build)

    assert not any(each.rivals for each in both.items.values())
    assert both.items[BOARDS].fields["crew"] == 3


def test_a_taken_template_is_undone_as_one() -> None:
    build = taken_up()
    found = newer(build, NEW)
    assert found is not None
    taken = act(2, *found.facts())

    back = fold([act(3, {"f": "undo", "acts": [taken.id]})], fold([taken], build))

    assert back.items[BOARDS].fields == build.items[BOARDS].fields
    assert set(back.items) == set(build.items)
