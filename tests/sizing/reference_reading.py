"""What meters show on known runs, as published."""

from __future__ import annotations

from tests.sizing.checking import Check, near
from tracker.sizing.reading import reading
from tracker.sizing.result import Result

TABLES = ("reading", "copper")
GUIDE = "an electricians' forum after the On-Site Guide, table 11"
FT_M = 0.3048


def _one(size: str, one_way_m: float, **more: object) -> Result:
    """One conductor alone."""
    return reading(size, one_way_m, return_path="chassis", **more)  # type: ignore[arg-type]


def checks() -> list[Check]:
    """All of them."""
    return [
        near("reading", "22 m of 2.5 mm2", GUIDE,
             lambda: _one("2.5mm2", 22, made="class-2").number("loop_ohm"), 0.163, absolute=0.0005),
        near("reading", "22 m of 1.5 mm2", GUIDE,
             lambda: _one("1.5mm2", 22, made="class-2").number("loop_ohm"), 0.266, absolute=0.0005),
        near("reading", "22 m of 2.5 and 1.5 mm2 in one loop", GUIDE,
             lambda: sum(_one(size, 22, made="class-2").number("loop_ohm")
                         for size in ("2.5mm2", "1.5mm2")), 0.429, absolute=0.001),
        near("reading", "1000 ft of 10 AWG solid at 20 C", "HyperPhysics, after Floyd",
             lambda: reading("10AWG", round_trip_m=1000 * FT_M, made="solid").number("loop_ohm"),
             0.9989, relative=0.002),
        near("reading", "100 m of 16 mm2 class 5", "IEC 60228 via etechnik-synergie.com",
             lambda: _one("16mm2", 100).number("loop_ohm"), 0.121, relative=0.001),
        near("reading", "500 ft of 16 AWG warmed to 75 C",
             "NEC chapter 9 table 8 via electrician2.com",
             lambda: _one("16AWG", 500 * FT_M, copper_c=75.0).number("loop_ohm"), 4.99 / 2,
             relative=0.001),
        near("reading", "25 ft of 1 AWG bare stranded at 20 C",
             "US Army course EN01136: 0.12617 ohm per 1000 ft",
             lambda: _one("1AWG", 25 * FT_M).number("loop_ohm"), 0.12617 / 40, relative=0.006),
        near("reading", "drop of 20 A over 107 ft of 6 AWG aircraft wire",
             "FAA AC 43.13-1B change 1, table 11-7",
             lambda: _one("6AWG", 107 * FT_M, made="aircraft", test_a=20).number("drop_v"), 0.942,
             absolute=0.001),
        near("reading", "at most 120 % of what was calculated",
             "a public works specification, quoted in a dictionary of phrases",
             lambda: _one("2.5mm2", 100).number("high_ohm") / 0.798, 1.2, absolute=0.002),
        near("reading", "at least 80 % of what was calculated", "common practice, no source",
             lambda: _one("2.5mm2", 100).number("low_ohm") / 0.798, 0.8, absolute=0.002),
    ]  # fmt: skip
