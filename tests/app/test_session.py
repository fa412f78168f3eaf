"""One session: what is done, refused, read again and missed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path

import pytest

from tests.app.place import Place, change, note, say, texts
from tests.build.making import run
from tracker.act import Fact, short_id
from tracker.app.session import LETTERS, now_here, random_writer
from tracker.build.log import accept
from tracker.build.state import Build
from tracker.errors import BadInput, CloseinError, NotSaved, Refused


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return Place(tmp_path)


def test_what_was_done_is_there_when_the_build_is_opened_again(place: Place) -> None:
    done = place.open().do(note("swept"))

    session = place.open()

    assert session.build.acts == (done,)
    assert texts(session) == ["swept"]
    assert session.refresh() is False


def test_an_act_is_signed_with_the_user_or_the_one_named_and_the_time(place: Place) -> None:
    session = place.open("Ola")
    earlier = place.clock.moment - timedelta(days=1)

    typed = session.do(note("one"))
    named = session.do(note("two"), by="Per", when=earlier)

    assert (typed.by, typed.when) == ("Ola", None)
    assert (named.by, named.happened) == ("Per", earlier.isoformat(timespec="seconds"))
    assert typed.at < named.at


def test_what_lies_ahead_can_not_have_happened(place: Place) -> None:
    session = place.open()
    with pytest.raises(BadInput, match="lies ahead of now"):
        session.do(note("swept"), when=place.clock.moment + timedelta(days=1))

    assert place.bytes() == {}


def test_a_folder_that_is_gone_is_no_empty_build(place: Place) -> None:
    session = place.open()
    done = session.do(note("swept"))
    session.folder.rename(session.folder.with_name("away"))

    assert session.changed()
    with pytest.raises(CloseinError, match="is gone"):
        session.refresh()
    assert session.build.acts == (done,)


def test_a_refused_intent_writes_nothing_and_changes_nothing(place: Place) -> None:
    session = place.open()
    session.do(note("swept"))
    before, state = place.bytes(), session.build

    def refuses(_: Build) -> Sequence[Fact]:
        raise Refused("no")

    for intent, error in ((refuses, Refused), (lambda _: [], BadInput)):
        with pytest.raises(error):
            session.do(intent)

    assert place.bytes() == before
    assert session.build == state


def test_an_intent_that_fails_by_a_fault_of_ours_leaves_the_build_free_for_the_next(
    place: Place,
) -> None:
    session = place.open()
    with pytest.raises(ZeroDivisionError):
        session.do(lambda _: [{"f": 1 // 0}])

    place.open("Ola").do(note("swept"))
    session.do(note("mopped"))

    assert texts(session) == ["swept", "mopped"]


def test_acts_that_vanish_from_the_disk_vanish_from_the_state_and_are_missed(place: Place) -> None:
    ida, ola = place.open("Ida"), place.open("Ola")
    ida.do(note("swept"))
    (file,) = (place.folder / "journal").glob("*.log")
    kept = file.read_bytes()
    ida.do(note("mopped"))
    ola.refresh()
    file.write_bytes(kept)

    ida.refresh()

    assert texts(ida) == ["swept"]
    assert [reservation.key.split("-")[0] for reservation in ida.reservations] == ["shorter"]


def test_undo_and_redo_go_through_the_session(place: Place) -> None:
    session = place.open()
    for text in ("one", "two"):
        session.do(note(text))

    session.undo()
    session.undo()
    assert texts(session) == []

    session.redo()
    assert texts(session) == ["one"]
    session.redo()
    assert texts(place.open()) == ["one", "two"]
    with pytest.raises(Refused, match="nothing to bring back"):
        session.redo()


def test_a_fact_of_a_newer_release_is_a_reservation_until_it_is_accepted(place: Place) -> None:
    session = place.open()
    done = session.do(say({"f": "run.painted", "id": "L1"}))
    (reservation,) = session.reservations
    assert short_id(done.id) in reservation.text

    session.do(say(accept(reservation.key, "it is only paint")))
    assert session.reservations == ()

    session.do(say({"f": "run.welded", "id": "L1"}))
    assert len(session.reservations) == 1
    assert session.reservations[0].key != reservation.key


def test_a_fault_that_stands_in_nobodys_way_is_a_notice(place: Place) -> None:
    ida, ola = place.open("Ida"), place.open("Ola")
    ida.do(note("swept"))
    (file,) = (place.folder / "journal").glob("*.log")
    with file.open("ab") as handle:
        handle.write(b"0123 half a line")

    ola.refresh()

    assert ola.reservations == ()
    assert len(ola.notices) == 1
    assert texts(ola) == ["swept"]


def test_a_clock_that_runs_ahead_is_noticed(place: Place) -> None:
    ida, ola = place.open("Ida"), place.open("Ola")
    place.clock.moment += timedelta(hours=3)
    ida.do(note("swept"))
    place.clock.moment -= timedelta(hours=2, minutes=30)

    ola.refresh()

    assert any("ahead" in notice for notice in ola.notices)


def test_a_disk_that_takes_nothing_acknowledges_nothing_and_the_next_attempt_works(
    place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    session = place.open()
    session.do(note("one"))
    before = place.bytes()
    with monkeypatch.context() as patch:
        patch.setattr("os.write", _full)
        with pytest.raises(NotSaved, match="disk is full"):
            session.do(note("two"))
    assert (texts(session), place.bytes()) == (["one"], before)

    session.do(note("two"))
    assert texts(place.open()) == ["one", "two"]


def _full(handle: int, data: bytes) -> int:
    from errno import ENOSPC

    raise OSError(ENOSPC, "No space left on device")


def test_names_and_coverage_are_those_of_the_state_of_the_moment(place: Place) -> None:
    session = place.open()
    session.do(say(run("L1")))
    assert session.names.find("L1").id == "run:L1"
    assert session.names is session.names
    assert session.cover is session.cover

    session.do(change("L1", slug="L7"))

    assert session.names.find("L7").id == "run:L1"
    assert session.cover.build is session.build


def test_a_writers_name_is_eight_letters_and_digits_and_seldom_the_same() -> None:
    names = {random_writer() for _ in range(50)}

    assert len(names) == 50
    assert all(len(name) == 8 and set(name) <= set(LETTERS) for name in names)


def test_the_clock_of_this_computer_knows_its_offset() -> None:
    assert now_here().tzinfo is not None


def test_a_session_kept_still_does_not_change_with_what_is_done(place: Place) -> None:
    session = place.open()
    session.do(note("one"))
    still = session.still()
    session.do(note("two"))

    assert texts(still) == ["one"]
    assert texts(session) == ["one", "two"]
    assert still.names is not session.names
