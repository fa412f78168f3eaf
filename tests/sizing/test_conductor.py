"""The conductor beyond the published values: its order, its limits, and what is refused."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tests.sizing.reference_conductor import cells
from tracker.errors import BadInput
from tracker.sizing.ampacity import RULES
from tracker.sizing.conductor import INSULATIONS, conductor
from tracker.sizing.copper import cmil_of, stocked, wire_of
from tracker.sizing.result import OutOfRange, Result, as_json

loads = st.floats(0.05, 500)
lengths = st.floats(0.1, 100)
volts = st.sampled_from([12.0, 24.0, 48.0, 120.0])
rules_of = st.sampled_from(RULES)
families = st.sampled_from(["awg", "sae", "mm2"])


def _area(result: Result) -> float:
    """The area chosen; more than any where no conductor does."""
    area = result["area_mm2"]
    return float("inf") if area is None else float(area)


@settings(max_examples=150)
@given(loads, lengths, lengths, volts, rules_of, families)
def test_a_longer_run_is_never_thinner(
    load: float, one: float, other: float, volt: float, rules: str, family: str
) -> None:
    near, far = sorted((one, other))

    thin, thick = (
        conductor(load, length, volts_v=volt, rules=rules, gauge=family) for length in (near, far)
    )

    assert _area(thin) <= _area(thick)


@settings(max_examples=150)
@given(loads, loads, lengths, volts, rules_of, families, st.booleans())
def test_more_load_never_takes_a_thinner_conductor_or_a_smaller_device(
    one: float,
    other: float,
    length: float,
    volt: float,
    rules: str,
    family: str,
    continuous: bool,
) -> None:
    light, heavy = (
        conductor(load, length, volts_v=volt, rules=rules, gauge=family, continuous=continuous)
        for load in sorted((one, other))
    )

    assert _area(light) <= _area(heavy)
    if light["protection_a"] is not None and heavy["protection_a"] is not None:
        assert light.number("protection_a") <= heavy.number("protection_a")


@settings(max_examples=100)
@given(st.floats(0.05, 200), lengths, st.floats(-40, 70), st.floats(-40, 70), rules_of)
def test_a_hotter_place_never_takes_a_thinner_conductor(
    load: float, length: float, one: float, other: float, rules: str
) -> None:
    cold, hot = (
        conductor(load, length, volts_v=24, ambient_c=ambient, rules=rules)
        for ambient in sorted((one, other))
    )

    assert _area(cold) <= _area(hot)


@settings(max_examples=100)
@given(st.floats(0.05, 200), lengths, st.integers(1, 60), st.integers(1, 60), rules_of)
def test_more_conductors_together_never_take_a_thinner_one(
    load: float, length: float, one: int, other: int, rules: str
) -> None:
    few, many = (
        conductor(load, length, volts_v=24, bundled=bundled, rules=rules)
        for bundled in sorted((one, other))
    )

    assert _area(few) <= _area(many)


@settings(max_examples=100)
@given(st.floats(0.05, 200), lengths, rules_of, families)
def test_foam_never_takes_a_thinner_conductor(
    load: float, length: float, rules: str, family: str
) -> None:
    bare = conductor(load, length, volts_v=24, rules=rules, gauge=family)
    buried = conductor(load, length, volts_v=24, rules=rules, gauge=family, in_foam=True)

    assert _area(bare) <= _area(buried)


@settings(max_examples=150)
@given(loads, lengths, volts, st.floats(0.5, 15), rules_of, families, st.booleans())
def test_what_is_chosen_keeps_every_limit(
    load: float,
    length: float,
    volt: float,
    percent: float,
    rules: str,
    family: str,
    continuous: bool,
) -> None:
    found = conductor(
        load, length, volts_v=volt, drop_percent=percent, rules=rules, gauge=family,
        continuous=continuous, insulation="75",
    )  # fmt: skip
    if found["size"] is None:
        return

    needed = load * (1.25 if continuous else 1.0)
    assert found.number("drop_v") <= volt * percent / 100 * (1 + 1e-6)
    assert needed <= found.number("protection_a") * (1 + 1e-6)
    assert found.number("protection_a") <= found.number("ampacity_a") * (1 + 1e-6)
    assert found.number("area_cmil") >= found.number("rule_cmil") * (1 - 1e-9)


@pytest.mark.parametrize(("feet", "amps", "size"), cells())
def test_the_size_is_never_below_the_circular_mil_rule(feet: float, amps: float, size: str) -> None:
    found = conductor(amps, round_trip_m=feet * 0.3048, volts_v=24, insulation="105")

    awg = {wire.key: wire for wire in stocked("awg")}
    below = [wire for wire in awg.values() if cmil_of(wire) < cmil_of(awg[size])]
    # The printed size is by SAE areas, so that plain AWG may be one size less, never two.
    least = max(map(cmil_of, below[:-1]), default=0.0)
    assert cmil_of(wire_of(str(found["size"]))) > least


def test_what_governed_is_what_the_next_smaller_size_fails() -> None:
    assert "voltage drop" in conductor(8, 5.4864, volts_v=12).governs
    assert "ampacity" in conductor(60, 0.5, volts_v=24).governs
    assert "least size" in conductor(0.1, 0.5, volts_v=24).governs


def test_a_device_that_does_not_fit_below_the_ampacity_takes_the_next_size() -> None:
    found = conductor(41, 0.3, volts_v=48, insulation="60", bundled=3)

    assert found.number("ampacity_a") >= found.number("protection_a") >= 41


def test_where_no_conductor_does_it_offers_parallel_and_a_higher_voltage() -> None:
    found = conductor(400, 5.5, volts_v=12)

    assert found["size"] is None
    assert found["drop_v"] is None
    assert found.number("parallel_count") >= 2
    assert found["higher_v"] == 24.0
    assert "no single conductor does" in found.governs
    assert [name for name, _ in found.others] == ["in parallel", "at a higher voltage"]


def test_a_chassis_return_counts_the_wire_alone_and_says_so() -> None:
    both = conductor(8, 5.0, volts_v=12)
    chassis = conductor(8, 5.0, volts_v=12, return_path="chassis")

    assert chassis.number("loop_m") == 5.0
    assert _area(chassis) <= _area(both)
    assert any("chassis" in caution for caution in chassis.cautions)


@pytest.mark.parametrize(
    "given",
    [
        {"volts_v": 12},
        {"one_way_m": 5, "round_trip_m": 10, "volts_v": 12},
        {"round_trip_m": 10, "volts_v": 12, "return_path": "chassis"},
        {"one_way_m": 5, "volts_v": 12, "rules": "no such"},
        {"one_way_m": 5, "volts_v": None},
    ],
)
def test_what_does_not_go_together_is_refused(given: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        conductor(8, **given)


def test_a_load_out_of_range_names_the_range() -> None:
    with pytest.raises(OutOfRange, match=r"--amps 501 A is outside 0.05 to 500 A"):
        conductor(501, 5, volts_v=12)


def test_insulation_that_is_not_stated_is_taken_as_the_lowest_and_said_so() -> None:
    unknown, lowest = conductor(8, 5, volts_v=12), conductor(8, 5, volts_v=12, insulation="60")

    assert unknown.figures == lowest.figures
    assert any("not stated" in caution for caution in unknown.cautions)
    assert not any("not stated" in caution for caution in lowest.cautions)


def test_mains_voltage_is_for_a_licensed_electrician() -> None:
    assert "licensed" in conductor(8, 5, volts_v=120).cautions[0]
    assert "licensed" not in conductor(8, 5, volts_v=12).cautions[0]


def test_a_big_bank_is_given_an_interrupt_rating() -> None:
    found = conductor(150, 1, volts_v=12, insulation="105", cranking_a=1200)

    assert found["interrupt_a"] == 5000.0
    assert any("blade fuse" in caution for caution in found.cautions)


def test_the_other_rule_sets_are_shown_beside_it() -> None:
    names = [name for name, _ in conductor(20, 5, volts_v=12).others]

    assert {"NEC 310.16 (buildings)", "ISO 10133 (small craft)", "in sae sizes"} <= set(names)


def test_its_json_has_the_figures_by_name() -> None:
    said = as_json(conductor(8, 5.4864, volts_v=12))

    assert {
        "size", "area_mm2", "drop_v", "drop_percent", "ampacity_a", "governs", "protection_a",
        "sources", "cautions",
    } <= said.keys()  # fmt: skip
    assert said["size"] == "10 AWG"


def _make(rng: random.Random) -> dict[str, Any]:
    def one(name: str) -> float | int:
        return within(input_named("conductor", name), rng)

    length = rng.choice(("one_way_m", "round_trip_m"))
    return {
        "load_a": one("load_a"),
        length: one(length),
        "volts_v": one("volts_v"),
        "drop_percent": one("drop_percent"),
        "return_path": "chassis" if length == "one_way_m" and rng.random() < 0.2 else "wire",
        "insulation": rng.choice((None, *INSULATIONS)),
        "ambient_c": one("ambient_c"),
        "bundled": one("bundled"),
        "in_foam": rng.random() < 0.3,
        "continuous": rng.random() < 0.3,
        "sheathed": rng.random() < 0.3,
        "rules": rng.choice(RULES),
        "gauge": rng.choice(("awg", "sae", "mm2")),
        "cranking_a": one("cranking_a") if rng.random() < 0.2 else None,
    }


def test_random_inputs_in_range_are_answered() -> None:
    assert answered_share("conductor", _make, signed=("working_c",)) >= 0.95


def test_random_inputs_out_of_range_are_refused() -> None:
    assert unrefused("conductor", _make) == []
