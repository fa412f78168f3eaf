"""The main job from the command line alone, with the phases that come with the program."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.cli.yard import Said, Yard

PLAN = """
[[zone]]
name = "left"
bay = ["B1-B2"]
[[zone]]
name = "rear"
bay = ["B3"]
""" + "".join(f'[[bay]]\nname = "B{n}"\n' for n in (1, 2, 3))
PLAN += "".join(
    f'[[run]]\nname = "L{n}"\nlength = "{n} ft"\nfrom = "panel"\nto = "lamp {n}"\n'
    f'bay = "B{n % 3 + 1}"\n'
    f'[[hole]]\nname = "H{n}"\nbay = "B{n % 3 + 1}"\ncarries = "L{n}"\nthrough = "rib"\n'
    for n in range(1, 31)
)


def line_for(row: dict[str, Any]) -> str:
    """What somebody says who found an open point good; a number lies within its limit."""
    subject = "" if row["subject"] == "vehicle" else f"{row['subject']} "
    bounds = re.findall(r"at (least|most) ([\d.]+) ([^\s=]+)", row["limit"] or "")
    if not bounds:
        return f"{subject}{row['check']} ok with Ola"
    numbers = [float(number) for _, number, _ in bounds]
    value = {
        ("least",): numbers[0] + 0.01,
        ("most",): numbers[0] / 2,
        ("least", "most"): sum(numbers) / len(numbers),
    }[tuple(side for side, _, _ in bounds)]
    return f"{subject}{row['check']} {value:g}{bounds[0][2]} with Ola"


@pytest.fixture
def heron(yard: Yard, tmp_path: Path) -> Yard:
    """A build as its first morning leaves it: begun, its phases taken up, its plan taken in."""
    folder = tmp_path / "wagtail"
    begun = yard.anywhere("start", str(folder), "--furring", "25mm", "--panel", "6mm")
    assert (begun.status, begun.err) == (0, "")
    heron = Yard(folder, yard._capture)
    heron.saved("phases", "adopt", "framing", "deck", "rough-in-wiring", "insulation")
    sheets = ("foam_surface=10C", "can_low=21C", "can_high=27C")
    heron.saved("item", "change", "vehicle", *sheets, "exit_short=432mm", "exit_long=610mm")
    (tmp_path / "plan.toml").write_text(PLAN, "utf-8")
    assert "65 added" in heron.saved("plan", "import", str(tmp_path / "plan.toml"))
    return heron


def todo(yard: Yard, zone: str) -> dict[str, Any]:
    view: dict[str, Any] = json.loads(yard.run("todo", "pre-foam", "--zone", zone, "--json").out)
    return view


def answer_all(yard: Yard, zone: str, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Say of all that is open in a zone that it is good; the lines that were said."""
    lines = [line_for(row) for row in todo(yard, zone)["open"]]
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(lines)))
    yard.saved("say")
    assert yard.run("inbox").out == "the inbox is empty\n"
    return lines


def sign(yard: Yard, zone: str) -> Said:
    return yard.run("release", "pre-foam", "--zone", zone, "--by", "Ida", "--second", "Ola")


def test_what_rules_and_sheets_still_have_to_say_is_named_once_before_the_close_in(
    heron: Yard,
) -> None:
    heron.saved("item", "change", "vehicle", "can_low=unknown", "can_high=unknown")
    out = heron.run("todo", "pre-foam").out
    assert out.count("  - vehicle: can_low_c, can_high_c\n") == 1


def test_a_build_goes_from_start_to_two_close_ins(
    heron: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert todo(heron, "left")["points"]["open"] > 300
    heron.saved("stuck", "no rig", "--kind", "vehicle", "--stops", "pre-foam")
    heron.saved("part", "add", "glands", "unit=each", "needed=12", "stops=fit-gland")
    heron.saved("part", "receive", "glands", "4")
    assert [row["part"] for row in todo(heron, "left")["shortages"]] == ["glands"]

    heron.saved("check", "label-both-ends", "--at", "L1", "--waive", "no lamp", "--second", "Ola")
    heron.saved("check", "lead-length", "--at", "L3", "--value", "9in")
    assert todo(heron, "left")["points"]["bad"] == 1
    answer_all(heron, "left", monkeypatch)
    assert "while stuck1 stands" in sign(heron, "left").err
    heron.saved("unstuck", "stuck1", "--lost", "3h")
    assert sign(heron, "left").status == 0
    heron.saved("close", "pre-foam", "--zone", "left")
    assert "needs a reason" in heron.refused("item", "change", "L1", "length=9m")

    answer_all(heron, "rear", monkeypatch)
    assert sign(heron, "rear").status == 0
    heron.saved("item", "add", "run", "L99", "bay=B3", "to=late lamp", "from=panel")
    late = todo(heron, "rear")
    assert late["hold_point"]["state"] == "lapsed"
    assert any("L99 is new and open" in reason for reason in late["lapsed_because"])
    assert {row["subject"] for row in late["open"]} == {"L99"}

    answer_all(heron, "rear", monkeypatch)
    assert sign(heron, "rear").status == 0
    heron.saved("close", "pre-foam", "--zone", "rear")
    assert heron.run("todo", "pre-foam", "--gate").status == 0
    assert heron.run("verify").status == 0
