from __future__ import annotations

import json

import pytest

from tests.cli.yard import Yard


def test_an_item_is_added_changed_shown_and_removed(yard: Yard) -> None:
    saved = json.loads(yard.run("item", "add", "run", "to=lamp", "bay=B1,B2", "--json").out)
    assert saved["name"] == "L5"
    yard.saved("item", "change", "L5", "length=18 ft", "name=L9")

    view = json.loads(yard.run("item", "show", "L9", "--json").out)
    assert view["fields"]["length_m"] == "5.4864 m"
    assert view["bay"] == ["B1", "B2"]
    assert "gauge" in view["unknown"] and not view["buried"]
    yard.saved("item", "remove", "L9", "--why", "no lamp there")
    assert "removed: no lamp there" in yard.run("item", "list", "--removed").out
    assert "no item is called 'L9'" in yard.run("item", "show", "L9").err


def test_lists_are_of_a_kind_a_bay_or_a_zone(yard: Yard) -> None:
    def names(*words: str) -> list[str]:
        return [row["name"] for row in json.loads(yard.run("item", "list", *words, "--json").out)]

    assert names("run") == ["L1", "L2", "L3", "L4"]
    assert names("run", "--bay", "b1") == ["L1", "L2"]
    assert names("hole", "--zone", "roof") == ["H2"]
    assert "L1" in names() and "spray" not in names()
    assert "spray" in names("task")


def test_names_alone_are_what_a_shell_completes_and_nothing_it_could_run(yard: Yard) -> None:
    yard.do(
        lambda _: [
            {"f": "item.added", "kind": "run", "slug": slug, "fields": {}}
            for slug in ("$(touch x)", "L1", "`id`", "a b")
        ]
    )

    assert yard.run("item", "list", "run", "--names").out.split() == [
        "L1",
        "L2",
        "L3",
        "L4",
        "L1~2",
    ]


def test_what_is_buried_changes_only_with_a_reason(yard: Yard) -> None:
    yard.all_good()
    yard.run("release", "pre-foam", "--zone", "port", "--by", "Ida", "--second", "Ola")
    yard.run("close", "pre-foam", "--zone", "port")

    assert "needs a reason (--why)" in yard.refused("item", "change", "L1", "length=6m")
    yard.saved("item", "change", "L1", "length=6m", "--why", "found longer")
    shown = yard.run("item", "show", "L1").out
    assert "since pre-foam was closed" in shown and "length_m" in shown


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("add", "rnu"), "did you mean run?"),
        (("add", "run", "L1"), "'L5' is free"),
        (("add", "run", "L9", "L10"), "'L10' is no FIELD=VALUE"),
        (("add", "run", "to=a", "to=b"), "to is given twice"),
        (("change", "L1"), "FIELD=VALUE is missing"),
        (("change", "L99", "to=x"), "no item is called 'L99'"),
        (("remove", "L1"), "--why is missing"),
        (("list", "rnu"), "did you mean run?"),
        (("shwo", "L1"), "did you mean show"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    yard: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in yard.refused("item", *words)


@pytest.mark.parametrize(
    ("kind", "values", "known"),
    [
        ("receipt", ["amount=48.20", "for=glands", "photo=photos/r1.jpg"], {"amount": "48.2"}),
        ("duty", ["of=insurance", "order=2", "due_on=2027-05-01"], {"order": "2"}),
        ("weigh-slip", ["state=stripped", "total=3200kg", "front=1400kg"], {"front_kg": "1400 kg"}),
        ("loan", ["owner=Ola", "back_by=2027-05-02"], {"back_by": "2027-05-02"}),
        ("decision", ["last_day=2027-05-01", "options=a,b"], {"options": "a, b"}),
    ],
)
def test_what_the_person_sees_to_besides_the_work_is_kept_as_items(
    yard: Yard, kind: str, values: list[str], known: dict[str, str]
) -> None:
    name = json.loads(yard.run("item", "add", kind, *values, "--json").out)["name"]

    view = json.loads(yard.run("item", "show", name, "--json").out)

    assert known.items() <= view["fields"].items()
    listed = json.loads(yard.run("item", "list", kind, "--json").out)
    assert [row["name"] for row in listed] == [name]
    assert not view["buried"] and view["unknown"] == []


def test_the_steps_of_a_registration_keep_their_order(yard: Yard) -> None:
    yard.saved("item", "add", "duty", "insure-road", "of=insurance", "order=1")
    yard.saved("item", "add", "duty", "plates", "of=registration", "order=2", "after=insure-road")

    view = json.loads(yard.run("item", "show", "plates", "--json").out)

    assert view["fields"]["after"] == "insure-road"


def test_an_item_says_what_was_found_of_it_and_how_that_stands(yard: Yard) -> None:
    yard.saved("check", "len", "--at", "L1", "--value", "9in")
    yard.saved("check", "label-read", "--at", "L1", "--good", "--second", "Ola")
    yard.saved("check", "label-both-ends", "--at", "L1", "--bad", "--note", "no tag")

    shown = " ".join(yard.run("item", "show", "L1").out.split())

    assert "lead-length bad: measured 0.2286 m by Ida on " in shown
    assert "label-read good by Ida on " in shown and "; second Ola" in shown
    assert "label-both-ends bad by Ida on " in shown and "; no tag" in shown


def test_an_answer_that_no_longer_holds_says_why(yard: Yard) -> None:
    yard.saved("check", "label-both-ends", "--at", "L1", "--good")
    yard.saved("item", "change", "L1", "name=L9")

    shown = " ".join(yard.run("item", "show", "L9").out.split())

    assert "label-both-ends out of date: good by Ida on " in shown
    assert "; slug was L1, now L9" in shown
