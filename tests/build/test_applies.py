"""Which subjects a check is due on."""

from __future__ import annotations

import pytest

from tracker.act import Act
from tracker.build import item
from tracker.build.coverage import Coverage
from tracker.build.fold import fold

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
