from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.yard import Yard


def log_file(yard: Yard) -> Path:
    (file,) = (yard.folder / "journal").glob("*.log")
    return file


def damage(yard: Yard, line: int) -> None:
    """Change one sign in the body of a line (from 1)."""
    file = log_file(yard)
    lines = file.read_bytes().splitlines(keepends=True)
    lines[line - 1] = lines[line - 1].replace(b'"facts"', b'"fakts"')
    file.write_bytes(b"".join(lines))


def test_a_whole_record_is_said_to_be_whole(yard: Yard) -> None:
    before = yard.files()

    said = yard.run("verify")

    assert (said.status, said.err) == (0, "")
    assert "Heron: 5 acts in 1 file, whole" in said.out
    assert yard.files() == before


def test_damage_is_named_by_file_and_line_and_left_as_it_is(yard: Yard) -> None:
    damage(yard, 2)
    before = yard.files()

    said = yard.run("verify")

    out = " ".join(said.out.split())
    assert (said.status, said.err) == (1, "")
    assert f"damaged: journal/{log_file(yard).name}:2:" in out
    assert "4 acts in 1 file, not whole" in out
    assert yard.files() == before


def test_a_line_that_was_cut_off_is_a_notice(yard: Yard) -> None:
    file = log_file(yard)
    file.write_bytes(file.read_bytes() + b"0123 half a li")
    before = yard.files()

    said = yard.run("verify")

    assert said.status == 0
    assert said.out.startswith(f"notice: journal/{file.name}:6: ")
    assert yard.files() == before


def test_json_lists_every_fault(yard: Yard) -> None:
    damage(yard, 3)

    said = yard.run("verify", "--json")
    found = json.loads(said.out)

    assert said.status == 1
    assert found["whole"] is False
    assert (found["faults"][0]["kind"], found["faults"][0]["line"]) == ("damaged", 3)


def test_a_build_nobody_wrote_in_is_whole(
    yard: Yard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from tracker.app.folder import Marked, create

    create(tmp_path / "new", Marked("n" * 12, "New", ""))

    said = yard.anywhere("--build", str(tmp_path / "new"), "verify")

    assert said.status == 0
    assert "New: 0 acts in 0 files, whole" in said.out
    assert not (tmp_path / "new" / "journal").exists()


def test_a_reservation_stands_until_it_is_accepted_by_name_with_a_reason(yard: Yard) -> None:
    damage(yard, 4)
    listed = yard.run("accept")
    key = listed.out.split(":")[0].strip()
    warned = yard.run("log").err

    assert key.startswith("damaged-") and key in warned
    assert "Reservations: no release while one stands (1)" in yard.run("todo").out
    assert "needs a reason" in yard.run("accept", key).err
    assert "no reservation is called 'damaged-x'" in yard.run("accept", "damaged-x").err

    saved = yard.run("accept", "damaged", "--why", "runs are in the notebook")

    assert saved.status == 0
    assert f"accepted the reservation {key}: runs are in the notebook" in " ".join(
        saved.out.split()
    )
    assert yard.run("accept").out == "no reservation stands\n"
    assert "(accepted: runs are in the notebook)" in " ".join(yard.run("verify").out.split())
    assert yard.run("verify").status == 1


def test_there_is_nothing_to_accept_in_a_whole_record(yard: Yard) -> None:
    assert "no reservation stands" in yard.refused("accept", "gap-1", "--why", "x")
    assert "which reservation?" in yard.refused("accept", "--why", "x")
