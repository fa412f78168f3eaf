"""What is signed, and what stands against signing, through a session."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from tests.app.place import Place, note, say, texts
from tests.build.making import check, ground, run
from tracker.act import Fact
from tracker.app.session import Session
from tracker.build import marking, release
from tracker.build.coverage import Coverage
from tracker.build.log import accept
from tracker.build.release import hold_standing
from tracker.build.state import Build
from tracker.errors import Refused


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return Place(tmp_path)


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
def ready(place: Place) -> Session:
    """A build whose one run is labelled, so that zone A is ready."""
    session = place.open()
    session.do(say(*ground(), run("L1", "B1"), check("label")))
    session.do(_marked("good"))
    return session


def test_waiver_release_and_close_in_are_not_undone(ready: Session) -> None:
    closes = [
        _released(ready),
        lambda build: [release.close(Coverage(build), _foam(build, ready), None, ready.now())],
    ]
    ready.do(_marked("waived", why="no room", second="Ola"))
    for step in (None, *closes):
        if step is not None:
            ready.do(step)
        before = ready.build
        with pytest.raises(Refused, match="stays in the record"):
            ready.undo()
        assert ready.build == before


def _damage(place: Place) -> None:
    """Change one letter inside a line."""
    (file,) = (place.folder / "journal").glob("*.log")
    file.write_bytes(file.read_bytes().replace(b"swept", b"swopt", 1))


def test_a_damaged_line_is_a_reservation_that_stops_a_release_until_it_is_accepted(
    ready: Session, place: Place
) -> None:
    ola = place.open("Ola")
    ready.do(note("swept"))
    ready.do(note("mopped"))
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
