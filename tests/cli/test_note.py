from __future__ import annotations

from tests.cli.yard import Yard


def test_a_note_is_saved_on_the_items_it_names(yard: Yard) -> None:
    yard.saved("note", "chafed,", "sleeved again", "--on", "L1", "H1", "--by", "Ola")

    (note,) = yard.session.build.notes
    assert (note.text, note.by) == ("chafed, sleeved again", "Ola")
    assert [yard.session.names.name(item) for item in note.on] == ["L1", "H1"]


def test_a_note_without_words_or_on_nothing_known_is_refused(yard: Yard) -> None:
    assert "needs words" in yard.refused("note", "  ")
    assert "did you mean" in yard.refused("note", "x", "--on", "L11")
