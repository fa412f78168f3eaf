"""Undo and redo: what they take, what they refuse, and what rests on what."""

from __future__ import annotations

import pytest

from tests.build.making import Yard, added, check, ground, run
from tracker.act import short_id
from tracker.build import item, log, undo
from tracker.errors import BadInput, Refused, UnknownName

MINE, THEIRS = "aaaaaaaa", "bbbbbbbb"


def test_a_bare_undo_takes_the_newest_living_act_of_its_own_writer() -> None:
    yard = Yard(*ground())
    mine = yard.do(log.note("mine"))
    yard.do(log.note("theirs"), writer=THEIRS)

    yard.do(*undo.undo(yard.build, MINE))

    assert yard.build.dead == {mine.id}
    assert [note.text for note in yard.build.notes] == ["theirs"]


def test_a_second_bare_undo_takes_the_act_before() -> None:
    yard = Yard()
    notes = [yard.do(log.note("one")), yard.do(log.note("two"))]

    for _ in notes:
        yard.do(*undo.undo(yard.build, MINE))

    assert yard.build.dead == {note.id for note in notes}


def test_where_nothing_of_ones_own_is_to_undo_it_says_so() -> None:
    yard = Yard()
    yard.do(log.note("theirs"), writer=THEIRS)

    with pytest.raises(Refused, match="nothing of yours"):
        undo.undo(yard.build, MINE)


def test_an_act_is_named_by_its_id_or_its_short_form_in_any_case() -> None:
    yard = Yard()
    done = yard.do(log.note("one"))

    assert undo.find_act(yard.build, done.id) == done
    assert undo.find_act(yard.build, f" {short_id(done.id).upper()} ") == done


def test_a_short_form_that_two_acts_have_is_refused_with_the_longer_ones() -> None:
    yard = Yard()
    yard.number = 0
    yard.do(log.note("one"), writer="aaaabbbb")
    yard.number = 0
    yard.do(log.note("two"), writer="aaaacccc")

    with pytest.raises(BadInput, match="aaaabbbb-1, aaaacccc-1"):
        undo.find_act(yard.build, "aaaa-1")


def test_an_act_nobody_knows_is_an_unknown_name() -> None:
    with pytest.raises(UnknownName, match="no act is called 'zzzz-9'"):
        undo.find_act(Yard(log.note("one")).build, "zzzz-9")


def test_what_is_undone_already_is_not_undone_again() -> None:
    yard = Yard()
    done = yard.do(log.note("one"))
    undoing = yard.do(*undo.undo(yard.build, MINE))

    with pytest.raises(Refused, match="undone already"):
        undo.undo(yard.build, MINE, done.id)
    with pytest.raises(Refused, match="an undo itself"):
        undo.undo(yard.build, MINE, undoing.id)


def test_undoing_what_others_built_on_lists_it_and_needs_a_second_word() -> None:
    yard = Yard()
    adding = yard.do(run("L1"))
    later = yard.do(item.change(yard.item("L1"), {"to": "lamp"}), writer=THEIRS)

    with pytest.raises(Refused, match=rf"1 later acts rest .*{short_id(later.id)}.*--with"):
        undo.undo(yard.build, MINE, adding.id)

    yard.do(*undo.undo(yard.build, MINE, adding.id, also=True))
    assert yard.build.dead == {adding.id, later.id}
    assert yard.build.orphans == {}


def test_what_rests_on_what_rests_on_it_is_listed_too() -> None:
    yard = Yard()
    adding = yard.do(added("bay", "B9"))
    hole = yard.do(added("hole", "H1", bay=["bay:B9"]))
    note = yard.do(log.note("drilled", ("hole:H1",)))

    (fact,) = undo.undo(yard.build, MINE, adding.id, also=True)

    assert fact["acts"] == [adding.id, hole.id, note.id]


def test_a_phase_that_somebody_else_adopted_too_rests_on_both() -> None:
    yard = Yard()
    phase = {"id": "phase:x", "slug": "x", "fields": {}}
    adopted = {"f": "phase.adopted", "phase": phase, "items": []}
    first = yard.do(adopted)
    yard.do(adopted, writer=THEIRS)
    yard.do(item.change(yard.item("x"), {"title": "X"}))

    (fact,) = undo.undo(yard.build, MINE, first.id)

    assert fact["acts"] == [first.id]


def test_facts_that_can_not_be_read_do_not_stop_an_undo() -> None:
    yard = Yard()
    yard.do({"f": "phase.adopted", "phase": 3, "items": {"id": 1}}, {"f": "item.added", "id": [1]})
    yard.do({"f": "phase.adopted", "items": [1, {"id": 2}]})
    done = yard.do(run("L1"))

    assert undo.undo(yard.build, MINE) == [{"f": "undo", "acts": [done.id]}]


def test_the_beginning_of_a_build_can_not_be_undone() -> None:
    yard = Yard()
    yard.do({"f": "item.added", "kind": "vehicle", "slug": "vehicle", "id": "vehicle"})

    with pytest.raises(Refused, match="began the build"):
        undo.undo(yard.build, MINE)


def test_a_waiver_is_taken_back_by_an_act_of_its_own() -> None:
    yard = Yard(*ground(), run("L1"), check("label"))
    yard.mark("label", "L1", "waived", why="no room", second="Ola")

    with pytest.raises(Refused, match=r"is a waiver .*closein check .*--reopen"):
        undo.undo(yard.build, MINE)


def test_nothing_recorded_of_a_hold_point_can_be_undone() -> None:
    yard = Yard(*ground(), run("L1", "B1"), check("label"))
    yard.mark("label", "L1")
    for step, word, instead in [
        (yard.release, "released", "release ... --withdraw WHY"),
        (yard.close, "closed", "close ... --reopen WHY"),
        (yard.reopen, "reopened", "close' closes it again"),
        (yard.release, "released", "release ... --withdraw WHY"),
        (yard.withdraw, "withdrawn", "release' signs it again"),
    ]:
        step("A")
        with pytest.raises(Refused, match=f"is a hold point {word} .*'closein {instead}"):
            undo.undo(yard.build, MINE)


def test_an_item_that_was_closed_in_can_not_be_undone_from_under_it() -> None:
    yard = Yard(*ground(), check("label"))
    adding = yard.do(run("L1", "B1"))
    yard.mark("label", "L1")
    yard.release("A")
    yard.close("A")

    with pytest.raises(Refused, match="is a hold point closed"):
        undo.undo(yard.build, MINE, adding.id, also=True)


def test_redo_brings_back_one_undo_after_the_other() -> None:
    yard = Yard()
    for text in ("one", "two"):
        yard.do(log.note(text))
    for _ in range(2):
        yard.do(*undo.undo(yard.build, MINE))

    yard.do(*undo.redo(yard.build, MINE))
    assert [note.text for note in yard.build.notes] == ["one"]
    yard.do(*undo.redo(yard.build, MINE))
    assert [note.text for note in yard.build.notes] == ["one", "two"]

    with pytest.raises(Refused, match="nothing to bring back"):
        undo.redo(yard.build, MINE)


def test_a_bare_redo_is_gone_once_something_newer_was_done_here_but_not_there() -> None:
    yard = Yard()
    yard.do(log.note("one"))
    yard.do(*undo.undo(yard.build, MINE))
    yard.do(log.note("theirs"), writer=THEIRS)
    assert undo.redo(yard.build, MINE)

    yard.do(log.note("two"))
    with pytest.raises(Refused, match="something newer"):
        undo.redo(yard.build, MINE)


def test_a_redo_by_name_takes_back_every_living_undo_of_an_act() -> None:
    yard = Yard()
    done = yard.do(log.note("one"))
    for writer in (MINE, THEIRS):
        yard.do({"f": "undo", "acts": [done.id]}, writer=writer)

    yard.do(*undo.redo(yard.build, MINE, done.id))

    assert [note.text for note in yard.build.notes] == ["one"]


def test_a_redo_that_names_the_undo_takes_that_undo_back() -> None:
    yard = Yard()
    yard.do(log.note("one"))
    undoing = yard.do(*undo.undo(yard.build, MINE))

    yard.do(*undo.redo(yard.build, MINE, undoing.id))

    assert [note.text for note in yard.build.notes] == ["one"]


def test_a_redo_of_what_was_never_undone_is_refused() -> None:
    yard = Yard()
    done = yard.do(log.note("one"))

    with pytest.raises(Refused, match="is not undone"):
        undo.redo(yard.build, MINE, done.id)


def test_the_writer_of_an_act_is_read_from_its_id() -> None:
    yard = Yard()

    assert undo.writer_of(yard.do(log.note("one"), writer=THEIRS)) == THEIRS


def test_of_many_acts_that_rest_on_it_the_first_are_named_and_the_rest_counted() -> None:
    yard = Yard()
    adding = yard.do(run("L1"))
    for load_a in range(7):
        yard.do(item.change(yard.item("L1"), {"load_a": load_a}))

    with pytest.raises(Refused, match=r"7 later acts .*aaaa-6 and 2 more; add --with"):
        undo.undo(yard.build, MINE, adding.id)
