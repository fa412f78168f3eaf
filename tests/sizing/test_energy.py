"""The energy of a day beyond the published values."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sizing.fuzzing import answered_share, input_named, unrefused, within
from tracker.errors import BadInput
from tracker.sizing.energy import energy
from tracker.sizing.load import load_of
from tracker.sizing.result import OutOfRange

WATTS = st.floats(0.1, 20000).map(lambda value: round(value, 2))


@pytest.mark.parametrize(
    ("text", "name", "watts", "hours", "duty", "ac", "surge"),
    [
        ("fridge 45W*24h 40%", "fridge", 45, 24, 40, False, 45),
        ("kettle 1200W*0.3h ac surge 1500W", "kettle", 1200, 0.3, 100, True, 1500),
        ("reading lamps 2x5W*3h", "reading lamps", 10, 3, 100, False, 10),
        ("pump 4A*30min", "pump", 48, 0.5, 100, False, 48),
        ("12 V fan: 30W*8h 50%", "12 V fan", 30, 8, 50, False, 30),
        ("45W*10h", "load", 45, 10, 100, False, 45),
    ],
)
def test_a_load_is_read_as_people_write_it(
    text: str, name: str, watts: float, hours: float, duty: float, ac: bool, surge: float
) -> None:
    load = load_of(text, 12)

    assert (load.name, load.ac, load.duty_percent) == (name, ac, duty)
    assert (load.watts_w, load.hours_h, load.surge_w) == pytest.approx((watts, hours, surge))


@pytest.mark.parametrize("text", ["fridge", "fridge 45W", "fridge 24h", "fridge 45*24h", "x 3m*2h"])
def test_a_load_without_power_or_hours_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="--load"):
        load_of(text, 12)


@pytest.mark.parametrize("text", ["x 45W*25h", "x 45kW*1h", "x 45W*1h 120%"])
def test_a_load_outside_a_day_or_a_vehicle_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange):
        load_of(text, 12)


@given(st.text(max_size=60))
def test_any_text_is_a_load_or_is_refused(text: str) -> None:
    try:
        load = load_of(text, 12)
    except BadInput:
        return
    assert load.wh > 0


@given(WATTS, WATTS)
def test_more_load_never_needs_less_battery_or_fewer_panels(one: float, other: float) -> None:
    less, more = (energy((f"x {w}W*10h ac",), sun_h=3) for w in sorted((one, other)))

    for name in ("battery_needed_wh", "panels_needed_w", "inverter_needed_w", "day_wh"):
        assert less.number(name) <= more.number(name)


@given(st.floats(-6.7, 60), st.floats(-6.7, 60))
def test_a_colder_lead_battery_is_never_smaller(one: float, other: float) -> None:
    cold, warm = (
        energy(("x 100W*10h",), chemistry="lead", battery_c=c).number("battery_needed_wh")
        for c in sorted((one, other))
    )

    assert cold >= warm - 1e-9


def test_it_says_what_runs_out_first() -> None:
    load = ("x 100W*10h ac",)

    assert energy(load)["first_out"] == "unknown"
    assert energy(load, battery_wh=1000, inverter_w=150)["first_out"] == "battery"
    assert energy(load, battery_wh=9000, solar_w=100, sun_h=3)["first_out"] == "charge"
    assert energy(load, battery_wh=9000, inverter_w=50)["first_out"] == "inverter"
    assert energy(load, battery_wh=9000, inverter_w=150)["first_out"] == "nothing"


def test_panels_need_sun_hours_and_an_alternator_needs_driving() -> None:
    with pytest.raises(BadInput, match="--sun"):
        energy(("x 1W*1h",), solar_w=100)
    with pytest.raises(BadInput, match="--driving"):
        energy(("x 1W*1h",), alternator_a=30)


def _inputs(rng: random.Random) -> dict[str, Any]:
    drawn: dict[str, Any] = {
        name: within(input_named("energy", name), rng)
        for name in ("volts_v", "days", "battery_c", "sun_h", "driving_h")
    }
    for name in ("battery_wh", "usable_percent", "solar_w", "alternator_a", "inverter_w"):
        drawn[name] = rng.choice((None, within(input_named("energy", name), rng)))
    drawn["load"] = tuple(_load(rng) for _ in range(rng.randint(1, 2)))
    return {**drawn, "chemistry": rng.choice(("lead", "lithium"))}


def _load(rng: random.Random) -> str:
    power = rng.choice((f"{rng.uniform(0.1, 19000):.2f}W", f"{rng.uniform(0.1, 50):.2f}A"))
    tail = rng.choice(("", " 40%", " ac", " ac surge 900W"))
    return f"x {power}*{rng.uniform(0.01, 24):.2f}h{tail}"


def test_random_loads_give_a_result() -> None:
    assert answered_share("energy", _inputs, ("balance_day_wh",)) >= 0.95


def test_random_inputs_outside_are_refused() -> None:
    assert unrefused("energy", _inputs) == []
