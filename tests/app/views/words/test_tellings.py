from __future__ import annotations

from typing import Any

import pytest

from tests.app.views.words.scene import SCENE, answer, told
from tracker.build.item import add


@pytest.mark.parametrize(
    ("fact", "words"),
    [
        (
            add("run", "L9", {"length_m": 0.5, "bay": ["bay1"]}),
            "added wire run L9: length 500 mm, bay B1",
        ),
        (
            add("blocker", "van", {"title": "flat", "kind": "vehicle"}),
            "stuck, van: flat (kind vehicle)",
        ),
        ({"f": "item.set", "id": "run1", "set": {"length_m": 6.2}}, "L1: length 6.2 m"),
        ({"f": "item.set", "id": "run1", "set": {"length_m": None}}, "L1: length unknown"),
        ({"f": "item.set", "id": "run1", "set": {"slug": "L77"}}, "L77: is called L77 now"),
        (
            {"f": "item.set", "id": "run1", "set": {"route": "high"}, "why": "heater moved"},
            "L1: route high (because heater moved)",
        ),
        (
            {"f": "item.set", "id": "hold1", "set": {"booked": "2027-04-18"}},
            "pre-foam: booked for 2027-04-18",
        ),
        (
            {"f": "item.set", "id": "hold1", "set": {"booked@zone1": "2027-04-18"}},
            "pre-foam: booked in port for 2027-04-18",
        ),
        ({"f": "item.set", "id": "hold1", "set": {"booked": None}}, "pre-foam: booking dropped"),
        (
            {"f": "item.set", "id": "stuck1", "set": {"cleared": "2027-03-02", "lost_h": 2.0}},
            "crew: cleared on 2027-03-02; lost 2 h",
        ),
        ({"f": "item.removed", "id": "run1", "why": "not needed"}, "removed L1: not needed"),
        (
            {"f": "item.renewed", "id": "hold1", "set": {"valid_h": 24, "text": "x"}},
            "pre-foam: valid h, text as the newer template has it",
        ),
        (answer("run1", "good"), "label on L1: good"),
        (answer("run1", "bad", why="unreadable"), "label on L1: bad, unreadable"),
        (answer("run1", "na", why="spare"), "label on L1: not applicable, spare"),
        (
            answer("run1", "waived", why="blind", second="Ola"),
            "label on L1: waived, blind (second Ola)",
        ),
        (answer("run1", "reopened", why="fell off"), "label on L1: open again, fell off"),
        (answer("run1", "good", by="Per"), "label on L1: good (found by Per)"),
        (answer("vehicle", "good", by="Ida"), "label on the vehicle: good"),
        (
            answer(
                "run1",
                "measured",
                "check2",
                value=0.2286,
                unit="m",
                saw={"limit": [0.35, None, None]},
            ),
            "lead on L1: 228.6 mm, bad",
        ),
        (answer("run1", "measured", "check2", value=0.4, unit="m"), "lead on L1: 400 mm"),
        (
            {
                "f": "hold.released",
                "hold": "hold1",
                "zone": "zone1",
                "by": "Ida",
                "second": "Ola",
                "present": "remote",
                "basis": {SCENE.id: [1, 2]},
            },
            "released pre-foam in port: 2 answers signed by Ida and Ola by phone or photo",
        ),
        (
            {"f": "hold.withdrawn", "hold": "hold1", "why": "leak"},
            "took back the release of pre-foam: leak",
        ),
        (
            {"f": "hold.closed", "hold": "hold1", "covered": ["run1"]},
            "closed pre-foam: 1 item covered",
        ),
        (
            {"f": "hold.closed", "hold": "hold1", "covered": [], "why": "rain stopped"},
            "closed pre-foam: 0 items covered, without a release that holds: rain stopped",
        ),
        ({"f": "hold.reopened", "hold": "hold1", "why": "cut out"}, "reopened pre-foam: cut out"),
        (
            {"f": "task.worked", "task": "task1", "fraction": 1.0, "hours": 3.0},
            "mask done, 3 crew-hours",
        ),
        (
            {"f": "task.worked", "task": "task1", "fraction": 0.5, "next": "rear"},
            "mask 50% done; next: rear",
        ),
        (
            {"f": "stock.counted", "part": "part1", "place": "shelf", "count": 12.0},
            "counted spool at shelf: 12 m",
        ),
        (
            {"f": "stock.counted", "part": "part1", "place": "shelf", "lengths": [4.2, 3.1]},
            "counted spool at shelf: 4.2 m + 3.1 m",
        ),
        (
            {"f": "stock.counted", "part": "part1", "place": "shelf", "level": "low"},
            "counted spool at shelf: low",
        ),
        (
            {
                "f": "stock.moved",
                "part": "part1",
                "place": "shelf",
                "quantity": 5.0,
                "why": "received",
            },
            "received 5 m of spool at shelf",
        ),
        (
            {
                "f": "stock.moved",
                "part": "part1",
                "place": "shelf",
                "quantity": -5.0,
                "why": "used",
            },
            "used 5 m of spool from shelf",
        ),
        (
            {
                "f": "stock.moved",
                "part": "part1",
                "place": "Ola's van",
                "quantity": 5.0,
                "why": "moved",
            },
            "moved 5 m of spool to Ola's van",
        ),
        (
            {
                "f": "stock.ordered",
                "part": "part1",
                "quantity": 9.0,
                "due": "2027-03-09",
                "supplier": "yard",
            },
            "ordered 9 m of spool from yard, due 2027-03-09",
        ),
        (
            {
                "f": "stock.set-aside",
                "part": "part1",
                "place": "shelf",
                "quantity": 2.0,
                "for": "task1",
            },
            "set aside 2 m of spool at shelf for mask",
        ),
        (
            {
                "f": "condition.logged",
                "zone": "zone1",
                "surface_c": 12.5,
                "margin_k": 4.0,
                "rain": False,
            },
            "conditions in port: surface 12.5 C, over the dew point 4 K, no rain",
        ),
        (
            {
                "f": "day.started",
                "people": 3,
                "from_h": 8.0,
                "to_h": 16.5,
                "dry": True,
                "air_c": 6.0,
            },
            "the day began: 3 people, 8:00 to 16:30, dry, 6 C",
        ),
        ({"f": "day.started", "people": 1}, "the day began: 1 person"),
        ({"f": "note.written", "text": "fan bent", "on": ["run1"]}, "note on L1: fan bent"),
        ({"f": "inbox.put", "text": "12 zzz"}, "to be sorted: 12 zzz"),
        ({"f": "inbox.sorted", "line": "nowhere", "into": "a note"}, "sorted 'a line': a note"),
        (
            {"f": "reservation.accepted", "key": "gap-1", "why": "known"},
            "accepted the reservation gap-1: known",
        ),
        ({"f": "dance.danced"}, "something that a newer closein wrote"),
        ({"f": "point.answered"}, "something that can't be read here"),
    ],
)
def test_a_fact_is_told_in_the_words_of_the_trade(fact: dict[str, Any], words: str) -> None:
    assert told(fact) == [words]


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("duty", "duties"),
        ("person", "people"),
        ("box", "boxes"),
        ("no-fill", "no-fill cavities"),
        ("loan", "tools on loan"),
        ("run", "wire runs"),
    ],
)
def test_several_of_a_kind_are_called_as_people_call_them(kind: str, words: str) -> None:
    assert told(add(kind, "A1", {}), add(kind, "A2", {})) == [f"added 2 {words}: A1 A2"]
