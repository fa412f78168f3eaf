from __future__ import annotations

import json

import pytest

from tests.cli.yard import Yard

PORT = ("pre-foam", "--zone", "port")


@pytest.fixture
def released(yard: Yard) -> Yard:
    """One zone released by two."""
    yard.all_good()
    yard.saved("release", *PORT, "--second", "Ola")
    return yard


def test_closing_says_plainly_what_is_buried(released: Yard) -> None:
    out = " ".join(released.saved("close", *PORT).split())

    assert "closed pre-foam in port: 4 items covered" in out
    assert "buried now: hole H1; wire run L1-L3" in out
    assert "gives its reason (--why)" in out


def test_json_names_what_is_buried(released: Yard) -> None:
    said = json.loads(released.run("close", *PORT, "--json").out)

    assert said["buried"] == {"hole": "H1", "wire run": "L1-L3"}


def test_what_was_never_released_is_closed_only_with_a_release(yard: Yard) -> None:
    assert "pre-foam is not due" in yard.refused("close", *PORT)
    assert "pre-foam is not due" in yard.refused("close", *PORT, "--why", "crew was here")


def test_a_lapsed_release_is_closed_only_with_a_reason(released: Yard) -> None:
    released.do(lambda session: [{"f": "condition.logged", "rain": True}])

    why = released.refused("close", *PORT)
    out = " ".join(released.saved("close", *PORT, "--why", "tent was up").split())

    assert "pre-foam is lapsed" in why and "rain recorded" in why
    assert "without a release that holds: tent was up" in out


def test_a_closed_zone_is_opened_again_with_a_reason(released: Yard) -> None:
    released.saved("close", *PORT)

    assert "reopened pre-foam in port: cut out at B1" in released.saved(
        "close", *PORT, "--reopen", "cut out at B1"
    )
    assert "pre-foam, port is reopened" in released.run("todo", *PORT).out


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("pre-foam",), "say which with --zone: port, roof"),
        ((*PORT, "--reopen", "x", "--why", "y"), "carries its own reason"),
        ((*PORT, "--reopen", "x"), "pre-foam is released"),
        ((*PORT, "--second", "Ola"), "is no option of closein close"),
    ],
)
def test_what_does_not_go_is_refused_and_changes_nothing(
    released: Yard, words: tuple[str, ...], why: str
) -> None:
    assert why in released.refused("close", *words)


def test_what_surfaces_later_stands_apart(released: Yard) -> None:
    from tracker.build import item

    released.saved("close", *PORT)
    bay = released.session.names.find("B1").id
    released.do(lambda session: [item.add("run", "L5", {"bay": [bay]})])

    out = released.run("todo", *PORT).out

    assert "Not known at close-in (1)\n  - L5" in out
