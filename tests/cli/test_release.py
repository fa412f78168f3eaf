from __future__ import annotations

import json

import pytest

from tests.cli.yard import Yard

PORT = ("pre-foam", "--zone", "port")


def release(yard: Yard, *words: str) -> str:
    return yard.saved("release", *PORT, "--second", "Ola", *words)


def test_two_people_release_one_zone(yard: Yard) -> None:
    yard.all_good()

    out = " ".join(release(yard).split())

    assert "released pre-foam in port: 9 answers signed by Ida and Ola" in out
    assert "check it against the code where you are, each maker's sheet" in out
    assert "safe: " in out and "not that the work is safe" in out
    assert "pre-foam, port is released" in yard.run("todo", *PORT).out


def test_waivers_stand_first_on_the_release(yard: Yard) -> None:
    yard.all_good()
    yard.saved("check", "hole-lined", "--at", "H1", "--waive", "blind hole", "--second", "Ola")

    out = release(yard)

    assert out.startswith("waived: hole-lined on H1: blind hole (Ida, Ola)\n")


def test_json_carries_the_waivers_and_the_caution(yard: Yard) -> None:
    yard.all_good()

    said = json.loads(yard.run("release", *PORT, "--second", "Ola", "--json").out)

    assert set(said) == {"id", "saved", "waivers", "caution"}


def test_a_second_person_by_phone_is_marked_so(yard: Yard) -> None:
    yard.all_good()

    assert "Ida and Ola by phone or photo" in " ".join(release(yard, "--remote").split())


def test_the_same_person_may_sign_the_day_after_and_not_before(yard: Yard) -> None:
    yard.all_good()

    assert "counts from the day after" in yard.refused("release", *PORT, "--next-day")


def test_a_release_is_taken_back_with_a_reason_and_not_undone(yard: Yard) -> None:
    yard.all_good()
    release(yard)

    assert "--withdraw" in yard.refused("undo")
    assert "took back the release of pre-foam in port: gland leaks" in yard.saved(
        "release", *PORT, "--withdraw", "gland leaks"
    )
    assert "pre-foam, port is ready" in yard.run("todo", *PORT).out


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("pre-foam", "--second", "Ola"), "say which with --zone: port, roof"),
        ((*PORT, "--second", "Ola"), "answer its checks first"),
        (("pre-foma", "--second", "Ola"), "did you mean pre-foam?"),
        (("pre-foam", "--zone", "left", "--second", "Ola"), "no zone is called 'left'"),
        ((*PORT, "--remote", "--next-day"), "can't go together"),
        ((*PORT, "--withdraw", "x", "--second", "Ola"), "takes a reason alone"),
        ((*PORT, "--withdraw", "x"), "pre-foam is not due"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    yard: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in yard.refused("release", *words)


def test_what_is_still_open_is_named_and_where_to_read_more(yard: Yard) -> None:
    yard.saved("check", "label", "--bay", "B1", "--good")

    assert yard.refused("release", *PORT, "--second", "Ola") == (
        "pre-foam can't be released: label-both-ends on L3, lead-length on L1, lead-length on L2 "
        "and 4 more must be good, waived or not applicable; 'closein todo pre-foam' lists them"
    )


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ((), "a release takes two names"),
        (("--second", "Ida"), "a release takes two people"),
        (("--second", "Ola", "--by", "ola"), "a release takes two people"),
    ],
)
def test_one_person_alone_can_release_nothing(yard: Yard, words: tuple[str, ...], why: str) -> None:
    yard.all_good()

    assert why in yard.refused("release", *PORT, *words)


def test_a_blocker_stops_a_release(yard: Yard) -> None:
    from tests.cli.yard import HOLD
    from tracker.build import item

    yard.all_good()
    yard.do(lambda session: [item.add("blocker", "crew", {"title": "ill", "stops": [HOLD]})])

    assert "can't be released while crew stands" in yard.refused(
        "release", *PORT, "--second", "Ola"
    )
