from __future__ import annotations

from typing import Any

import pytest

from tests.app.wants.scene import scene
from tracker.app.wants.checks import find_check, mark
from tracker.build.names import Names
from tracker.errors import BadInput, Refused, UnknownName


def subjects(*words: Any, **more: Any) -> list[str]:
    """The subjects of the facts that a want comes to."""
    return [fact["subject"] for fact in mark(*words, by="Ida", **more)(scene())]


def test_a_name_a_range_and_a_list_mean_their_subjects() -> None:
    assert subjects("label", ["l1"], "good") == ["run1"]
    assert subjects("label", ["L1-L2"], "good") == ["run1", "run2"]
    assert subjects("label", ["L1,L2"], "good") == ["run1", "run2"]


def test_no_subject_means_the_only_one_or_all_of_a_bay_but_some() -> None:
    assert subjects("gas", [], "good") == ["vehicle"]
    assert subjects("label", [], "good", bay="B1") == ["run1", "run2"]
    assert subjects("label", [], "good", bay="B1", but=["L2"]) == ["run1"]
    assert subjects("label", [], "na", zone="roof", why="spare") == ["run3"]
    assert subjects("dry", [], "good", zone="port") == ["port"]


def test_named_subjects_are_taken_within_a_bay_that_is_named_too() -> None:
    assert subjects("label", ["L2-L3"], "good", bay="B2") == ["run3"]


@pytest.mark.parametrize("text", ["label", "LABEL", "lab", "tag"])
def test_a_check_is_found_by_name_beginning_or_word(text: str) -> None:
    assert find_check(Names(scene()), text).id == "check-label"


def test_a_check_that_nothing_or_too_much_fits_is_refused() -> None:
    with pytest.raises(BadInput, match="fits several checks; say which: label, lead"):
        find_check(Names(scene()), "l")
    with pytest.raises(UnknownName, match="did you mean label"):
        find_check(Names(scene()), "labl")
    with pytest.raises(UnknownName):
        find_check(Names(scene()), "")


@pytest.mark.parametrize(("typed", "value"), [("14in", 0.3556), ("0.4 m", 0.4), ("40cm", 0.4)])
def test_a_value_is_read_into_the_unit_of_the_limit(typed: str, value: float) -> None:
    (fact,) = mark("lead", ["L1"], "measured", by="Ida", value=typed)(scene())

    assert fact["value"] == pytest.approx(value)
    assert fact["unit"] == "m"


@pytest.mark.parametrize("typed", ["12", "12%", "12.0 %"])
def test_a_bare_number_is_taken_where_only_percent_can_be_meant(typed: str) -> None:
    (fact,) = mark("moisture", [], "measured", by="Ida", value=typed)(scene())

    assert fact["value"] == 12.0


@pytest.mark.parametrize("typed", ["5", "5kg", "", "long"])
def test_a_value_that_could_be_misread_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        mark("lead", ["L1"], "measured", by="Ida", value=typed)(scene())


def test_names_are_looked_up_when_the_want_is_decided() -> None:
    want = mark("label", ["L9"], "good", by="Ida")
    with pytest.raises(UnknownName, match="L9"):
        want(scene())

    later = scene(("Ida", {"f": "item.set", "id": "run3", "set": {"slug": "L9"}}))
    assert [fact["subject"] for fact in want(later)] == ["run3"]


def test_texts_are_cleaned_of_what_steers_a_terminal() -> None:
    (fact,) = mark("gas", [], "bad", by="I\033da", why="his\x07ses ")(scene())

    assert (fact["by"], fact["why"]) == ("Ida", "hisses")


def test_an_answer_is_taken_back_only_where_there_is_one() -> None:
    with pytest.raises(Refused, match="open already"):
        mark("gas", [], "reopened", by="Ida", why="again")(scene())


@pytest.mark.parametrize(
    ("words", "more", "problem"),
    [
        (("label", [], "good"), {}, "is held against 3 subjects; say which"),
        (("label", [], "good"), {"bay": "B9"}, "no bay is called 'B9'"),
        (("label", ["L3"], "good"), {"bay": "B1"}, "has no subject in B1"),
        (("label", ["L1"], "good"), {"but": ["L1"]}, "has no subject but those left out"),
        (("label", ["B1"], "good"), {}, "is held against each run"),
        (("gas", ["L1"], "good"), {}, "is held against the vehicle"),
    ],
)
def test_a_want_that_leaves_open_what_is_meant_is_refused(
    words: tuple[Any, ...], more: dict[str, Any], problem: str
) -> None:
    with pytest.raises(BadInput, match=problem):
        mark(*words, by="Ida", **more)(scene())
