"""Which subjects a check is due on."""

from __future__ import annotations

import pytest

from tracker.act import Act
from tracker.build import item
from tracker.build.coverage import Coverage
from tracker.build.fold import fold
from tracker.build.marking import mark
from tracker.errors import BadInput

PHASES = [
    item.add("phase", "deck", {"order": 5}, "phase:deck"),
    item.add("phase", "insulation", {"order": 8}, "phase:insulation"),
    item.add("phase", "panelling", {"order": 9}, "phase:panelling"),
    item.add("holdpoint", "roof-tight", {"phase": "phase:deck"}, "hold:roof"),
    item.add(
        "holdpoint", "pre-foam", {"phase": "phase:insulation", "buries": ["anchor"]}, "hold:foam"
    ),
    item.add("holdpoint", "lined", {"phase": "phase:panelling"}, "hold:lined"),
]


def _applies(check: dict[str, object], subject: dict[str, object]) -> bool:
    facts = [
        *PHASES,
        item.add("check", "bolted", {"each": "anchor", **check}, "check:bolted"),
        item.add("anchor", "A1", subject, "anchor:A1"),
    ]
    build = fold([Act("000000000001-aaaaaaaa-1", "2027-03-01T08:00:00+00:00", "Ida", tuple(facts))])
    return Coverage(build).applies(build.items["check:bolted"], build.items["anchor:A1"])


@pytest.mark.parametrize("before", ["hold:roof", "hold:foam", "hold:lined"])
def test_a_check_is_due_before_any_hold_point_when_nobody_said_what_buries_its_subject(
    before: str,
) -> None:
    assert _applies({"before": before}, {})


@pytest.mark.parametrize(
    ("before", "due"), [("hold:roof", False), ("hold:foam", False), ("hold:lined", True)]
)
def test_an_item_said_to_be_buried_later_is_not_due_earlier(before: str, due: bool) -> None:
    assert _applies({"before": before}, {"covered_by": "hold:lined"}) is due


@pytest.mark.parametrize(
    ("wanted", "face", "due"),
    [
        (["roof", "unknown"], "roof", True),
        (["roof", "unknown"], None, True),
        (["roof"], None, False),
        ("unknown", None, True),
        ("unknown", "roof", False),
        (["roof", "unknown"], "left", False),
    ],
)
def test_what_is_not_known_of_a_subject_matches_unknown_and_nothing_else(
    wanted: object, face: str | None, due: bool
) -> None:
    subject = {} if face is None else {"face": face}

    assert _applies({"before": "hold:roof", "where": {"face": wanted}}, subject) is due


METAL = {"body": ["bus", "van", "box body", "trailer"]}


def _vehicle(asked: dict[str, object], **known: object) -> Coverage:
    facts = [
        *PHASES,
        item.add("vehicle", "vehicle", known, "vehicle"),
        item.add("anchor", "A1", {}, "anchor:A1"),
        item.add("task", "before", {}, "task:before"),
        item.add("task", "ribs", {"vehicle": asked, "needs": ["task:before"]}, "task:ribs"),
        item.add("task", "after", {"needs": ["task:ribs"]}, "task:after"),
        *(
            item.add(
                "check",
                f"ribs-{each}",
                {"each": each, "before": "hold:roof", "vehicle": asked},
                f"check:{each}",
            )
            for each in ("once", "zone", "anchor")
        ),
    ]
    build = fold([Act("000000000001-aaaaaaaa-1", "2027-03-01T08:00:00+00:00", "Ida", tuple(facts))])
    return Coverage(build)


@pytest.mark.parametrize(
    ("asked", "known", "due"),
    [
        (METAL, {"body": "van"}, True),
        (METAL, {"body": "sandwich panel"}, False),
        (METAL, {}, True),
        ({"engine": True}, {"engine": False}, False),
        ({"engine": True}, {}, True),
        ({"engine": True, **METAL}, {"engine": True, "body": "wood stud"}, False),
    ],
)
def test_what_a_vehicle_does_not_have_is_not_asked_of_it(
    asked: dict[str, object], known: dict[str, object], due: bool
) -> None:
    cover = _vehicle(asked, **known)

    points = cover.points(cover.build.items["hold:roof"])
    assert [check.slug for check, _ in points] == (
        ["ribs-once", "ribs-zone", "ribs-anchor"] if due else []
    )
    assert ("task:ribs" in {task.id for task in cover.by_kind["task"]}) is due
    anchor = cover.build.items["anchor:A1"]
    assert cover.applies(cover.build.items["check:anchor"], anchor) is due


def test_a_task_waits_for_what_came_before_one_that_the_vehicle_does_not_have() -> None:
    after = "task:after"
    ribbed, smooth = _vehicle(METAL, body="bus"), _vehicle(METAL, body="sandwich panel")

    assert ribbed.needs(ribbed.build.items[after]) == ["task:ribs"]
    assert smooth.needs(smooth.build.items[after]) == ["task:before"]


def test_a_check_that_is_not_asked_of_this_vehicle_takes_no_answer() -> None:
    cover = _vehicle(METAL, body="sandwich panel")
    check, vehicle = cover.build.items["check:once"], cover.build.items["vehicle"]

    with pytest.raises(BadInput, match="ribs-once is not asked of a vehicle like this one"):
        mark(cover, check, [vehicle], "good", by="Ida")
