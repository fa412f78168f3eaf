from __future__ import annotations

import io
import json

import pytest

from tests.cli.yard import Yard
from tracker.cli import fixture

LAMP = ("fixture", "add", "lamp", "--at", "ceiling,4.1m,right", "--amps", "0.8")


def test_the_list_names_the_fixtures_and_what_each_brings(yard: Yard) -> None:
    rows = json.loads(yard.anywhere("fixture", "list", "--json").out)

    assert {"lamp", "lamp-row", "tank-sender"} <= {row["name"] for row in rows}
    assert "a lamp, its feed" in yard.anywhere("fixture").out


def test_a_fixture_is_shown_and_taken_as_one_act(yard: Yard) -> None:
    acts = len(yard.session.build.acts)

    out = yard.saved(*LAMP, "--name", "Press lamp")

    assert "+ wire run L5: to Press lamp" in out
    assert "Press lamp: fixture F1, run L5" in out
    assert len(yard.session.build.acts) == acts + 1


def test_programs_are_told_what_was_taken(yard: Yard) -> None:
    told = json.loads(yard.run(*LAMP, "--only", "run", "--json").out)

    assert told["names"] == [{"kind": "run", "name": "L5"}]
    assert told["id"] == yard.session.build.acts[-1].id


def test_a_dry_run_and_a_plan_take_nothing(yard: Yard) -> None:
    before = yard.files()

    assert "nothing was taken" in yard.run(*LAMP, "--dry-run").out
    assert json.loads(yard.run(*LAMP, "--dry-run", "--json").out)["id"] is None
    assert '[[run]]\nname = "L5"' in yard.run(*LAMP, "--plan").out
    assert yard.files() == before


@pytest.mark.parametrize(
    ("typed", "kinds"),
    [
        ("no\n", set()),
        ("", set()),
        ("yes\n", {"fixture", "run", "hole", "backing"}),
        ("hole,backing\n", {"hole", "backing"}),
    ],
)
def test_a_person_is_asked_and_may_take_some_of_it(
    yard: Yard, monkeypatch: pytest.MonkeyPatch, typed: str, kinds: set[str]
) -> None:
    monkeypatch.setattr(fixture, "_asks", lambda desk: True)
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    before = set(yard.session.build.items)

    assert yard.run(*LAMP).status == 0

    new = [item for key, item in yard.session.build.items.items() if key not in before]
    assert {item.kind for item in new} - {"part"} == kinds


def test_a_wrong_word_is_a_sentence_and_takes_nothing(yard: Yard) -> None:
    assert "did you mean lamp" in yard.refused("fixture", "add", "lampp")
    assert "the face twice" in yard.refused("fixture", "add", "lamp", "--at", "floor,ceiling")


def test_control_signs_in_a_name_do_not_break_the_line_that_says_what_was_saved(
    yard: Yard,
) -> None:
    out = yard.saved(*LAMP, "--name", "Press\033[31m\nlamp")

    assert "\033" not in out
    assert "Press[31mlamp: fixture F1" in out


@pytest.mark.parametrize("name", ["fridge", "water-heater"])
def test_what_burns_gas_brings_its_alarm_and_what_does_not_brings_none(
    yard: Yard, name: str
) -> None:
    draft = ("fixture", "add", name, "--at", "floor,2m", "--dry-run")

    assert "part carbon-monoxide-alarm" in yard.run(*draft, "--gas").out
    assert "part carbon-monoxide-alarm" not in yard.run(*draft).out
