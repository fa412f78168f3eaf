"""Walls as worked examples, tables and other programs give them."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.dewpoint import dew_point_c
from tracker.sizing.layer import RSI, Paths, conductivities, layer_of, paths
from tracker.sizing.layers import Wall, least_thickness_mm
from tracker.sizing.result import Result
from tracker.sizing.wall import wall

TABLES = ("wall",)

SCOTLAND = "Scottish building standards, 6.B.2 worked example of the combined method"
NRCAN = "Natural Resources Canada, Keeping the Heat In, table 3-1"
ASHRAE = "ASHRAE Fundamentals 2005 chapter 25 table 4, as written in a public data set"
ISO_10456 = "EN ISO 10077-2:2003, table with ISO 10456"
ISO_6946 = "ISO 6946 table 7, as quoted in several texts"
FILMS = "ASHRAE Fundamentals 2021 chapter 26 table 10, as quoted in a public note"
STUDS = "a specifiers' magazine, Energy code math, p. 3"
LESSON = "Heat flow basics, a university course"
EXAMINEES = "an examinees' forum: share of R to the outside"
HAND = "own check by hand"
MEMORY = "from memory, unverified"
PSYCHROLIB = "own check by hand with the dew point of psychrolib 2.5.0"
# Brick, cavity, sheathing, wool between 15 % timber of 1.167, plasterboard.
FRAME = (0.132, 0.180, 0.069, 3.500, 0.060)


def _frame() -> Paths:
    return paths(FRAME, 3, 1.167, 0.15, 0.130, 0.040)


def _illustration(*more: float) -> Paths:
    """Steel webs of 1.2 mm each 400 mm through 50 mm foam of 0.024."""
    return paths((0.05 / 0.024, *more), 0, 0.05 / 50, 0.003, 0.13, 0.04)


def _bare(thickness: str, outside_c: float, humidity: float) -> Result:
    return wall((f"foam {thickness} 0.024",), outside_c, 20, humidity)


def _said(result: Result, name: str) -> float:
    said = next(answer for key, answer in result.others if key.startswith(name))
    return float(said.removeprefix("U ").split()[0])


def _ribs(**how: object) -> Result:
    return wall(("foam 50mm 0.024",), -10, rib="steel", rib_mm=1.2, rib_spacing_mm=400, **how)  # type: ignore[arg-type]


def checks() -> list[Check]:
    """Every check."""
    return [*_frames(), *_conductivities(), *_surfaces(), *_condensation()]


def _frames() -> list[Check]:
    return [
        near("wall", "path through the wool", SCOTLAND, lambda: _frame().clear, 4.111,
             absolute=5e-4),
        near("wall", "path through the timber", SCOTLAND, lambda: _frame().rib, 1.778,
             absolute=5e-4),
        near("wall", "upper limit", SCOTLAND, lambda: _frame().upper, 3.435, absolute=5e-4),
        near("wall", "lower limit", SCOTLAND, lambda: _frame().lower, 3.304, absolute=5e-4),
        near("wall", "U 0.30", SCOTLAND, lambda: 1 / _frame().mean, 0.30, absolute=5e-3),
        near("wall", "steel webs: clear", HAND, lambda: _illustration().clear, 2.253,
             absolute=5e-4),
        near("wall", "steel webs: heat keeps to its path", HAND, lambda: _illustration().upper,
             2.174, absolute=5e-4),
        near("wall", "steel webs: heat spreads", HAND, lambda: _illustration().lower, 0.457,
             absolute=5e-4),
        near("wall", "with 19 mm of strapping: path", HAND,
             lambda: _illustration(0.019 / 0.13).upper, 2.353, absolute=5e-3),
        near("wall", "with 19 mm of strapping: spread", HAND,
             lambda: _illustration(0.019 / 0.13).lower, 0.604, absolute=5e-4),
        near("wall", "steel studs keep 46 %", STUDS,
             lambda: 1 / _said(_ribs(), "by the factor of steel studs") - 0.17,
             0.46 * 0.05 / 0.024, relative=1e-3),
        near("wall", "50 mm of 0.029 is 1.724 m2K/W", LESSON,
             lambda: layer_of("xps 50mm").resistance_m2k_w, 1.724, absolute=5e-4),
        near("wall", "which is R 9.8", LESSON,
             lambda: layer_of("xps 50mm").resistance_m2k_w / RSI, 9.8, absolute=0.05),
        near("wall", "0.029 is R 4.97 an inch", HAND,
             lambda: layer_of("xps 1in").resistance_m2k_w / RSI, 4.97, absolute=0.01),
        near("wall", "four fifths of R outside: four fifths of the way", EXAMINEES,
             lambda: wall(("outer R3.96", "inner R0.87"), -10, 20).number("face_1_c"), 14.0,
             absolute=0.01),
    ]  # fmt: skip


def _conductivities() -> list[Check]:
    r_per_in = {"foam": 5.5, "open-foam": 3.6, "mineral-wool": 3.0, "glass-wool": 3.1,
                "wood-fibre": 3.3}  # fmt: skip
    k = {
        "xps": (0.029, ASHRAE), "eps": (0.037, ASHRAE), "plywood": (0.12, ASHRAE),
        "softwood": (0.13, ISO_10456), "steel": (50, ISO_10456), "stainless": (17, ISO_10456),
        "aluminium": (160, ISO_10456), "copper": (380, ISO_10456),
        "sheep-wool": (0.0438, "Materials 17(13), 3339 (2024)"),
    }  # fmt: skip
    return [
        *(near("wall", f"{name}, R {r} an inch", NRCAN,
               lambda n=name: 0.0254 / RSI / conductivities()[n][0], r, relative=1e-6)
          for name, r in r_per_in.items()),
        *(near("wall", f"{name}, {value} W/mK", where, lambda n=name: conductivities()[n][0],
               value, relative=1e-6)
          for name, (value, where) in k.items()),
    ]  # fmt: skip


def _surfaces() -> list[Check]:
    inside = {"up": 0.10, "horizontal": 0.13, "down": 0.17}
    films = {"up": 0.61, "horizontal": 0.68, "down": 0.92}
    return [
        *(near("wall", f"surfaces, heat {flow}", ISO_6946,
               lambda f=flow: wall(("x R1",), 0, 20, flow=f).number("clear_m2k_w"),
               1 + value + 0.04, relative=1e-6)
          for flow, value in inside.items()),
        *(near("wall", f"surfaces of ASHRAE, heat {flow}", FILMS,
               lambda f=flow: 1 / _said(wall(("x R0.01",), 0, 20, flow=f), "between ribs"),
               0.01 + (value + 0.17) * RSI, relative=3e-4)
          for flow, value in films.items()),
        near("wall", "outer surface", ISO_6946,
             lambda: wall(("x R0.83",), 0, 20).number("face_0_c"), 0.8, absolute=1e-6),
        near("wall", "heat through 29 m2 at 30 K and U 0.5", HAND,
             lambda: wall(("x R1.83",), -10, 20, area_m2=29).number("heat_loss_w"), 435,
             relative=1e-6),
    ]  # fmt: skip


def _condensation() -> list[Check]:
    return [
        near("wall", "-10 C, 50 %: 4.65 mm", PSYCHROLIB,
             lambda: _bare("50mm", -10, 50).number("least_mm"), 4.65, absolute=0.02),
        near("wall", "-20 C, 60 %: 11.53 mm", PSYCHROLIB,
             lambda: _bare("50mm", -20, 60).number("least_mm"), 11.53, absolute=0.03),
        near("wall", "-20 C, 70 %: 18.08 mm", PSYCHROLIB,
             lambda: _bare("50mm", -20, 70).number("least_mm"), 18.08, absolute=0.03),
        near("wall", "with a surface of 0.25: 9.82 mm", MEMORY,
             lambda: _said(_bare("50mm", -10, 50), "least thickness"), 9.82, absolute=0.04),
        near("wall", "behind 50 mm wool of 0.038: 61.4 mm", PSYCHROLIB,
             lambda: wall(("foam 50mm 0.024", "wool 50mm 0.038"), -10, 20, 50, keep="foam")
             .number("least_mm"), 61.4, absolute=0.2),
        near("wall", "where that foam ends it is at the dew point", PSYCHROLIB,
             lambda: wall(("foam 61.4mm 0.024", "wool 50mm 0.038"), -10, 20, 50, keep="foam")
             .number("keep_c"), 9.272, absolute=0.01),
        near("wall", "surface factor 0.642 at 4.65 mm", PSYCHROLIB,
             lambda: _bare("4.65mm", -10, 50).number("surface_factor"), 0.642, absolute=1e-3),
        equal("wall", "4.6 mm is wet, 4.7 mm is dry", PSYCHROLIB,
              lambda: (_bare("4.6mm", -10, 50)["passes"], _bare("4.7mm", -10, 50)["passes"]),
              (False, True)),
        near("wall", "whatever thickness is there, 4.65 mm is the least", HAND,
             lambda: least_thickness_mm(Wall((layer_of("foam 10mm 0.024"),), 0.13, 0.04), 0, 20,
                                        -10, dew_point_c(20, 50), 0.13) or 0, 4.65,
             absolute=0.02),
    ]  # fmt: skip
