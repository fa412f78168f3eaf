"""A fixture with all it brings, as one act."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tracker.app.session import Session
from tracker.app.views.runs import runs_view
from tracker.app.wants import fixtures, items, phases
from tracker.app.wants.drafting import Asked
from tracker.app.wants.fixtures import draft
from tracker.errors import BadInput, Refused, UnknownName
from tracker.templates.recipes import recipes

LAMP = Asked("lamp", at="ceiling,4.1m,right", name="Press lamp", amps="0.8")


def fields(session: Session, kind: str, name: str) -> dict[str, Any]:
    """What is known of one item."""
    return session.names.find(name, (kind,)).fields


def test_a_lamp_brings_its_run_hole_backing_label_and_parts_in_one_act(bare: Session) -> None:
    act = bare.do(fixtures.add(LAMP))

    run = fields(bare, "run", "L1")
    assert (run["to"], run["load_a"], run["label"]) == ("Press lamp", 0.8, "L1 Press lamp")
    place = {"face": "ceiling", "station_m": 4.1, "side": "right"}
    assert place.items() <= fields(bare, "fixture", "F1").items()
    assert place.items() <= fields(bare, "backing", "K1").items()
    assert fields(bare, "hole", "H1")["carries"] == [bare.names.find("L1").id]
    assert "station_m" not in fields(bare, "hole", "H1")
    assert fields(bare, "part", "press-lamp")["needed"] == 1
    assert fields(bare, "part", "wire-label")["needed"] == 3
    bare.undo(act.id)
    assert bare.cover.by_kind.get("run", []) == []


def test_parts_add_up_and_those_a_task_reckons_are_left_to_it(bare: Session) -> None:
    bare.do(fixtures.add(LAMP))
    bare.do(fixtures.add(LAMP))
    assert fields(bare, "part", "press-lamp")["needed"] == 2
    assert fields(bare, "part", "grommet")["needed"] == 2

    bare.do(phases.adopt(["rough-in-wiring"]))
    found = draft(bare.build, LAMP)

    assert not [line for line in found.lines if "part wire-label" in line or "part grommet" in line]
    assert any("the task label-runs" in note for note in found.notes)


def test_what_was_not_said_stays_unknown(bare: Session) -> None:
    bare.do(fixtures.add(Asked("lamp")))

    assert fields(bare, "run", "L1").keys() == {"to", "label"}
    assert fields(bare, "fixture", "F1") == {"title": "Lamp"}


def test_a_feed_of_known_length_gets_wire_and_protection_with_their_record(bare: Session) -> None:
    asked = replace(LAMP, volts="12", length="5.5 m")
    bare.do(fixtures.add(asked))

    run = fields(bare, "run", "L1")
    assert run["gauge"] and run["protection_a"] >= 0.8
    assert run["sized"]["helper"] == "conductor"
    assert run["sized"]["inputs"]["in_foam"] is True
    assert runs_view(bare)


def test_protection_and_wire_that_were_said_are_kept(bare: Session) -> None:
    bare.do(fixtures.add(replace(LAMP, volts="12", length="5.5 m", gauge="12AWG", fuse="5")))

    run = fields(bare, "run", "L1")
    assert (run["gauge"], run["protection_a"]) == ("12AWG", 5.0)
    assert "sized" not in run


def test_a_switch_brings_a_box_and_a_run_more(bare: Session) -> None:
    bare.do(fixtures.add(replace(LAMP, switch="by the door", source="fuse panel")))

    assert fields(bare, "run", "L1")["from"] == "fuse panel"
    assert fields(bare, "run", "L2")["from"] == fields(bare, "run", "L1")["to"]
    assert fields(bare, "run", "L2")["to"] == "Press lamp"
    assert "by the door" in fields(bare, "box", "X1")["for"]
    assert len(fields(bare, "hole", "H1")["carries"]) == 2


def test_a_row_of_lamps_has_links_that_carry_what_lies_beyond_them(bare: Session) -> None:
    bare.do(
        fixtures.add(Asked("lamp-row", at="ceiling,1m", amps="0.3", count=4, step="0.6m", holes=3))
    )

    loads = [fields(bare, "run", f"L{number}")["load_a"] for number in (1, 2, 3, 4)]
    assert loads == pytest.approx([1.2, 0.9, 0.6, 0.3])
    assert [item.get("station_m") for item in bare.cover.by_kind["fixture"]] == pytest.approx(
        [1.0, 1.6, 2.2, 2.8]
    )
    assert len(bare.cover.by_kind["backing"]) == 4 and len(bare.cover.by_kind["hole"]) == 3


def test_a_body_without_ribs_has_no_holes_through_them(bare: Session) -> None:
    bare.do(items.change("vehicle", {"body": "sandwich panel"}))

    bare.do(fixtures.add(LAMP))

    assert "hole" not in bare.cover.by_kind


def test_one_that_joins_a_run_adds_its_load_there(heron: Session) -> None:
    heron.do(items.change("L1", {"load": "1 A"}))

    heron.do(fixtures.add(replace(LAMP, on="L1")))

    assert fields(heron, "run", "L1")["load_a"] == pytest.approx(1.8)
    assert fields(heron, "run", "L1")["to"] == "reading lamp, Press lamp"
    assert set(heron.names.by_kind["run"]) == {"L1", "L2", "L12"}


def test_some_of_a_draft_can_be_taken_without_names_of_the_rest(bare: Session) -> None:
    bare.do(fixtures.add(LAMP, ["fixture,hole", "K1"]))

    assert set(bare.cover.by_kind) == {"vehicle", "fixture", "hole", "backing"}
    assert "carries" not in fields(bare, "hole", "H1")
    with pytest.raises(BadInput, match="the draft has no 'pipe'"):
        draft(bare.build, LAMP, ["pipe"])


def test_a_draft_that_the_build_outran_is_not_taken(bare: Session) -> None:
    shown = draft(bare.build, LAMP).text
    bare.do(items.add("run", "L1", {"to": "fan"}))

    with pytest.raises(Refused, match="look at it again"):
        bare.do(fixtures.add(LAMP, (), shown))


def test_a_draft_is_a_plan_that_can_be_imported(bare: Session) -> None:
    found = draft(bare.build, LAMP)

    bare.do(items.take_file(found.text, "draft.toml"))

    assert fields(bare, "run", "L1")["to"] == "Press lamp"


@pytest.mark.parametrize("name", recipes())
@pytest.mark.parametrize("gas", [False, True])
def test_every_recipe_can_be_drafted_bare_and_in_full(heron: Session, name: str, gas: bool) -> None:
    full = Asked(
        name, "floor,2m,left", "Thing", "B1", "5", "12", "4m", None, None, "panel", "aft", gas=gas
    )
    for asked in (Asked(name, gas=gas), full):
        found = draft(heron.build, asked)
        assert found.facts and len(found.lines) >= len(found.names)
        assert not [line for line in found.lines if "{" in line or "@" in line]
        assert ("gas-line" in dict(found.names)) <= gas


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (Asked("lamp", count=2), "--count makes a row"),
        (Asked("lamp-row", count=0), "--count is 1 to"),
        (Asked("lamp", holes=-1), "--holes is 0 to"),
        (Asked("lamp", amps="two"), "--amps: "),
        (Asked("lamp", amps="-1"), "--amps"),
        (Asked("lamp", amps="3 V"), "--amps: "),
        (Asked("lamp", volts="12", amps="9999"), "load_a"),
    ],
)
def test_what_can_t_be_taken_is_said_in_a_sentence(heron: Session, asked: Asked, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        draft(heron.build, asked)


def test_unknown_bays_and_runs_are_named(heron: Session) -> None:
    for asked in (Asked("lamp", bay="B9"), Asked("lamp", on="L99"), Asked("lmp")):
        with pytest.raises(UnknownName):
            draft(heron.build, asked)
