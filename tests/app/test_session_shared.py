"""Two sessions on one build, or on copies of it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from tests.app.place import Place, change, note, say, texts
from tests.build.making import run
from tracker.act import Fact, short_id
from tracker.build.state import Build
from tracker.errors import Refused


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return Place(tmp_path)


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
