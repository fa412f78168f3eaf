"""Short names: one, several, ranges, and what is meant when nothing fits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.build.making import Yard, added, run
from tracker.build import item
from tracker.build.names import Names, clean, slug_of
from tracker.errors import BadInput, UnknownName


def _names(*slugs: str) -> Names:
    return Names(Yard(*(run(slug) for slug in slugs)).build)


def _expanded(names: Names, *words: str) -> list[str]:
    return [names.name(found.id) for found in names.expand(words)]


@pytest.mark.parametrize("typed", ["L1", "l1", " L1 ", "run:L1", "run:l1"])
def test_a_name_is_found_in_any_case_and_with_its_kind(typed: str) -> None:
    assert _names("L1", "L12").find(typed).id == "run:L1"


def test_two_items_of_one_name_show_as_themselves_and_with_a_number() -> None:
    yard = Yard()
    ids = [yard.do(item.add("run", slug, {})).ref(0) for slug in ("r12", "R12", "r12")]

    names = Names(yard.build)

    assert [names.name(identifier) for identifier in ids] == ["r12", "R12~2", "r12~3"]
    assert [names.find(name).id for name in ("r12", "r12~2", "R12~3")] == ids


def test_a_removed_item_gives_its_name_free_and_is_still_called_by_it() -> None:
    yard = Yard()
    old = yard.do(item.add("run", "L1", {})).ref(0)
    yard.remove("L1")
    new = yard.do(item.add("run", "L1", {})).ref(0)

    names = Names(yard.build)

    assert (names.name(old), names.name(new)) == ("L1", "L1")
    assert names.find("L1").id == new


def test_a_name_that_two_kinds_have_must_say_which() -> None:
    yard = Yard(added("run", "X1"), added("box", "X1"), added("hole", "H1"))
    names = Names(yard.build)
    with pytest.raises(BadInput, match="'X1' is a box and a run; say which, as kind:name"):
        names.find("X1")

    assert names.find("box:X1").id == "box:X1"
    assert names.find("box:X1", ("box", "run")).id == "box:X1"
    assert names.find("X1", ("run", "hole")).id == "run:X1"
    with pytest.raises(UnknownName):
        names.find("box:X1", ("run", "hole"))


def test_an_unknown_name_is_told_with_its_noun_and_the_nearest() -> None:
    names = _names("L1", "L12")
    with pytest.raises(UnknownName, match="no wire is called 'L2'; did you mean L12"):
        names.find("L2", ("run",), "wire")
    with pytest.raises(UnknownName, match="no run is called"):
        names.find("L2", ("run",))
    with pytest.raises(UnknownName, match="no item is called 'L2'"):
        Names(Yard(run("L1"), added("box", "X1")).build).find("L2")


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["L1-L3"], ["L1", "L2", "L3"]),
        (["L1-3"], ["L1", "L2", "L3"]),
        (["l1..L3"], ["L1", "L2", "L3"]),
        (["L2 - L3"], ["L2", "L3"]),
        (["L3,L1", "L2"], ["L3", "L1", "L2"]),
        (["L1-L2", "L2-L3", "L1"], ["L1", "L2", "L3"]),
        (["L2-L99"], ["L2", "L3"]),
        (["L1", " ", ","], ["L1"]),
        ([], []),
    ],
)
def test_ranges_and_lists_mean_each_item_once_in_order(words: list[str], found: list[str]) -> None:
    assert _expanded(_names("L1", "L2", "L3"), *words) == found


def test_a_range_may_be_written_with_leading_noughts() -> None:
    assert _expanded(_names("L08", "L09", "L10"), "L08-L10") == ["L08", "L09", "L10"]


def test_a_name_that_looks_like_a_range_is_itself_first() -> None:
    assert _expanded(_names("a-1", "a-1-2", "a-2"), "a-1-2") == ["a-1-2"]
    assert _expanded(_names("a-1", "a-2"), "a-1-2") == ["a-1", "a-2"]


@pytest.mark.parametrize(
    ("typed", "problem"),
    [
        ("L3-L1", "runs backwards"),
        ("L1-H3", "begins with L and ends with H"),
        ("L1-L1001", "longer than 1000 names"),
        ("M1-M3", "is called 'M1-M3'"),
        ("L9", "is called 'L9'"),
    ],
)
def test_a_range_that_means_nothing_is_refused(typed: str, problem: str) -> None:
    with pytest.raises(BadInput, match=problem):
        _names("L1", "L2").expand([typed])


def test_a_range_looks_only_among_the_kinds_asked_for() -> None:
    names = Names(Yard(run("X1"), added("box", "X1"), run("X2")).build)

    assert [each.id for each in names.expand(["X1-X2"], ("run",))] == ["run:X1", "run:X2"]
    with pytest.raises(BadInput, match="say which"):
        names.expand(["X1-X2"])
    with pytest.raises(UnknownName, match="no wire is called 'M1-M2'"):
        names.expand(["M1-M2"], ("run",), "wire")


@given(st.sets(st.integers(1, 60)), st.integers(1, 60), st.integers(0, 60))
def test_a_range_means_exactly_the_items_whose_numbers_lie_in_it(
    numbers: set[int], low: int, length: int
) -> None:
    names = _names(*(f"L{number}" for number in sorted(numbers)))
    wanted = [f"L{number}" for number in sorted(numbers) if low <= number <= low + length]

    if wanted:
        assert _expanded(names, f"L{low}-L{low + length}") == wanted
    else:
        with pytest.raises(UnknownName):
            names.expand([f"L{low}-L{low + length}"])


@given(st.lists(st.text(min_size=1, max_size=3), max_size=6), st.text(max_size=6))
def test_whatever_items_are_called_every_shown_name_finds_its_item_and_nothing_else_breaks(
    slugs: list[str], typed: str
) -> None:
    yard = Yard(*(item.add("run", slug, {}) for slug in slugs))
    names = Names(yard.build)

    shown = [names.name(identifier) for identifier in yard.build.items]
    assert len({name.casefold() for name in shown}) == len(slugs)
    try:
        names.expand([typed])
    except BadInput as error:
        assert str(error).replace("\t", "").isprintable()


@pytest.mark.parametrize("text", ["L1", "pre-foam", "r12", "9", "a" * 40])
def test_a_short_name_is_letters_digits_and_hyphens(text: str) -> None:
    assert slug_of(text) == text


@pytest.mark.parametrize(
    "text", ["", "-a", "a-", "a b", "a~2", "a" * 41, "é", "a\n", "run:L1", "\u212a1"]
)
def test_anything_else_is_no_short_name(text: str) -> None:
    with pytest.raises(BadInput, match="can't be a short name"):
        slug_of(text)


def test_a_made_up_name_is_one_that_nothing_has_or_had() -> None:
    yard = Yard(run("L1"), run("l3"), run("L4"))
    assert Names(yard.build).free("run", "L") == "L5"

    yard.remove("L4")
    assert Names(yard.build).free("run", "L") == "L5"
    assert Names(yard.build).free("hole", "H") == "H1"


def test_an_id_that_names_nothing_is_shown_as_it_is() -> None:
    assert _names("L1").name("run:L9") == "run:L9"


@given(st.text())
def test_cleaned_text_holds_nothing_that_moves_a_cursor(text: str) -> None:
    assert clean(text).replace("\t", "").isprintable()
    assert clean(clean(text)) == clean(text)


def test_letters_of_any_script_stay_as_they_are() -> None:
    assert clean("Ønske é 日本\x1b[31m\u202e") == "Ønske é 日本[31m"
