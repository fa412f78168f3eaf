"""Dew points as tables, charts and other programs give them."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.dewpoint import dew_point_c, dewpoint, point_c, rule_k, saturation_pa

TABLES = ("dewpoint",)

PSYCHROLIB = "psychrolib 2.5.0, GetTDewPointFromRelHum"
COOLPROP = "CoolProp 8.0.0, HAPropsSI D from T and R at 101325 Pa"
WMO = "Magnus formula with the WMO constants, worked out apart"
ISO = "ISO 13788 formula, from memory, unverified, worked out apart"
CHART = "a coating supplier's dew point calculation chart (F, whole degrees)"
# Air (C), humidity (%), dew or frost point (C) by psychrolib, CoolProp, Magnus (WMO), ISO 13788.
POINTS = (
    (20, 50, 9.272, 9.274, 9.255, 9.269),
    (20, 60, 12.007, 12.009, 11.995, 12.004),
    (20, 70, 14.367, 14.368, 14.359, 14.364),
    (25, 50, 13.864, 13.867, 13.852, 13.857),
    (25, 60, 16.701, 16.704, 16.693, 16.695),
    (15, 65, 8.482, 8.483, 8.470, 8.481),
    (30, 70, 23.928, 23.931, 23.927, 23.923),
    (10, 50, 0.063, 0.064, 0.041, 0.071),
    (5, 90, 3.498, 3.499, 3.495, 3.500),
    (-5, 70, -9.108, -9.109, -9.629, -9.102),
)
# Air (F), humidity (%), dew point (F) printed.
CHARTED = ((70, 65, 57), (60, 60, 45), (80, 50, 59), (50, 80, 44), (90, 70, 78), (40, 90, 37))


def _f(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def _saturation() -> list[Check]:
    """Within the 0.3 % by which the coefficients differ from the tables."""
    tables = "ASHRAE Fundamentals 2017 chapter 1 table 3, by the tests of psychrolib"
    rows = ((-20, 103.24), (-5, 401.74), (5, 872.6), (25, 3169.7), (50, 12351.3))
    return [
        near("dewpoint", f"saturation at {air} C", tables, lambda a=air: saturation_pa(a), pascal,
             relative=0.003)
        for air, pascal in rows
    ]  # fmt: skip


def checks() -> list[Check]:
    """Every check."""
    found = []
    for air, humidity, psychrolib, coolprop, wmo, iso in POINTS:
        at = f"{air} C, {humidity} %"
        found += [
            near("dewpoint", at, PSYCHROLIB, lambda a=air, h=humidity: dew_point_c(a, h),
                 psychrolib, absolute=0.03),
            near("dewpoint", at, COOLPROP, lambda a=air, h=humidity: dew_point_c(a, h),
                 coolprop, absolute=0.03),
            near("dewpoint", f"{at} over water", WMO,
                 lambda a=air, h=humidity: point_c(a, h, "wmo", None), wmo, absolute=0.002),
            near("dewpoint", at, ISO,
                 lambda a=air, h=humidity: point_c(a, h, "iso-water", "iso-ice"), iso,
                 absolute=0.002),
        ]  # fmt: skip
    for air, humidity, printed in CHARTED:
        found.append(
            near(
                "dewpoint",
                f"{air} F, {humidity} %",
                CHART,
                lambda a=air, h=humidity: dew_point_c(_f(a), h) * 1.8 + 32,
                printed,
                absolute=1.3,  # the chart reads up to a degree low
            )
        )
    return [
        *found,
        *_saturation(),
        near("dewpoint", "30 C and 55 % have it at 20 C", "a coating maker's glossary",
             lambda: dew_point_c(30, 55), 20, absolute=0.5),
        near("dewpoint", "16 C and 71 % have it at 11 C", "a works guide to painting, example",
             lambda: dew_point_c(16, 71), 11, absolute=0.5),
        near("dewpoint", "75 F and 35 % have it at 45 F", "a coating maker's table",
             lambda: dew_point_c(_f(75), 35) * 1.8 + 32, 45, absolute=0.6),
        equal("dewpoint", "steel at 13 C is not painted in air of 16 C and 71 %",
              "a works guide to painting, example",
              lambda: dewpoint(16, 71, 13)["passes"], False),
        equal("dewpoint", "steel at 19 C is painted where the dew point is 15 C",
              "a works guide to painting, example",
              lambda: dewpoint(21, 68.5, 19)["passes"], True),
        equal("dewpoint", "no coating below 62 F in air of 70 F and 65 %", CHART,
              lambda: (dewpoint(_f(70), 65, _f(62.7), "5f")["passes"],
                       dewpoint(_f(70), 65, _f(61.0), "5f")["passes"]), (True, False)),
        near("dewpoint", "margin asked by coating work", "a galvanizer's manual, section 13",
             lambda: rule_k("3c"), 3.0, absolute=1e-9),
        near("dewpoint", "margin asked by an adhesive maker's chart (F)",
             "a dew point chart for adhesives and coatings", lambda: rule_k("5f") * 1.8, 5.0,
             absolute=1e-9),
    ]  # fmt: skip
