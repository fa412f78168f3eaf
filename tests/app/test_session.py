"""One session, and two on the same build: decided under the lock, on the newest state."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.app.yard import Clock
from tests.build.making import check, ground, run
from tracker.act import Fact, short_id
from tracker.app import folder as folders
from tracker.app.session import LETTERS, Session, now_here, random_writer
from tracker.build import item, log, marking, release
from tracker.build.coverage import Coverage
from tracker.build.log import accept
from tracker.build.release import hold_standing
from tracker.build.state import Build
from tracker.errors import BadInput, NotSaved, Refused


class Place:
    """A build folder that several people open, each on a computer of their own."""

    def __init__(self, where: Path) -> None:
        self.where, self.folder, self.clock = where, where / "heron", Clock()
        folders.create(self.folder, folders.Marked("b1", "Heron", "+00:00"))

    def open(self, user: str = "Ida") -> Session:
        """A session of a person, on the computer of that person."""
        return Session(self.folder, clock=self.clock, user=user, data=self.where / user)

    def bytes(self) -> dict[str, bytes]:
        """All files of the journal."""
        return {file.name: file.read_bytes() for file in (self.folder / "journal").glob("**/*.log")}


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return Place(tmp_path)


def note(text: str) -> Callable[[Build], Sequence[Fact]]:
    return lambda _: [log.note(text)]


def say(*facts: Fact) -> Callable[[Build], Sequence[Fact]]:
    return lambda _: facts


def change(name: str, /, **values: Any) -> Callable[[Build], Sequence[Fact]]:
    def intent(build: Build) -> Sequence[Fact]:
        found = next(each for each in build.items.values() if each.slug == name)
        return [item.change(found, values)]

    return intent


def texts(session: Session) -> list[str]:
    return [each.text for each in session.build.notes]


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


def test_two_sessions_see_each_others_acts(place: Place) -> None:
    ida, ola = place.open("Ida"), place.open("Ola")
    ida.do(note("swept"))
    assert ola.changed()
    assert texts(ola) == []

    assert ola.refresh() is True
    assert texts(ola) == ["swept"]
    assert not ola.changed()


def test_an_intent_is_decided_on_what_the_other_has_written_meanwhile(place: Place) -> None:
    ida, ola = place.open("Ida"), place.open("Ola")
    ida.do(say(run("L1")))
    seen: list[list[str]] = []

    def looks(build: Build) -> Sequence[Fact]:
        seen.append(list(build.items))
        return change("L1", to="lamp")(build)

    ola.do(looks)
    ida.do(change("L1", to="fan"))

    assert seen == [["run:L1"]]
    assert ida.build.items["run:L1"].rivals == {}
    assert ida.build.items["run:L1"].get("to") == "fan"


def test_two_who_work_apart_and_come_together_see_the_conflict_and_settle_it(
    place: Place, tmp_path: Path
) -> None:
    place.open().do(say(run("L1")))
    apart = Place(tmp_path / "copy")
    (apart.folder / "journal").mkdir()
    for name, data in place.bytes().items():
        (apart.folder / "journal" / name).write_bytes(data)
    place.open("Ida").do(change("L1", to="lamp"))
    apart.open("Ola").do(change("L1", to="fan"))
    for name, data in (apart.bytes() | place.bytes()).items():
        (place.folder / "journal" / name).write_bytes(data)
        (apart.folder / "journal" / name).write_bytes(data)

    ida, ola = place.open("Ida"), apart.open("Ola")

    assert ida.build == ola.build
    assert sorted(ida.build.items["run:L1"].rivals["to"].values()) == ["fan", "lamp"]
    ida.do(change("L1", to="pump"))
    assert ida.build.items["run:L1"].rivals == {}


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


def test_a_bare_undo_takes_nobody_elses_act(place: Place) -> None:
    ida, ola = place.open("Ida"), place.open("Ola")
    ida.do(note("ida"))
    ola.do(note("ola"))

    ida.undo()
    assert texts(ida) == ["ola"]
    with pytest.raises(Refused, match="nothing of yours"):
        ida.undo()

    ola.redo(short_id(ida.build.acts[0].id))
    assert texts(ola) == ["ida", "ola"]


def test_undoing_what_others_built_on_lists_it_and_takes_it_along_when_told(place: Place) -> None:
    ida, ola = place.open("Ida"), place.open("Ola")
    adding = ida.do(say(run("L1")))
    later = ola.do(change("L1", to="lamp"))
    with pytest.raises(Refused, match=short_id(later.id)):
        ida.undo(short_id(adding.id))

    ida.undo(short_id(adding.id), also=True)

    assert ida.build.items == {}
    assert ida.build.dead == {adding.id, later.id}
    ida.redo()
    assert ida.build.items["run:L1"].get("to") == "lamp"


def _foam(build: Build, session: Session, *reservations: str) -> Any:
    hold = build.items["holdpoint:foam"]
    return hold_standing(Coverage(build), hold, "zone:A", session.now(), reservations)


def _marked(result: str, **more: Any) -> Callable[[Build], Sequence[Fact]]:
    def intent(build: Build) -> Sequence[Fact]:
        subjects = [build.items["run:L1"]]
        checks = build.items["check:label"]
        return marking.mark(Coverage(build), checks, subjects, result, by="Ida", **more)

    return intent


def _released(session: Session) -> Callable[[Build], Sequence[Fact]]:
    def intent(build: Build) -> Sequence[Fact]:
        reservations = [row.text for row in session.reservations]
        stand = _foam(build, session, *reservations)
        return [release.release(stand, "Ida", "Ola", "present", session.now())]

    return intent


@pytest.fixture
def heron(place: Place) -> Session:
    """A build whose one run is labelled, so that zone A is ready."""
    session = place.open()
    session.do(say(*ground(), run("L1", "B1"), check("label")))
    session.do(_marked("good"))
    return session


def test_waiver_release_and_close_in_are_not_undone(heron: Session) -> None:
    closes = [
        _released(heron),
        lambda build: [release.close(Coverage(build), _foam(build, heron), None, heron.now())],
    ]
    heron.do(_marked("waived", why="no room", second="Ola"))
    for step in (None, *closes):
        if step is not None:
            heron.do(step)
        before = heron.build
        with pytest.raises(Refused, match="it is taken back with a reason"):
            heron.undo()
        assert heron.build == before


def _damage(place: Place) -> None:
    """Change one letter inside the first line."""
    (file,) = (place.folder / "journal").glob("*.log")
    file.write_bytes(file.read_bytes().replace(b"swept", b"swopt", 1))


def test_a_damaged_line_is_a_reservation_that_stops_a_release_until_it_is_accepted(
    heron: Session, place: Place
) -> None:
    ola = place.open("Ola")
    heron.do(note("swept"))
    heron.do(note("mopped"))
    _damage(place)
    assert ola.refresh()
    assert texts(ola) == ["mopped"]

    (reservation,) = [row for row in ola.reservations if row.key.startswith("damaged")]
    with pytest.raises(Refused, match="waits for a reservation"):
        ola.do(_released(ola))

    ola.do(note("recording goes on"))
    for row in ola.reservations:
        ola.do(say(accept(row.key, "the card was old")))

    assert ola.reservations == ()
    assert ola.build.accepted[reservation.key].why == "the card was old"
    assert ola.do(_released(ola))


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


def test_on_another_computer_ones_own_acts_begin_anew(place: Place) -> None:
    place.open("Ida").do(note("swept"))
    elsewhere = place.open("Ida's laptop")
    assert elsewhere.writer == ""
    with pytest.raises(Refused, match="nothing of yours"):
        elsewhere.undo()

    elsewhere.do(note("mopped"))
    assert elsewhere.writer != place.open("Ida").writer
    elsewhere.undo()
    assert texts(elsewhere) == ["swept"]


def test_names_and_coverage_are_those_of_the_state_of_the_moment(heron: Session) -> None:
    assert heron.names.find("L1").id == "run:L1"
    assert heron.names is heron.names
    assert heron.cover is heron.cover

    heron.do(change("L1", slug="L7"))

    assert heron.names.find("L7").id == "run:L1"
    assert heron.cover.build is heron.build


def test_a_writers_name_is_eight_letters_and_digits_and_seldom_the_same() -> None:
    names = {random_writer() for _ in range(50)}

    assert len(names) == 50
    assert all(len(name) == 8 and set(name) <= set(LETTERS) for name in names)


def test_the_clock_of_this_computer_knows_its_offset() -> None:
    assert now_here().tzinfo is not None
