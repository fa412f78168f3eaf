"""The entry line: every form of it, what it refuses to guess, and that nothing is ever lost."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.app import yard
from tracker.act import Act
from tracker.app.session import Session
from tracker.app.views.inbox import inbox_view
from tracker.app.wants import parts, say
from tracker.build.answer import standing
from tracker.build.item import add
from tracker.build.names import clean
from tracker.errors import BadInput, UnknownName


def said(session: Session, line: str) -> tuple[Act, str]:
    intent, words = say.understand(session, line, "Ida")
    return session.do(intent), words


def state(session: Session, check: str, subject: str) -> str:
    names = session.names
    found = names.find(check, ("check",)), names.find(subject, ("run", "hole", "zone", "vehicle"))
    return standing(session.build, *found).state


@pytest.mark.parametrize(
    ("line", "check", "subject", "found"),
    [
        ("12 label ok", "label-both-ends", "L12", "good"),
        ("L12 LABEL Good", "label-both-ends", "L12", "good"),
        ("12 label-both-ends yes", "label-both-ends", "L12", "good"),
        ("12\tlabel\tok", "label-both-ends", "L12", "good"),
        ("12 label bad smudged at the rear", "label-both-ends", "L12", "bad"),
        ("12 label na not in this one", "label-both-ends", "L12", "na"),
        ("12 label waive the lamp goes with Ola", "label-both-ends", "L12", "waived"),
        ("12 len 9in", "lead-length", "L12", "bad"),
        ("12 len 14 in", "lead-length", "L12", "good"),
        ("layout ok with Ola", "layout-unchanged", "vehicle", "good"),
        ("rear mask ok", "masked", "rear", "good"),
    ],
)
def test_a_line_answers_one_check(
    heron: Session, line: str, check: str, subject: str, found: str
) -> None:
    act, _ = said(heron, line)

    assert [fact["f"] for fact in act.facts] == ["point.answered"]
    assert state(heron, check, subject) == found


def test_what_was_found_is_said_with_the_verdict_of_its_limit(heron: Session) -> None:
    assert said(heron, "12 len 9in")[1].startswith("lead-length on L12: 9in, bad: at least 0.3")
    assert said(heron, "12 len 40cm")[1].startswith("lead-length on L12: 40cm, good: at least")


@pytest.mark.parametrize("line", ["1-2 label ok", "L1-L2 label ok", "1,2 label ok", "1 2 label ok"])
def test_several_subjects_are_a_range_or_a_list(heron: Session, line: str) -> None:
    said(heron, line)

    assert [state(heron, "label-both-ends", run) for run in ("L1", "L2", "L12")] == [
        "good",
        "good",
        "open",
    ]


def test_the_exact_name_goes_before_the_number_with_a_prefix(heron: Session) -> None:
    heron.do(lambda _: [add("run", "12", {})])
    said(heron, "12 label ok")

    assert state(heron, "label-both-ends", "12") == "good"
    assert state(heron, "label-both-ends", "L12") == "open"


def test_a_bay_is_marked_at_once_but_for_what_is_named(heron: Session) -> None:
    act, words = said(heron, "bay 1 ok but 12")

    checks = {heron.names.name(fact["check"]) for fact in act.facts}
    subjects = {heron.names.name(fact["subject"]) for fact in act.facts}
    assert {"label-both-ends"} <= checks
    assert "lead-length" not in checks
    assert {"L1", "L2"} <= subjects
    assert not {"L12", "H12"} & subjects
    assert words.startswith("bay B1: ") and words.endswith("good, all but 12")


def test_a_bay_marked_at_once_never_makes_good_what_was_found_bad(heron: Session) -> None:
    said(heron, "1 label bad torn")
    said(heron, "B1 ok")

    assert state(heron, "label-both-ends", "L1") == "bad"
    assert state(heron, "label-both-ends", "L2") == "good"


def test_a_bay_where_all_that_is_looked_at_is_good_has_nothing_more_to_mark(
    heron: Session,
) -> None:
    said(heron, "bay 1 ok")

    assert "nothing that is looked at is open in B1" in said(heron, "bay 1 ok")[1]


def test_one_check_of_a_bay_is_marked_at_once(heron: Session) -> None:
    act, _ = said(heron, "bay 1 label ok")

    assert {heron.names.name(fact["check"]) for fact in act.facts} == {"label-both-ends"}


@pytest.mark.parametrize(
    "line", ["out glands", "out of cable glands", "OUT gl", "out glands at bin"]
)
def test_out_sets_a_part_out_and_raises_its_blocker(heron: Session, line: str) -> None:
    act, words = said(heron, line)

    assert [fact["f"] for fact in act.facts] == ["stock.counted", "item.added"]
    assert words.startswith("out of glands")


def test_a_day_begins_with_people_hours_sky_and_air(heron: Session) -> None:
    said(heron, "3 people 8-16 dry 6C")
    said(heron, "2 people, 7:30 to 12, 43F")

    first, second = heron.build.days
    assert first[3:] == (3, 8.0, 16.0, True, 6.0)
    assert second[3:7] == (2, 7.5, 12.0, None)
    assert heron.build.conditions == []


def test_rain_at_the_start_of_a_day_is_a_condition_too(heron: Session) -> None:
    said(heron, "1 person 8-12 rain 4C")

    assert [(read.rain, read.air_c) for read in heron.build.conditions] == [(True, 4.0)]


@pytest.mark.parametrize(
    ("line", "on"),
    [
        ("the fan came bent", None),
        ("12 volts at the panel", None),
        ("3 people came to look", None),
        ("L12 chafed at the rib", "L12"),
        ("bay 2 looks damp", "B2"),
        ("outlet by the door is loose", None),
    ],
)
def test_anything_else_is_a_note_on_what_it_begins_with(
    heron: Session, line: str, on: str | None
) -> None:
    said(heron, line)

    (note,) = heron.build.notes
    assert note.text == line
    assert [heron.names.name(item) for item in note.on] == ([on] if on else [])


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("99 label ok", "no run is called '99'"),
        ("12 lable ok", "did you mean label"),
        ("12 label okey", "is no answer"),
        ("12 label ok but smudged", "'but' can't be placed"),
        ("12 label", "say ok, bad, na, waive or a number"),
        ("12 label 9in", "asks for no number"),
        ("12 len ok", "decided by its number"),
        ("12 len 9", "needs a unit"),
        ("12 ok", "which check"),
        ("label ok", "of which run"),
        ("1,12 label ok", "one bay"),
        ("12-1 label ok", "backwards"),
        ("12 label na", "reason"),
        ("12 label waive too late", "second name"),
        ("bay 9 ok", "no bay is called '9'"),
        ("bay 1 ok but 99", "'99'"),
        ("bay 1 ok except 12", "can't be placed"),
        ("out gaskets", "no part is called 'gaskets'"),
        ("out", "out of what"),
        ("3 people 8-16 dry windy", "'windy' does not belong"),
        ("3 people 16-8", "no hours of a day"),
    ],
)
def test_what_looks_like_something_and_can_not_be_placed_waits_in_the_inbox(
    heron: Session, line: str, why: str
) -> None:
    act, words = said(heron, line)

    assert [fact["f"] for fact in act.facts] == ["inbox.put"]
    assert [row["text"] for row in inbox_view(heron)] == [line]
    assert words.startswith("kept in the inbox: ") and why in words


def test_several_lines_are_one_act_and_each_is_taken_on_its_own(heron: Session) -> None:
    act, words = said(heron, "12 label ok\n\n99 label ok\r\nthe fan came bent\n")

    assert [fact["f"] for fact in act.facts] == ["point.answered", "inbox.put", "note.written"]
    assert len(words.splitlines()) == 3


def test_a_line_that_answers_again_what_one_before_it_answered_waits(heron: Session) -> None:
    act, _ = said(heron, "12 label ok\n12 label bad torn")

    assert [fact["f"] for fact in act.facts] == ["point.answered", "inbox.put"]
    assert state(heron, "label-both-ends", "L12") == "good"


def test_a_line_that_no_longer_fits_when_it_is_decided_waits(heron: Session) -> None:
    intent, _ = say.understand(heron, "12 label ok", "Ida")
    heron.do(lambda _: [{"f": "item.removed", "id": heron.names.find("L12").id, "why": "gone"}])

    assert [fact["f"] for fact in heron.do(intent).facts] == ["inbox.put"]


def test_a_waiting_line_is_placed_by_saying_it_again(heron: Session) -> None:
    said(heron, "21 label ok")
    (row,) = inbox_view(heron)

    with pytest.raises(BadInput, match="can't be placed either: no run is called '22'"):
        say.sort_into(heron, row["ref"], "22 label ok", "Ida")
    with pytest.raises(UnknownName, match="waiting line"):
        say.sort_into(heron, "zzzz-1", "12 label ok", "Ida")
    intent, _ = say.sort_into(heron, row["ref"], "12 label ok", "Ida")
    heron.do(intent)

    assert inbox_view(heron) == []
    assert state(heron, "label-both-ends", "L12") == "good"
    assert inbox_view(heron, everything=True)[0]["sorted"] == "as 12 label ok"


def test_blank_lines_say_nothing(heron: Session) -> None:
    with pytest.raises(BadInput, match="say something"):
        say.understand(heron, " \n\t ", "Ida")


WORDS = """
12 1-2 L12 B1 bay 7 ok bad na waive but label len mask 9in 3 people 8-16 dry 6C out glands
of at with because and , 1,2 -5C % \x1b[31m H12 rear vehicle 99999999999999999999 ½ ³
"""


@pytest.fixture(scope="module")
def furnished() -> Session:
    """One build for all examples: lines are understood and decided against it, none is written."""
    with TemporaryDirectory() as place:
        session = yard.furnish(yard.start(Path(place) / "heron", Path(place) / "data"))
        session.do(parts.receive("glands", "4", "shelf"))
        yield session  # type: ignore[misc]


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.one_of(st.text(), st.lists(st.sampled_from(WORDS.split()), max_size=8).map(" ".join)))
def test_no_text_at_all_raises_anything_or_is_lost(furnished: Session, text: str) -> None:
    lines = [line for line in text.splitlines() if line.strip()]
    if not lines:
        return

    intent, words = say.understand(furnished, text, "Ida")
    facts = intent(furnished.build)

    assert len(words.splitlines()) >= len(lines)
    kept = [fact["text"] for fact in facts if fact["f"] in ("inbox.put", "note.written")]
    acted = [fact for fact in facts if fact["f"] not in ("inbox.put", "note.written")]
    assert len(kept) == len(lines) or acted
    for line in lines:
        shown = clean(line.replace("\t", " ")).strip()
        assert shown in kept or acted or not shown


@pytest.mark.parametrize(
    ("line", "hint"),
    [("stuck no sealant", "closein stuck"), ("got 6 grommets", "closein part receive")],
)
def test_a_note_that_reads_like_something_else_says_how_that_is_done(
    heron: Session, line: str, hint: str
) -> None:
    act, words = said(heron, line)

    assert act.facts[0]["f"] == "note.written"
    assert words.startswith("a note") and hint in words
