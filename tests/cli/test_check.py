from __future__ import annotations

import json

import pytest

from tests.cli.yard import Yard


def states(yard: Yard, check: str) -> dict[str, list[str]]:
    return json.loads(yard.run("check", check, "--json").out)["stands"]


def test_a_range_of_subjects_is_marked_in_one_act(yard: Yard) -> None:
    out = yard.saved("check", "label-both-ends", "--at", "L1-L2", "--good")

    assert "label-both-ends on L1 L2: good" in out
    assert states(yard, "label-both-ends") == {"good": ["L1", "L2"], "open": ["L3", "L4"]}


def test_a_bay_is_marked_but_for_one(yard: Yard) -> None:
    yard.saved("check", "label-both-ends", "--bay", "B1", "--but", "L2", "--good")

    assert states(yard, "label-both-ends")["good"] == ["L1"]


def test_a_check_of_the_whole_vehicle_needs_no_subject(yard: Yard) -> None:
    assert "gas-tight on the vehicle: good" in yard.saved("check", "gas-tight", "--good")


@pytest.mark.parametrize("name", ["label-both", "LABEL", "label"])
def test_a_check_is_found_by_its_beginning_or_its_word(yard: Yard, name: str) -> None:
    assert "label-both-ends on L1: good" in yard.saved("check", name, "--at", "L1", "--good")


def test_a_beginning_that_fits_two_checks_is_refused(yard: Yard) -> None:
    assert yard.refused("check", "labe", "--at", "L1", "--good") == (
        "'labe' fits several checks; say which: label-both-ends, label-read"
    )


def test_a_measure_says_whether_it_is_good_and_against_what(yard: Yard) -> None:
    good = yard.saved("check", "len", "--at", "L1", "--value", "16in")
    bad = yard.saved("check", "len", "--at", "L2", "--value", "9in")

    assert "L1 good: it is at least 0.35 m" in good
    assert "if missed" not in good
    assert "lead-length on L2: 228.6 mm, bad" in bad
    assert "L2 bad: it is at least 0.35 m" in bad
    assert "lead-length holds the work: no release until" in bad
    assert "if missed: What happens without lead-length" in bad


def test_a_value_below_nought_is_a_value_and_no_option(yard: Yard) -> None:
    assert yard.refused("check", "len", "--at", "L1", "--value", "-2C").startswith("'-2C' is not")


def test_a_value_in_the_band_counts_once_a_second_person_signs_a_reason(yard: Yard) -> None:
    alone = yard.saved("check", "len", "--at", "L1", "--value", "0.32m")
    reasonless = yard.refused("check", "len", "--at", "L1", "--value", "0.32m", "--second", "Ola")
    signed = yard.saved(
        "check", "len", "--at", "L1", "--value", "0.32m", "--second", "Ola", "--note", "short box"
    )

    assert "L1 bad:" in alone
    assert "add --note" in reasonless
    assert "L1 good:" in signed


def test_a_bad_hold_check_says_what_follows_and_its_caution(yard: Yard) -> None:
    out = yard.saved("check", "hole-lined", "--at", "H1", "--bad", "--note", "no grommet")

    assert "hole-lined holds the work: no release until it is put right" in out
    assert "if missed: What happens without hole-lined" in out
    assert "caution: Wear gloves" in out


def test_a_bad_check_that_can_never_be_waived_offers_no_waiver(yard: Yard) -> None:
    out = " ".join(yard.saved("check", "gas-tight", "--bad").split())

    assert "answered again" in out
    assert "waived" not in out


def test_the_second_person_reads_the_label_blind(yard: Yard) -> None:
    wrong = yard.refused("check", "read", "--at", "L3", "--good", "--second", "Ola", "--read", "L4")
    right = yard.saved("check", "read", "--at", "L3", "--good", "--second", "Ola", "--read", "l3")

    assert wrong.startswith("the label reads 'L4' and the record says L3")
    assert "second Ola; label read 'l3'" in right


def test_a_remote_second_and_a_photo_are_kept(yard: Yard) -> None:
    photo = yard.folder / "photos" / "b1.jpg"
    photo.parent.mkdir(exist_ok=True)
    photo.write_bytes(b"a picture")
    words = ("--good", "--photo", str(photo), "--second", "Ola", "--remote", "--json")
    answered = yard.run("check", "bay-photo", "--at", "B1", *words)
    said = json.loads(answered.out)["saved"]

    assert answered.err == ""
    assert f"second Ola; photo {photo}; by phone or photo" in said


def test_it_can_be_signed_by_another_and_dated_back(yard: Yard) -> None:
    words = ("--by", "Ola", "--when", "2026-01-02 16:00", "--json")
    out = yard.run("check", "gas-tight", "--good", *words).out

    act = yard.session.build.acts[-1]
    assert json.loads(out)["id"] == act.id
    assert (act.by, act.happened[:16]) == ("Ola", "2026-01-02T16:00")


def test_an_answer_is_taken_back_with_a_reason(yard: Yard) -> None:
    yard.saved("check", "gas-tight", "--good")
    yard.saved("check", "gas-tight", "--reopen", "gauge was off")

    assert states(yard, "gas-tight") == {"open": ["vehicle"]}
    assert "open already" in yard.refused("check", "gas-tight", "--reopen", "again")


def test_json_says_how_each_point_stands_now(yard: Yard) -> None:
    said = json.loads(yard.run("check", "len", "--at", "L1", "--value", "9in", "--json").out)

    assert set(said) == {"id", "saved", "stands"}
    assert said["stands"][0]["state"] == "bad"


def test_without_an_answer_it_says_what_the_check_asks(yard: Yard) -> None:
    before = yard.files()

    out = yard.run("check", "hole-lined").out

    assert "hole-lined: Text of hole-lined" in out
    assert "caution" in out and "Wear gloves" in out
    assert "open (2): H1 H2" in out
    assert yard.files() == before


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("gas-tight", "--good", "--bad"), "gas-tight: --good and --bad can't go together"),
        (("gas-tight", "--good", "--value", "3Pa"), "can't go together"),
        (("nothing-like-it", "--good"), "no check is called 'nothing-like-it'"),
        (("gas-tigth", "--good"), "did you mean gas-tight?"),
        (("label", "--good"), "is held against 4 subjects; say which with --at, --bay or --zone"),
        (("label", "--at", "L9", "--good"), "no run is called 'L9'"),
        (("label", "--at", "H1", "--good"), "is held against each run"),
        (("label", "--at", "L3-L1", "--good"), "runs backwards"),
        (("label", "--bay", "B1", "--but", "L1-L2", "--good"), "has no subject in B1"),
        (("label", "--at", "L2,L3", "--good"), "only within one bay"),
        (("gas-tight", "--at", "L1", "--good"), "is held against the vehicle"),
        (("read", "--at", "L1", "--good"), "give --second NAME"),
        (("read", "--at", "L1", "--good", "--second", "ida"), "can't be Ida again"),
        (("len", "--at", "L1", "--good"), "is decided by its number"),
        (("len", "--at", "L1", "--value", "5"), "needs a unit"),
        (("len", "--at", "L1", "--value", "5kg"), "is not in a unit taken here"),
        (("label", "--at", "L1", "--value", "5m"), "asks for no number"),
        (("len", "--at", "L1-L2", "--value", "5m"), "one subject at a time"),
        (("gas-tight", "--waive", "in a hurry", "--second", "Ola"), "can never be waived"),
        (("hole-lined", "--at", "H1", "--waive", "blind"), "takes a second name"),
        (("gas-tight", "--na", "  "), "the reason can't be empty"),
        (("gas-tight", "--good", "--when", "2199-01-01"), "lies ahead of now"),
        (("gas-tight", "--good", "--when", "soon"), "is no moment"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    yard: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in yard.refused("check", *words)


def test_a_picture_that_is_not_there_is_kept_with_a_word_about_it(yard: Yard) -> None:
    said = yard.run("check", "bay-photo", "--bay", "B1", "--good", "--photo", "/no/such.jpg")

    assert said.status == 0
    assert "no picture lies at /no/such.jpg" in said.err
