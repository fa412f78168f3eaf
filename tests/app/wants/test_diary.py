"""Notes, conditions and the inbox."""

from __future__ import annotations

import pytest

from tracker.app.session import Session
from tracker.app.views.inbox import inbox_view
from tracker.app.wants import diary
from tracker.build.log import to_inbox
from tracker.errors import BadInput, UnknownName


def test_a_note_is_about_the_items_it_names(heron: Session) -> None:
    heron.do(diary.note("chafed\x1b[31m, sleeved", ["L1", "H12"]))

    (note,) = heron.build.notes
    assert note.text == "chafed[31m, sleeved"
    assert note.on == (heron.names.find("L1").id, heron.names.find("H12").id)
    with pytest.raises(BadInput, match="needs words"):
        heron.do(diary.note("  "))


def test_the_margin_follows_from_surface_air_and_humidity(heron: Session) -> None:
    heron.do(diary.condition(surface="8C", air="18 C", humidity="60%", zone="rear"))

    (read,) = heron.build.conditions
    assert read.margin_k == pytest.approx(8 - 10.1, abs=0.06)
    assert read.zone == heron.names.find("rear").id


def test_a_margin_that_was_read_goes_before_one_worked_out(heron: Session) -> None:
    heron.do(diary.condition(surface="8C", air="18C", humidity="60%", margin="2.5K"))

    assert heron.build.conditions[0].margin_k == 2.5


def test_without_all_three_no_margin_is_made_up(heron: Session) -> None:
    heron.do(diary.condition(surface="46F", air="62F", rain=False))

    read = heron.build.conditions[0]
    assert (read.margin_k, read.rain) == (None, False)
    assert read.surface_c == pytest.approx(7.78, abs=0.01)


@pytest.mark.parametrize(
    "given", [{}, {"air": "8"}, {"humidity": "130%"}, {"margin": "hot"}, {"zone": "reer"}]
)
def test_readings_that_can_not_be_are_refused(heron: Session, given: dict[str, str]) -> None:
    with pytest.raises(BadInput):
        heron.do(diary.condition(**given))  # type: ignore[arg-type]


def test_a_waiting_line_becomes_a_note_or_is_dropped_and_never_twice(heron: Session) -> None:
    heron.do(lambda _: [to_inbox("99 label ok"), to_inbox("blah")])
    first, second = (row["ref"] for row in inbox_view(heron))

    heron.do(diary.keep_as_note(first))
    heron.do(diary.drop(second))

    assert [note.text for note in heron.build.notes] == ["99 label ok"]
    assert inbox_view(heron) == []
    assert [row["sorted"] for row in inbox_view(heron, everything=True)] == ["a note", "dropped"]
    with pytest.raises(UnknownName):
        heron.do(diary.drop(first))
