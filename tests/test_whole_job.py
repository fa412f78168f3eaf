"""The main job, end to end, from the command line alone: one build, then two copies of it."""

from __future__ import annotations

import json
import shutil
from collections import defaultdict
from pathlib import Path
from typing import Any

import pytest

from tracker.cli.main import main

BAYS = ("B1", "B2", "B3", "B4")
PHASES = ("framing", "deck", "rough-in-wiring", "insulation")
SHEETS = ("foam_surface=10C", "can_low=21C", "can_high=27C")
"""What the sheet of the foam says."""
RULES = ("exit_short=432mm", "exit_long=610mm")
"""What the rule for exits says where this build is registered."""


def plan() -> str:
    """Four bays in two zones, thirty runs and thirty holes, as a person would write them."""
    lines = []
    for number, bay in enumerate(BAYS):
        face = "left" if number < 2 else "right"
        lines += ["[[bay]]", f'name = "{bay}"', f'face = "{face}"']
        lines += [f"station_m = {number % 2 * 3}", f"to_m = {number % 2 * 3 + 3}", ""]
    for zone, bays in (("left-wall", BAYS[:2]), ("right-wall", BAYS[2:])):
        lines += ["[[zone]]", f'name = "{zone}"', f"bay = {list(bays)}".replace("'", '"'), ""]
    for number in range(1, 31):
        bay = BAYS[0] if number <= 4 else BAYS[2 + number % 2]
        lines += ["[[run]]", f'name = "L{number}"', 'from = "panel"', f'to = "lamp {number}"']
        lines += ['length = "18 ft"', 'gauge = "14AWG"', "load_a = 1.2", "protection_a = 7.5"]
        lines += [f'bay = ["{bay}"]', ""]
        lines += ["[[hole]]", f'name = "H{number}"', 'through = "rib"', "diameter_mm = 20"]
        lines += [f'bay = ["{bay}"]', ""]
    return "\n".join(lines)


class Hand:
    """One person at one computer: a build folder, a memory of their own, a name."""

    def __init__(
        self,
        name: str,
        folder: Path,
        memory: Path,
        patch: pytest.MonkeyPatch,
        capture: pytest.CaptureFixture[str],
    ) -> None:
        self.name, self.folder, self._memory = name, folder, memory
        self._patch, self._capture = patch, capture

    def tries(self, *words: str) -> tuple[int, str, str]:
        """Run one command; exit status, standard output, standard error."""
        self._patch.setenv("CLOSEIN_DATA", str(self._memory))
        self._patch.setenv("CLOSEIN_NAME", self.name)
        self._capture.readouterr()
        status = main(["--build", str(self.folder), *words])
        said = self._capture.readouterr()
        return status, said.out, said.err

    def does(self, *words: str) -> str:
        """Run one command that must succeed; what it printed."""
        status, out, err = self.tries(*words)
        assert status == 0, f"{words}: {err}"
        return out

    def refused(self, *words: str) -> str:
        """Run one command that must be refused without changing a byte; the sentence."""
        before = self.bytes()
        status, out, err = self.tries(*words)
        assert status == 2, f"{words}: {out}"
        assert self.bytes() == before
        return err

    def todo(self, *words: str) -> dict[str, Any]:
        """The view that ``todo --json`` prints."""
        return json.loads(self.does("todo", "pre-foam", *words, "--json"))

    def state(self, zone: str) -> str:
        """The hold point's state in a zone."""
        return str(self.todo("--zone", zone)["hold_point"]["state"])

    def bytes(self) -> dict[str, bytes]:
        """The record as it lies on the disk."""
        return {file.name: file.read_bytes() for file in (self.folder / "journal").iterdir()}

    def answer_all(self, *zone: str) -> None:
        """Answer every open check that holds the release: in bulk where that is allowed."""
        bulk: dict[tuple[str, str | None], list[str]] = defaultdict(list)
        for row in self.todo(*zone)["open"]:
            if row["class"] != "hold":
                continue
            if row["how"] in ("look", "photo") and row["bay"]:
                bulk[row["check"], row["bay"]].append(row["subject"])
                continue
            at = ["--at", row["subject"]] if row["subject"] != "vehicle" else []
            if row["limit"]:
                self.does("check", row["check"], *at, "--value", good_value(row["limit"]))
            else:
                self.does("check", row["check"], *at, "--good", "--second", "Ola")
        for (check, _), subjects in bulk.items():
            self.does("check", check, "--at", *subjects, "--good")


def good_value(limit: str) -> str:
    """A value just inside a limit as ``todo`` words it, such as 'at least 0.357 m = ...'."""
    words = limit.split(" = ")[0].split()
    return f"{words[2]} {words[3]}"


@pytest.fixture
def ida(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Hand:
    """Ida's build: started, four phases adopted, the plan imported."""
    hand = Hand("Ida", tmp_path / "ida" / "heron", tmp_path / "ida-memory", monkeypatch, capsys)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("CLOSEIN_DATA", str(tmp_path / "ida-memory"))
    monkeypatch.setenv("CLOSEIN_NAME", "Ida")
    assert main(["start", str(hand.folder), "--name", "Heron", "--length", "6 m"]) == 0
    hand.does("phases", "adopt", *PHASES)
    (tmp_path / "plan.toml").write_text(plan(), "utf-8")
    hand.does("plan", "import", str(tmp_path / "plan.toml"))
    hand.does("item", "change", "vehicle", "furring=38mm", "panel=9mm", *SHEETS, *RULES)
    return hand


def test_an_owner_builder_brings_one_zone_from_the_first_mark_to_the_close_in(ida: Hand) -> None:
    assert ida.todo()["points"]["total"] > 30 * 10

    ida.does("check", "label-both-ends", "--at", "L1-L4", "--good")
    assert "bad" in ida.does("check", "lead-length", "--at", "L1", "--value", "9in")
    assert "can never be waived" in ida.refused(
        "check", "people-out", "--at", "left-wall", "--waive", "short of people", "--second", "Ola"
    )
    ida.refused("check", "lead-length", "--at", "L2", "--waive", "spliced in reach")
    ida.does("check", "lead-length", "--at", "L2", "--waive", "ends in a box", "--second", "Ola")

    ida.does("part", "add", "glands", "needed=12", "stops=pre-foam")
    ida.does("part", "out", "glands")
    view = ida.todo()
    assert view["shortages"][0]["part"] == "glands"
    assert view["blockers"][0]["stops_this"]
    assert ida.tries("todo", "pre-foam", "--gate")[0] == 1
    ida.does("part", "receive", "glands", "12", "--at", "shelf 2")
    ida.does("unstuck", view["blockers"][0]["slug"], "--lost", "3h")
    assert ida.todo()["shortages"] == []

    assert "must be good" in ida.refused(
        "release", "pre-foam", "--zone", "left-wall", "--by", "Ida", "--second", "Ola"
    )
    ida.answer_all("--zone", "left-wall")
    assert ida.state("left-wall") == "ready"
    ida.refused("release", "pre-foam", "--zone", "left-wall", "--by", "Ida", "--second", "Ida")
    ida.does("release", "pre-foam", "--zone", "left-wall", "--by", "Ida", "--second", "Ola")
    assert ida.state("left-wall") == "released"
    assert ida.tries("todo", "pre-foam", "--zone", "left-wall", "--gate")[0] == 0
    ida.does("close", "pre-foam", "--zone", "left-wall")
    assert ida.state("left-wall") == "closed"

    assert "--why" in ida.refused("item", "change", "L1", "length=6m")
    ida.does("item", "change", "L1", "length=6m", "--why", "measured again on the photo")
    ida.does("item", "add", "hole", "H99", "bay=B1", "through=rib", "diameter=20mm")
    assert ida.todo("--zone", "left-wall")["not_known_at_close_in"] == ["H99"]


def test_a_late_change_lapses_a_release_and_signing_again_covers_the_difference(ida: Hand) -> None:
    ida.answer_all()
    ida.does("release", "pre-foam", "--zone", "right-wall", "--by", "Ida", "--second", "Ola")

    ida.does("item", "change", "L5", "length=6.4m")
    view = ida.todo("--zone", "right-wall")
    assert view["hold_point"]["state"] == "lapsed"
    assert any("L5" in reason and "6.4" in reason for reason in view["lapsed_because"])
    assert {row["subject"] for row in view["open"] if row["class"] == "hold"} == {"L5"}
    assert all(row["state"] == "stale" for row in view["open"] if row["class"] == "hold")

    ida.answer_all("--zone", "right-wall")
    ida.does("release", "pre-foam", "--zone", "right-wall", "--by", "Ida", "--second", "Ola")
    assert ida.state("right-wall") == "released"

    ida.does("condition", "--rain")
    view = ida.todo("--zone", "right-wall")
    assert view["hold_point"]["state"] == "lapsed"
    weather = {row["check"] for row in view["open"] if row["class"] == "hold"}
    assert "surface-dry" in weather and "label-both-ends" not in weather

    assert "--why" in ida.refused("close", "pre-foam", "--zone", "right-wall")


def test_two_copies_worked_on_apart_show_the_conflict_and_settle_it(
    ida: Hand,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    folder = tmp_path / "ola" / "heron"
    shutil.copytree(ida.folder, folder)
    ola = Hand("Ola", folder, tmp_path / "ola-memory", monkeypatch, capsys)

    ida.does("item", "change", "L3", "length=5m")
    ola.does("item", "change", "L3", "length=7m")
    ida.does("check", "label-both-ends", "--at", "L3", "--good")
    ola.does("check", "label-both-ends", "--at", "L3", "--bad", "--note", "tag fell off")
    ola.does("item", "add", "run", "L77", "bay=B3")
    for one, other in ((ida, ola), (ola, ida)):
        for file in (one.folder / "journal").iterdir():
            target = other.folder / "journal" / file.name
            if not target.exists() or target.stat().st_size < file.stat().st_size:
                shutil.copy(file, target)

    views = [hand.todo() for hand in (ida, ola)]
    for view in views:
        assert view["conflicts"] == [
            {"item": "L3", "field": "length_m", "values": view["conflicts"][0]["values"]}
        ]
        assert sorted(view["conflicts"][0]["values"]) == [5.0, 7.0]
        rows = {(row["check"], row["subject"]): row["state"] for row in view["open"]}
        assert rows["label-both-ends", "L3"] == "conflict"
        assert any(subject == "L77" for _, subject in rows)
    assert views[0]["points"] == views[1]["points"]

    ida.does("settle", "L3", "length", "7m")
    ida.does("settle", "label-both-ends", "--at", "L3", "--good")
    view = ida.todo()
    assert view["conflicts"] == []
    assert "conflict" not in {row["state"] for row in view["open"]}
    assert ida.tries("verify")[0] == 0
