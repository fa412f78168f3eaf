"""Conductors chosen, as published tables and worked examples choose them."""

from __future__ import annotations

from tests.sizing.checking import Check, equal
from tracker.sizing.conductor import conductor
from tracker.sizing.copper import cmil_of, least_cmil, stocked
from tracker.sizing.result import Result

TABLES = ("copper", "ampacity", "protection")
FT_M = 0.3048
AMPS = (5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100)
CATALOGUE = "a marine cable maker's 2024 catalogue, page 62"
CHANDLER = "a marine chandlery's 2021 catalogue, page 53"

# Feet of loop: the size for each of AMPS, 24 V and 3 %. Every cell follows from K = 10.75 and the
# SAE areas.
AT_24_V_3 = """10: 18 18 16 14 12 12 10 10 10 8 8 8 6
15: 18 16 14 12 12 10 10 8 8 6 6 6 6
20: 18 14 12 10 10 10 8 6 6 6 6 4 4
25: 16 12 12 10 10 8 6 6 6 4 4 4 4
30: 16 12 10 10 8 8 6 6 4 4 4 2 2
40: 14 10 10 8 6 6 6 4 4 2 2 2 2
50: 12 10 8 6 6 6 4 4 2 2 2 1 1
60: 12 10 8 6 6 4 4 2 2 1 1 1/0 1/0
70: 12 8 6 6 4 4 2 2 1 1 1/0 1/0 2/0
80: 10 8 6 6 4 4 2 2 1 1/0 1/0 2/0 2/0
90: 10 8 6 4 4 2 2 1 1/0 1/0 2/0 2/0 3/0
100: 10 6 6 4 4 2 2 1 1/0 2/0 2/0 3/0 3/0"""


def cells() -> list[tuple[float, float, str]]:
    """Loop in feet, amps and the printed size."""
    found = []
    for line in AT_24_V_3.splitlines():
        feet, sizes = line.split(": ")
        found += [
            (float(feet), float(amps), size) for amps, size in zip(AMPS, sizes.split(), strict=True)
        ]
    return found


def by_rule(amps: float, feet: float, drop_v: float, family: str) -> str:
    """The smallest size of a family by the circular-mil rule alone."""
    needed = least_cmil(amps, feet * FT_M, drop_v)
    return next(wire.key for wire in stocked(family) if cmil_of(wire) >= needed)


def _for(amps: float, feet: float, volts: float, percent: float, **more: object) -> Result:
    return conductor(
        amps,
        round_trip_m=feet * FT_M,
        volts_v=volts,
        drop_percent=percent,
        **more,  # type: ignore[arg-type]
    )


def _beside(result: Result, name: str) -> str:
    return dict(result.others)[name]


def checks() -> list[Check]:
    """All of them."""
    found = [
        equal("conductor", f"24 V 3 %, {feet:g} ft, {amps:g} A", CATALOGUE,
              lambda feet=feet, amps=amps: by_rule(amps, feet, 0.72, "sae"), size)
        for feet, amps, size in cells()
    ]  # fmt: skip
    pump = "a marine dealer's worked example"
    maker = "a wire maker's questions and answers"
    return [
        *found,
        equal("conductor", "10 A pump, 21 ft, 12 V: 12 AWG by the rule", pump,
              lambda: _beside(_for(10, 21, 12, 3), "circular-mil rule alone"), "12 AWG"),
        equal("conductor", "and 10 in SAE", pump,
              lambda: by_rule(10, 21, 0.36, "sae"), "10"),
        equal("conductor", "45 A, 40 ft, 12 V, 10 %: 8 AWG by the rule", maker,
              lambda: _beside(_for(45, 40, 12, 10, insulation="105"), "circular-mil rule alone"),
              "8 AWG"),
        equal("conductor", "50 A, 40 ft, 12 V, 3 %: 2 by the rule", CATALOGUE,
              lambda: by_rule(50, 40, 0.36, "sae"), "2"),
        equal("conductor", "30 A, 40 ft, 12 V, 10 %: 8 by the rule", CHANDLER,
              lambda: by_rule(30, 40, 1.2, "sae"), "8"),
        equal("conductor", "20 A on 12 AWG by the NEC, 75 C", "NEC 240.4(D) via a cable maker",
              lambda: _for(20, 3, 120, 3, rules="nec310", insulation="75")["protection_a"], 20.0),
        equal("conductor", "30 A needs 10 AWG by the NEC, 75 C", "NEC 240.4(D) via a cable maker",
              lambda: _for(30, 3, 120, 3, rules="nec310", insulation="75")["size"], "10 AWG"),
        equal("conductor", "115 A at 75 C is 2 AWG and takes a 110 A device below it",
              "a public page on NEC 240.6(A): 110 A and 125 A bracket 115 A",
              lambda: _for(105, 3, 120, 3, rules="nec310", insulation="75")["protection_a"], 110.0),
        equal("conductor", "no conductor below 16 AWG alone", "ABYC E-11 11.14.1.2 as quoted",
              lambda: _for(0.5, 3, 12, 3)["size"], "16 AWG"),
        equal("conductor", "18 AWG in a sheath", "ABYC E-11 11.14.1.2 as quoted",
              lambda: _for(0.5, 3, 12, 3, sheathed=True)["size"], "18 AWG"),
        equal("conductor", "24 A continuous takes a 30 A device",
              "a public question on NEC 210.20(A)",
              lambda: _for(24, 3, 120, 3, rules="nec310", insulation="75",
                           continuous=True)["protection_a"], 30.0),
    ]  # fmt: skip
