"""Fill of tubes and chases, as published."""

from __future__ import annotations

from math import pi

from tests.sizing.checking import Check, equal, near
from tests.sizing.reference_copper import pairs
from tracker.sizing.raceway import (
    allowed_percent,
    lot_of,
    most_of_one_size,
    raceway,
)

TABLES = ("raceway",)
HANDBOOK = "NEC handbook 2011, chapter 9 table 4"
TABLE_5 = "NEC 2008 chapter 9 table 5 via buildmyowncabin.com"
ANNEX_C = "NEC table C.1 via voltagelab.com"
NOTES = "NEC chapter 9 notes, a public transcription"
INCH2_MM2 = 25.4**2

# Trade size; inside area in2; 60 %, 53 %, 31 %, 40 % of it.
EMT = """1/2 0.304 0.182 0.161 0.094 0.122|3/4 0.533 0.320 0.283 0.165 0.213
1 0.864 0.519 0.458 0.268 0.346|1-1/4 1.496 0.897 0.793 0.464 0.598
1-1/2 2.036 1.221 1.079 0.631 0.814"""
THHN_IN2 = """14 0.0097|12 0.0133|10 0.0211|8 0.0366|6 0.0507|4 0.0824|3 0.0973|2 0.1158|1 0.1562
1/0 0.1855|2/0 0.2223|3/0 0.2679|4/0 0.3237"""
THHN_IN = """14 0.111|12 0.130|10 0.164|8 0.216|6 0.254|4 0.324|3 0.352|2 0.384|1 0.446
1/0 0.486|2/0 0.532|3/0 0.584|4/0 0.642"""
# Size; most wires in 1/2, 3/4, 1, 1-1/4 and 1-1/2 EMT. Two public pages say nine of 12 AWG in 3/4,
# the one as what pulls easily, the other as the table's own number, which it is not.
C_1 = """14 12 22 35 61 84|12 9 16 26 45 61|10 5 10 16 28 38|8 3 6 9 16 22|6 2 4 7 12 16
4 1 2 4 7 10|3 1 1 3 6 8|2 1 1 3 5 7|1 1 1 1 4 5"""
TUBES = ("1/2", "3/4", "1", "1-1/4", "1-1/2")


def _inside(tube: str) -> float:
    return raceway(wire=("14AWG",), tube=tube).number("inside_mm2")


def _most(size: str, tube: str) -> int:
    return most_of_one_size(_inside(tube), lot_of(f"{size} AWG").area_mm2)


def checks() -> list[Check]:
    """All of them."""
    found = []
    for line in EMT.splitlines():
        for cell in line.split("|"):
            tube, *areas = cell.split()
            found.append(
                near("raceway", f"inside area of {tube} EMT", HANDBOOK,
                     lambda tube=tube: _inside(tube) / INCH2_MM2, float(areas[0]), absolute=0.001)
            )  # fmt: skip
            cases = ((3, True), (1, False), (2, False), (3, False))
            for (count, short), area in zip(cases, areas[1:], strict=True):
                found.append(
                    near(
                        "raceway",
                        f"{count} in {tube} EMT{', short' if short else ''}",
                        HANDBOOK,
                        lambda tube=tube, count=count, short=short: (
                            _inside(tube) * allowed_percent(count, short=short) / 100 / INCH2_MM2
                        ),
                        float(area),
                        absolute=0.0011,
                    )
                )
    for key, area in pairs(THHN_IN2):
        found.append(
            near("raceway", f"{key} AWG THHN over its insulation", TABLE_5,
                 lambda key=key: lot_of(f"{key} AWG").area_mm2 / INCH2_MM2, area, relative=0.001)
        )  # fmt: skip
    for key, inches in pairs(THHN_IN):
        found.append(
            near("raceway", f"{key} AWG THHN, outside diameter", TABLE_5,
                 lambda key=key: lot_of(f"{key} AWG").outside_mm / 25.4, inches, relative=0.001)
        )  # fmt: skip
    for line in C_1.splitlines():
        for cell in line.split("|"):
            key, *counts = cell.split()
            for tube, count in zip(TUBES, counts, strict=True):
                found.append(
                    equal("raceway", f"most {key} AWG THHN in {tube} EMT", ANNEX_C,
                          lambda key=key, tube=tube: _most(key, tube), int(count))
                )  # fmt: skip
    return [*found, *_worked(), *_rules()]


def _worked() -> list[Check]:
    mixed = ("3x12AWG", "4x10AWG", "8x8AWG")
    institute = "a conduit makers' institute's worked example"
    return [
        near("raceway", "3 of 12, 4 of 10 and 8 of 8 AWG in square inches", institute,
             lambda: raceway(wire=mixed, tube="1").number("wires_mm2") / INCH2_MM2, 0.4171,
             relative=0.003),
        equal("raceway", "they are too many for 1 EMT", institute,
              lambda: raceway(wire=mixed, tube="1")["passes"], "no"),
        equal("raceway", "they fit 1-1/4 EMT", institute,
              lambda: raceway(wire=mixed, tube="1-1/4")["passes"], "yes"),
        equal("raceway", "12 of 14 AWG THHN in 1/2 EMT and no more", "an electricians' forum",
              lambda: raceway(wire=("12x14AWG",), tube="1/2")["more_14 AWG"], 0),
        equal("raceway", "16 of 12 AWG THHN in 3/4 tube", "a conduit makers' institute on table C8",
              lambda: _most("12", "3/4"), 16),
        equal("raceway", "8 of 8 AWG THW in 1 EMT by the 0.8 rule",
              "a trade forum on table C.1: 0.346 in2 for 0.0437 in2 each",
              lambda: most_of_one_size(0.864 * INCH2_MM2, 0.0437 * INCH2_MM2), 8),
        near("raceway", "a bundle of 1/2 in bends at 5 in", "an aircraft layout engineer's article",
             lambda: float(dict(raceway(wire=("12.7mm",), inside_mm=40).others)[
                 "bend radius for the whole bundle, aircraft practice"].split()[-2]),
             127.0, absolute=0.6),
        near("raceway", "bend of 5 diameters", "NEC 551.47(H), codebookcity.com",
             lambda: raceway(wire=("10mm",), inside_mm=40).number("bend_radius_mm"), 50.0,
             absolute=0.01),
    ]  # fmt: skip


def _jams(ratio: float) -> bool:
    said = raceway(wire=("3x10mm",), inside_mm=10 * ratio)
    return any("can jam" in caution for caution in said.cautions)


def _rules() -> list[Check]:
    exact = pi / 4 * 40**2
    found = [
        equal("raceway", f"{part} of a wire more", NOTES,
              lambda part=part: most_of_one_size(exact, exact * 0.4 / (12 + part)), count)
        for part, count in ((0.78, 12), (0.82, 13))
    ]  # fmt: skip
    found += [
        equal("raceway", f"three wires in {ratio} times their diameter", NOTES,
              lambda ratio=ratio: _jams(ratio), jams)
        for ratio, jams in ((2.7, False), (2.85, True), (3.15, True), (3.3, False))
    ]  # fmt: skip
    found += [
        equal("raceway", f"a nipple of {length} mm", NOTES,
              lambda length=length: raceway(
                  wire=("3x14AWG",), inside_mm=30, length_mm=length)["allowed_percent"], allowed)
        for length, allowed in ((600, 60.0), (615, 40.0))
    ]  # fmt: skip
    found.append(
        equal("raceway", "a wireway is filled to 20 %",
              "an electrical contractors' association on NEC 376.22(A)",
              lambda: raceway(wire=("3x14AWG",), width_mm=50, height_mm=50)["allowed_percent"],
              20.0)
    )  # fmt: skip
    return found
