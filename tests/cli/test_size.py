"""``closein size``: what is asked, what is printed, and what is written into an item."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.yard import Yard, check, environment
from tracker.sizing.spec import HELPERS, helper

LAMP = ("size", "conductor", "--amps", "8A", "--one-way", "18ft", "--volts", "12V", "--drop", "3%")

PROBE = """
import sys
from tracker.cli.main import main
main(sys.argv[1:])
loaded = [name for name in sys.modules if name.startswith("tracker.sizing.")]
heavy = [name for name in ("numpy", "textual", "rich", "asyncio") if name in sys.modules]
app = [name for name in sys.modules if name.startswith(("tracker.app", "tracker.build"))]
print("\\nLOADED", *sorted(loaded), "HEAVY", *heavy, "APP", *app)
"""


def test_the_helpers_are_listed(yard: Yard) -> None:
    said = yard.anywhere("size")

    assert said.status == 0
    assert all(name in said.out for name in HELPERS)


def test_the_helpers_are_listed_for_programs(yard: Yard) -> None:
    rows = json.loads(yard.anywhere("size", "--json").out)

    assert [row["name"] for row in rows] == list(HELPERS)


def test_a_size_is_found_outside_any_build(yard: Yard) -> None:
    said = yard.anywhere(*LAMP)

    assert (said.status, said.err) == (0, "")
    assert said.out.startswith("10 AWG, 10 A device")
    for word in ("governs:", "source:", "  ! ", "tables:"):
        assert word in said.out


def test_its_json_has_what_programs_look_for(yard: Yard) -> None:
    said = json.loads(yard.anywhere(*LAMP, "--json").out)

    assert said["size"] == "10 AWG"
    assert 0 < said["drop_v"] < said["drop_allowed_v"]
    assert said["sources"] and said["cautions"] and said["governs"]


def test_amps_and_volts_may_be_bare_since_their_flags_name_the_unit(yard: Yard) -> None:
    bare = [word.removesuffix("A") if word == "8A" else word for word in LAMP]

    assert yard.anywhere(*bare).out == yard.anywhere(*LAMP).out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("size", "conductr"), "did you mean conductor"),
        ((*LAMP, "--one-way", "18"), "needs a unit"),
        (("size", "conductor", "--one-way", "18ft", "--volts", "12V"), "--amps is missing"),
        (("size", "conductor", "--amps", "8A", "--volts", "12V"), "--one-way or --round-trip"),
        ((*LAMP, "--rules", "nec"), "--rules can't be 'nec'"),
        ((*LAMP, "--amps", "800A"), "--amps 800 A is outside 0.05 to 500 A"),
        ((*LAMP, "--bundled", "two"), "whole number"),
        ((*LAMP, "--at", "L1"), "goes with --to"),
        ((*LAMP, "--why", "x"), "goes with --to"),
        ((*LAMP, "--to", "L99"), "L99"),
        ((*LAMP, "--to", "H1"), "can't write into a hole"),
        (("size", "drop", "--circuit", "no.toml"), "no.toml: can't be read"),
        (("size", "drop", "--size", "14", "--amps", "5A", "--one-way", "3m", "--volts", "12V"),
         "needs a unit"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_one_sentence(yard: Yard, words: tuple[str, ...], said: str) -> None:
    assert said in yard.refused(*words)


def test_a_temperature_below_nothing_is_a_value_and_no_option(yard: Yard) -> None:
    said = json.loads(yard.anywhere(*LAMP, "--ambient", "-10C", "--json").out)

    assert said["working_c"] < 0


def test_a_circuit_is_read_from_a_file(yard: Yard, tmp_path: Path) -> None:
    file = tmp_path / "lamps.toml"
    file.write_text(
        'volts = "12 V"\n[[segment]]\nto = "lamp"\nlength = "2 m"\nsize = "14AWG"\nload = "1 A"\n'
    )

    said = json.loads(yard.anywhere("size", "drop", "--circuit", str(file), "--json").out)

    assert said["worst"] == "lamp"
    assert said["lamp.drop_v"] == said["drop_v"] > 0


def test_a_circuit_file_that_is_no_toml_names_the_line(yard: Yard, tmp_path: Path) -> None:
    file = tmp_path / "lamps.toml"
    file.write_text('volts = "12 V"\nsegment = [\n')

    assert f"{file}:" in yard.refused("size", "drop", "--circuit", str(file))


def test_a_result_is_written_into_a_run_as_one_act(yard: Yard) -> None:
    said = yard.saved(*LAMP, "--to", "L1")

    run = yard.session.names.find("L1")
    assert "sized by conductor" in said
    assert (run.fields["gauge"], run.fields["protection_a"]) == ("10 AWG", 10.0)
    record = run.fields["sized"]
    assert record["helper"] == "conductor"
    assert record["inputs"] == {
        "load_a": "8A", "one_way_m": "18ft", "volts_v": "12V", "drop_percent": "3%",
    }  # fmt: skip
    assert record["figures"]["size"] == "10 AWG"
    assert record["table_version"]


def test_a_run_takes_on_what_it_was_sized_for_where_it_did_not_say(yard: Yard) -> None:
    yard.saved("item", "add", "run", "L8", "load=6A")
    yard.saved("size", "conductor", "--amps", "8", *LAMP[4:], "--to", "L8")
    yard.saved("item", "add", "run", "L9")
    yard.saved("size", "conductor", "--amps", "8", *LAMP[4:], "--to", "L9")

    said = yard.session.names.find("L8").fields
    told = yard.session.names.find("L9").fields
    assert (said["load_a"], told["load_a"]) == (6.0, 8.0)
    assert (told["volts_v"], told["length_m"]) == (12.0, pytest.approx(5.4864))
    assert told["drop_max_pct"] == 3.0
    rows = json.loads(yard.run("runs", "--json").out)["runs"]
    assert {row["run"]: row["verdict"] for row in rows}["L9"] == "ok"


@pytest.mark.parametrize(
    ("stated", "words"),
    [
        ("load=30A", "L8 says load 30 A, not 8 A"),
        ("length=9m", "L8 says length 9 m, not 5.486 m"),
        ("volts=6V", "L8 says volts 6 V, not 12 V"),
    ],
)
def test_a_run_that_says_more_than_it_was_sized_for_is_named(
    yard: Yard, stated: str, words: str
) -> None:
    yard.saved("item", "add", "run", "L8", stated)

    assert words in " ".join(yard.saved(*LAMP, "--to", "L8").split())


def test_a_run_that_says_what_it_was_sized_for_is_let_be(yard: Yard) -> None:
    yard.saved("item", "add", "run", "L8", "load=8A", "length=5.5m", "volts=12V")

    assert " says " not in yard.saved(*LAMP, "--to", "L8")


def test_undo_takes_the_size_and_its_record_back_together(yard: Yard) -> None:
    yard.saved(*LAMP, "--to", "L1")

    yard.saved("undo")

    run = yard.session.names.find("L1")
    assert not {"gauge", "protection_a", "sized"} & run.fields.keys()


def test_the_item_shows_what_it_was_sized_with(yard: Yard) -> None:
    yard.saved(*LAMP, "--to", "L1")

    said = yard.run("item", "show", "L1").out

    assert "by conductor from load_a 8A, one_way_m 18ft" in said


def test_with_json_the_act_and_the_result_come_in_one(yard: Yard) -> None:
    said = json.loads(yard.run(*LAMP, "--to", "L1", "--json").out)

    assert said["size"] == "10 AWG"
    assert said["id"] and "gauge 10 AWG" in said["saved"]


def test_what_no_conductor_does_is_not_written(yard: Yard) -> None:
    words = ("size", "conductor", "--amps", "400A", "--one-way", "6m", "--volts", "12V")

    assert "there is no size to write" in yard.refused(*words, "--to", "L1")


def test_a_reading_becomes_the_limits_of_a_check(yard: Yard) -> None:
    limit = {"max": 1.0, "unit": "ohm"}
    row = check("loop-ohm", "run", "measure", limit=limit)
    yard.do(
        lambda session: [
            {"f": "item.added", "id": row["id"], "kind": "check", "slug": "loop-ohm",
             "fields": row["fields"]}
        ]
    )  # fmt: skip

    yard.saved("size", "reading", "--size", "2.5mm2", "--one-way", "6m", "--to", "loop-ohm")

    found = yard.session.names.find("loop-ohm").fields
    assert found["limit_min"] == pytest.approx(0.8 * 0.012 * 7.98, rel=1e-3)
    assert found["limit_max"] == pytest.approx(1.2 * 0.012 * 7.98, rel=1e-3)
    assert found["sized"]["helper"] == "reading"


def test_a_check_of_another_unit_takes_no_limits_in_ohms(yard: Yard) -> None:
    words = ("size", "reading", "--size", "2.5mm2", "--one-way", "6m", "--to")

    assert "is measured in m" in yard.refused(*words, "lead-length")
    assert "asks for no measured value" in yard.refused(*words, "hole-lined")


def test_a_buried_run_is_resized_only_with_a_reason(yard: Yard) -> None:
    yard.all_good("port")
    yard.saved("release", "pre-foam", "--zone", "port", "--second", "Ola")
    yard.saved("close", "pre-foam", "--zone", "port")

    assert "needs a reason" in yard.refused(*LAMP, "--to", "L1")
    yard.saved(*LAMP, "--to", "L1", "--why", "pulled again through the chase")


@pytest.mark.parametrize("name", HELPERS)
def test_the_help_of_each_helper_says_its_inputs_and_fits_the_width(yard: Yard, name: str) -> None:
    said = yard.anywhere("size", name, "--help")

    assert said.status == 0
    assert all(each.flag in said.out for each in helper(name).inputs)
    assert max(map(len, said.out.splitlines())) <= 80


def _loaded(*words: str, at: Path) -> tuple[set[str], list[str], list[str]]:
    done = subprocess.run(
        [sys.executable, "-c", PROBE, *words],
        cwd=at,
        env=environment(),
        capture_output=True,
        text=True,
        check=True,
    )
    line = done.stdout.splitlines()[-1].removeprefix("LOADED")
    sizing, rest = line.split("HEAVY")
    heavy, app = rest.split("APP")
    return set(sizing.split()), heavy.split(), app.split()


def test_one_helper_loads_no_other_and_nothing_heavy(tmp_path: Path) -> None:
    sizing, heavy, app = _loaded(*LAMP, at=tmp_path)

    assert "tracker.sizing.conductor" in sizing
    others = {f"tracker.sizing.{module}" for module, _ in HELPERS.values()}
    assert sizing & others == {"tracker.sizing.conductor"}
    assert (heavy, app) == ([], [])


def test_the_list_of_helpers_loads_none(tmp_path: Path) -> None:
    sizing, heavy, app = _loaded("size", at=tmp_path)

    assert not sizing & {f"tracker.sizing.{module}" for module, _ in HELPERS.values()}
    assert (heavy, app) == ([], [])


def _margin_check(yard: Yard) -> None:
    row = check("above-dew", "zone", "measure", limit={"min": 3.0, "unit": "K"})
    yard.do(
        lambda session: [
            {"f": "item.added", "id": row["id"], "kind": "check", "slug": "above-dew",
             "fields": row["fields"]}
        ]
    )  # fmt: skip


@pytest.mark.parametrize(("surface", "margin_k"), [("14C", 3.9), ("8C", -2.1)])
def test_a_margin_becomes_what_a_check_measured(yard: Yard, surface: str, margin_k: float) -> None:
    _margin_check(yard)

    yard.saved("size", "dewpoint", "--air", "18C", "--humidity", "60%", "--surface", surface,
               "--to", "above-dew", "--at", "port")  # fmt: skip

    build, names = yard.session.build, yard.session.names
    port = names.find("port").id
    found = [row for (_, subject), row in build.answers.items() if subject == port]
    assert found[0][0].value == pytest.approx(margin_k, abs=0.06)
    record = names.find("above-dew").fields["sized"]
    assert (record["at"], record["inputs"]["humidity_percent"]) == ("port", "60%")


def test_large_figures_are_written_out(yard: Yard) -> None:
    said = yard.anywhere(*LAMP)

    assert "10383 cmil" in said.out
    assert not any("e+0" in line for line in said.out.splitlines() if line.startswith("  area"))
