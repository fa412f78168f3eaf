"""Water as codes, agencies and plain arithmetic give it."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.water import is_steep, least_l, slope_in_per_ft, water

TABLES = ("water",)

IRC = "IRC P3005.3 (2024), as explained publicly"
IPC = "IPC table 704.1, as adopted by Chicago"
USGS = "USGS, as quoted by a reference site"
COOLPROP = "CoolProp 8.0.0"
FEMA = "FEMA, as quoted by a public utility"
CAMPERS = "a traveller's page: 10 gallons a day for four at most"
HAND = "own check by hand"
GAL, LB, IN, FT = 3.785411784, 0.45359237, 25.4, 0.3048


def _said(name: str, **inputs: float) -> float:
    result = water(**inputs)  # type: ignore[arg-type]
    return next(float(said.split()[0]) for key, said in result.others if name in key)


def checks() -> list[Check]:
    """Every check."""
    falls = [
        near("water", f"{size:g} in pipe by the {rules.upper()}", where,
             lambda s=size, r=rules: slope_in_per_ft(s * IN, r), slope, relative=1e-9)
        for rules, where, rows in (
            ("irc", IRC, ((1.5, 0.25), (2.9, 0.25), (3.0, 0.25), (3.1, 0.125), (4.0, 0.125))),
            ("ipc", IPC, ((1.5, 0.25), (2.4, 0.25), (2.5, 0.25), (2.6, 0.125), (3.0, 0.125),
                          (6.0, 0.125), (7.8, 0.125), (8.0, 0.0625))),
        )
        for size, slope in rows
    ]  # fmt: skip
    return [
        *falls,
        near("water", "10 ft of drain fall 2.5 in", IRC,
             lambda: water(pipe_m=10 * FT, pipe_mm=1.5 * IN).number("least_fall_mm") / IN, 2.5,
             relative=1e-9),
        near("water", "a 1/4 in a foot is about 2 %", IRC,
             lambda: water(pipe_m=1).number("least_fall_mm") / 10, 2.0833, relative=1e-4),
        equal("water", "more than 1/2 in a foot is steep", IRC,
              lambda: (is_steep(FT, 0.49 * IN), is_steep(FT, 0.51 * IN)), (False, True)),
        near("water", "8.3452 lb a gallon at 4 C", COOLPROP,
             lambda: water(tank_l=GAL).number("mass_kg") / LB, 8.3452, relative=1e-6),
        near("water", "100 gal are no lighter than 8.34 lb each", "8.34 lb/gal, common",
             lambda: water(tank_l=100 * GAL).number("mass_kg") / LB, 834, relative=1e-3),
        near("water", "8.33 lb a gallon at 70 F", USGS,
             lambda: _said("at 70 F", tank_l=1000 * GAL) / 1000 / LB, 8.33, relative=1e-4),
        near("water", "62.4 lb a cubic foot", USGS,
             lambda: water(tank_l=28.316846592).number("mass_kg") / LB, 62.4, relative=1e-3),
        near("water", "a gallon a person a day", FEMA, lambda: least_l(3) / GAL, 3.0,
             relative=1e-9),
        near("water", "14 gallons for one person are two weeks", "a preparedness page after FEMA",
             lambda: _said("bare need", people=1, each_l=10, tank_l=14 * GAL), 14, relative=1e-3),
        near("water", "20 gallons are two days for four campers", CAMPERS,
             lambda: _said("care of campers", people=4, each_l=10, tank_l=20 * GAL), 2.0,
             relative=1e-3),
        near("water", "150 l, two people of 15 l: 5 days", HAND,
             lambda: water(2, 15, 150).number("days"), 5.0, relative=1e-9),
        near("water", "a waste tank of 120 l: 4 days", HAND,
             lambda: water(2, 15, 150, 120).number("grey_days"), 4.0, relative=1e-9),
        near("water", "a pump of 10 l/min and 60 W for 30 l: 3 Wh", HAND,
             lambda: water(2, 15, pump_l_min=10, pump_w=60).number("pump_day_wh"), 3.0,
             relative=1e-9),
    ]  # fmt: skip
