"""A circuit with branches against an independent solution of its nodes."""

from __future__ import annotations

import random
import tomllib
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.errors import BadInput
from tracker.sizing.circuit import SOURCE, Segment, segments_of, solve
from tracker.sizing.copper import ohm_per_m, stocked
from tracker.sizing.drop import drop

COPPER_C = 45.0
LAMPS = """
volts = "12 V"
[[segment]]
to = "lamp 1"
length = "2 m"
size = "14AWG"
load = "0.8 A"
[[segment]]
to = "lamp 2"
length = "6ft"
size = "2.5mm2"
load = "800mA"
[[segment]]
from = "lamp 1"
to = "step lamp"
length = "3 m"
size = "16AWG"
return = "chassis"
load = "0.4 A"
"""


def _tree(rng: random.Random) -> list[Segment]:
    """A random circuit, some of it doubled, some with a chassis return, some without a load."""
    places, found = [SOURCE], []
    wires = [wire for family in ("awg", "sae", "mm2") for wire in stocked(family)]
    for number in range(rng.randint(1, 25)):
        far, chassis = f"n{number}", rng.random() < 0.3
        found.append(
            Segment(
                rng.choice(places),
                far,
                rng.uniform(0.05, 20),
                rng.choice(wires),
                rng.choice((0.0, rng.uniform(0.01, 15))),
                rng.randint(1, 3) if chassis else 2 * rng.randint(1, 3),
                chassis,
            )
        )
        places.append(far)
    return found


def _nodal(segments: list[Segment]) -> dict[str, float]:
    """Drops by the conductance matrix of the circuit, solved as a set of equations."""
    place = {segment.far: number for number, segment in enumerate(segments)}
    matrix = np.zeros((len(segments), len(segments)))
    drawn = np.array([segment.load_a for segment in segments])
    for segment in segments:
        each = ohm_per_m(segment.wire, COPPER_C) * segment.length_m
        ways = segment.conductors if segment.chassis else segment.conductors / 2
        siemens = ways / (each if segment.chassis else 2 * each)
        far = place[segment.far]
        matrix[far, far] += siemens
        if segment.near != SOURCE:
            near = place[segment.near]
            matrix[near, near] += siemens
            matrix[near, far] -= siemens
            matrix[far, near] -= siemens
    drops = np.linalg.solve(matrix, drawn)
    return {segment.far: float(drops[place[segment.far]]) for segment in segments}


@settings(max_examples=300)
@given(st.integers(0, 2**32))
def test_every_drop_is_that_of_the_nodal_solution(seed: int) -> None:
    segments = _tree(random.Random(seed))

    drops, currents, losses = solve(segments, copper_c=COPPER_C)

    expected = _nodal(segments)
    for segment in segments:
        assert drops[segment.far] == pytest.approx(expected[segment.far], rel=1e-6, abs=1e-9)
    # What the source gives beyond what the loads take is what the wires lose.
    given_w = sum(segment.load_a * drops[segment.far] for segment in segments)
    assert sum(losses) == pytest.approx(given_w, rel=1e-6, abs=1e-9)
    assert min(currents) >= 0


@given(st.integers(0, 2**32), st.floats(0.1, 10))
@settings(max_examples=100)
def test_a_load_more_never_lowers_a_drop(seed: int, more_a: float) -> None:
    from dataclasses import replace

    rng = random.Random(seed)
    segments = _tree(rng)
    before, _, _ = solve(segments)
    at = rng.randrange(len(segments))
    segments[at] = replace(segments[at], load_a=segments[at].load_a + more_a)

    after, _, _ = solve(segments)

    assert all(after[place] >= before[place] * (1 - 1e-12) for place in before)


def test_a_circuit_from_a_file_says_each_load() -> None:
    found = drop(circuit=tomllib.loads(LAMPS))

    assert found["current_a"] == pytest.approx(2.0)
    drops = {name: found.number(f"{name}.drop_v") for name in ("lamp 1", "lamp 2", "step lamp")}
    assert min(drops, key=drops.__getitem__) == "lamp 1"
    assert found["drop_v"] == drops[str(found["worst"])] == max(drops.values())
    assert found["drop_percent"] == pytest.approx(100 * found.number("drop_v") / 12)
    assert found.number("loss_w") > 0
    assert any("chassis" in caution for caution in found.cautions)


def test_one_segment_is_the_run_itself() -> None:
    table = {"volts": "12 V", "segment": [{"length": "5 m", "size": "12AWG", "load": "6 A"}]}

    found = drop(circuit=table)

    assert found["drop_v"] == pytest.approx(drop("12AWG", 6, 5, volts_v=12)["drop_v"])


def test_doubled_conductors_halve_the_drop_and_share_the_current() -> None:
    def one(count: int) -> float:
        row = {"length": "5 m", "size": "12AWG", "load": "20 A", "conductors": count}
        return drop(circuit={"volts": "12 V", "segment": [row]}, copper_c=20).number("drop_v")

    assert one(4) == pytest.approx(one(2) / 2)


def _row(**more: Any) -> dict[str, Any]:
    return {"to": "a", "length": "2 m", "size": "14AWG", "load": "1 A", **more}


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ({}, "volts is a text"),
        ({"volts": 12, "segment": [_row()]}, "volts is a text"),
        ({"volts": "12", "segment": [_row()]}, "needs a unit"),
        ({"volts": "12 V"}, "no \\[\\[segment\\]\\]"),
        ({"volts": "12 V", "segment": []}, "no \\[\\[segment\\]\\]"),
        ({"volts": "12 V", "segment": ["x"]}, "segment 1 is no table"),
        ({"volts": "12 V", "segment": [_row()], "segmnt": []}, "did you mean segment"),
        ({"volts": "900 V", "segment": [_row()]}, "outside 1 to 600 V"),
        ({"volts": "12 V", "segment": [_row(lenth="2 m")]}, "did you mean length"),
        ({"volts": "12 V", "segment": [_row(length="2")]}, "'a'\\): length: .*needs a unit"),
        ({"volts": "12 V", "segment": [_row(length="-2 m")]}, "outside 0.01 to 500 m"),
        ({"volts": "12 V", "segment": [_row(size="14")]}, "'a'\\): .*needs a unit"),
        ({"volts": "12 V", "segment": [_row(size=14)]}, "needs a size"),
        ({"volts": "12 V", "segment": [_row(load="2000 A")]}, "outside 0 to 1000 A"),
        ({"volts": "12 V", "segment": [_row(conductors=3)]}, "even number"),
        ({"volts": "12 V", "segment": [_row(conductors=True)]}, "whole number"),
        ({"volts": "12 V", "segment": [{**_row(), "return": "sea"}]}, "wire or chassis"),
        ({"volts": "12 V", "segment": [{**_row(), "from": "b"}]}, "nothing before ends there"),
        ({"volts": "12 V", "segment": [_row(), _row()]}, "reached already"),
        ({"volts": "12 V", "segment": [_row(), {**_row(to="source")}]}, "reached already"),
        ({"volts": "12 V", "segment": [_row(to="")]}, "is a name"),
        ({"volts": "12 V", "segment": [_row(load="0 A")]}, "no segment of the circuit has a load"),
    ],
)
def test_what_is_wrong_with_a_circuit_is_said_in_a_sentence(
    table: dict[str, Any], said: str
) -> None:
    with pytest.raises(BadInput, match=said):
        drop(circuit=table)


def test_a_circuit_brings_its_own_sizes() -> None:
    with pytest.raises(BadInput, match="brings its own"):
        drop("14AWG", 5, 3, volts_v=12, circuit=tomllib.loads(LAMPS))


def test_random_mappings_never_end_in_anything_but_an_answer_or_a_sentence() -> None:
    rng = random.Random(7)
    keys = ["from", "to", "length", "size", "load", "conductors", "return", "x"]
    values: list[Any] = [
        "2 m", "14AWG", "1 A", "a", "b", "source", "wire", "chassis", "", "nan m", "1e9 m", 2, -1,
        0, 3.5, True, None, [], {}, "12 V", "\x1b[2J",
    ]  # fmt: skip
    for _ in range(5000):
        rows: Any = [
            {key: rng.choice(values) for key in rng.sample(keys, rng.randint(0, 6))}
            for _ in range(rng.randint(0, 4))
        ]
        table = {
            "volts": rng.choice(["12 V", 12, "x", None]),
            "segment": rng.choice([rows, rows, rows, "x", None, {}]),
        }
        try:
            found = drop(circuit=table)
        except BadInput as error:
            assert str(error).isprintable()
        else:
            assert found.number("drop_v") >= 0


def test_a_long_chain_is_solved_in_order() -> None:
    rows = [_row(to=f"n{number}", length="0.1 m", load="0.1 A") for number in range(200)]

    _, segments = segments_of({"volts": "24 V", "segment": rows})
    drops, currents, _ = solve(segments)

    assert currents[0] == pytest.approx(20.0)
    assert list(drops.values()) == sorted(drops.values())
