"""Making a copy of the demo: the same each time but for its id, and nothing of it made up twice."""

from __future__ import annotations

import re
import time
from collections import Counter
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.demo.copies import NOW, made
from tracker.app.demo import folder, make, read_story
from tracker.app.demo_copy import next_writer
from tracker.app.session import LETTERS, Session
from tracker.errors import BadFile, BadInput
from tracker.journal.store import verify


def test_every_step_of_the_story_is_one_acknowledged_act(demo: Session) -> None:
    _, steps = read_story(folder(), NOW)

    assert len(demo.build.acts) == 1 + len(steps)  # the first is the vehicle
    assert [act.at for act in demo.build.acts[1:]] == [
        moment.isoformat(timespec="seconds") for moment, _ in steps
    ]


def test_the_record_is_clean(demo: Session) -> None:
    faults = verify(
        demo.folder, demo.marked.id, memory=demo.memory, now_ms=int(NOW.timestamp() * 1000)
    )

    assert (faults, demo.faults, demo.reservations) == ((), (), ())
    assert not demo.build.unknown
    assert not demo.build.orphans


def test_two_copies_of_one_moment_are_alike_but_for_their_ids(
    demo: Session, tmp_path: Path
) -> None:
    other = made(tmp_path)

    assert other.marked.id != demo.marked.id
    assert other.build == demo.build


def test_the_state_does_not_hang_on_who_runs_it(
    demo: Session, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLOSEIN_NAME", "Somebody else")
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    time.tzset()
    monkeypatch.setenv("CLOSEIN_DATA", str(tmp_path / "elsewhere"))
    here = make(tmp_path / "build", NOW, clock=lambda: NOW, new_writer=lambda: "aaaabbbb")

    monkeypatch.undo()
    time.tzset()

    assert here.user == "Somebody else"
    assert here.build == demo.build


def test_all_dates_move_with_today(demo: Session, tmp_path: Path) -> None:
    later = made(tmp_path, NOW + timedelta(days=100))

    def days(session: Session, today: datetime) -> list[int]:
        texts = " ".join(repr(act) for act in session.build.acts)
        found = re.findall(r"\b20\d\d-\d\d-\d\d", texts)
        return [(datetime.fromisoformat(day).date() - today.date()).days for day in found]

    assert days(later, NOW + timedelta(days=100)) == days(demo, NOW)
    assert -125 <= min(days(demo, NOW)) < -115


def test_nothing_happened_today_or_later(demo: Session) -> None:
    assert all(datetime.fromisoformat(act.happened).date() < NOW.date() for act in demo.build.acts)


def test_whoever_opens_the_copy_goes_on_under_their_own_name(tmp_path: Path) -> None:
    session = make(tmp_path / "build", NOW, tmp_path / "data", user="Ida", clock=lambda: NOW)
    last = session.build.acts[-1]

    act = session.undo()

    assert act.by == "Ida"
    assert act.id.split("-")[1] == last.id.split("-")[1]
    assert last.id in session.build.dead


def test_the_copy_that_was_carried_home_is_a_second_writer_and_nothing_of_it_is_lost(
    demo: Session,
) -> None:
    _, steps = read_story(folder(), NOW)
    copied = [step for _, step in steps if step.get("copy")]
    by_writer = Counter(act.id.split("-")[1] for act in demo.build.acts)

    assert sorted(file.name for file in (demo.folder / "journal").glob("*.log")) == [
        "aaaabbbb.log",
        "bbbbcccc.log",
    ]
    assert by_writer["bbbbcccc"] == len(copied) >= 2
    assert {act.by for act in demo.build.acts if "bbbbcccc" in act.id} == {"Bram"}


@pytest.mark.parametrize("writer", ["aaaaaaaa", "77777777", "quoinabc"])
def test_the_second_writer_follows_from_the_first_and_is_never_the_same(writer: str) -> None:
    second = next_writer(writer)

    assert len(second) == 8
    assert all(old != new for old, new in zip(writer, second, strict=True))
    assert set(second) <= set(LETTERS)


@pytest.mark.parametrize("held", ["file", "build", "other"])
def test_a_place_that_holds_something_is_refused_and_left_alone(tmp_path: Path, held: str) -> None:
    into = tmp_path / "heron"
    if held == "file":
        into.write_text("mine")
    else:
        into.mkdir()
        (into / ("build.toml" if held == "build" else "letter.txt")).write_text("mine")
    before = sorted(tmp_path.rglob("*"))

    with pytest.raises(BadInput):
        make(into, NOW, tmp_path.parent / "data", clock=lambda: NOW)

    assert sorted(tmp_path.rglob("*")) == before


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "build").mkdir()

    assert made(tmp_path).build.items


def test_the_demo_is_looked_for_inside_the_package_first(tmp_path: Path) -> None:
    package = tmp_path / "tracker"
    package.mkdir()
    assert folder(package) == tmp_path / "demo"

    (package / "demo").mkdir()
    assert folder(package) == package / "demo"


def _story(tmp_path: Path, steps: str) -> Path:
    (tmp_path / "story.toml").write_text(f'[build]\nname = "x"\nowner = "Runa"\n{steps}')
    return tmp_path


def _step(day: int, rest: str) -> str:
    return f'[[step]]\nday = {day}\ntime = "10:00"\n{rest}\n'


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        (_step(-1, ""), "step 1: 'want'"),
        (_step(-1, 'want = "note"') + _step(-2, 'want = "note"'), "step 2 on day -2"),
        (_step(1, 'want = "note"'), "step 1 on day 1"),
        (_step(-1, 'want = "sing"'), r"step 1 \(sing\): no want"),
        (_step(-1, 'want = "note"\nsaid = "x"'), r"step 1 \(note\)"),
        (_step(-1, 'want = "note"\ntext = " "'), r"step 1 \(note\): a note needs words"),
        (_step(-1, 'want = "release"\nhold = "x"\nsecond = "Ola"'), "no hold point is called"),
    ],
)
def test_a_step_that_can_not_be_played_is_named(tmp_path: Path, steps: str, said: str) -> None:
    with pytest.raises(BadFile, match=said):
        make(
            tmp_path / "build",
            NOW,
            tmp_path / "data",
            clock=lambda: NOW,
            source=_story(tmp_path, steps),
        )
