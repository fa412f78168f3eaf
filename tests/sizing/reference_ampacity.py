"""Ampacities and their corrections, as published."""

from __future__ import annotations

from math import sqrt

from tests.sizing.checking import Check, equal, near
from tracker.sizing.ampacity import Ampacity, ampacity, device_cap_a, least_area_mm2
from tracker.sizing.copper import awg, metric

TABLES = ("ampacity",)
CFR = "33 CFR 183.425 table 5, federal.elaws.us"
IRC = "IRC 2018 table E3705.1, which is NEC 310.16"
IRC_AMBIENT = "IRC 2018 table E3705.2, which is NEC 310.15(B)"
BOAT = "a boat-cable maker's table for 105 C cable (UL 1426)"
SHOP = "a marine shop's table E for 105 C inside engine spaces"
ISO = "ISO 10133 table A.1, from memory, unverified"
ISO_SEEN = "an unattributed page headed like ISO 10133 annex A"

TABLE_5 = """18 10 10 20 20|16 15 15 25 25|14 20 20 30 35|12 25 25 40 45|10 40 40 55 60
8 55 65 70 80|6 80 95 100 120|4 105 125 135 160|3 120 145 155 180|2 140 170 180 210
1 165 195 210 245|1/0 195 230 245 285|2/0 225 265 285 330|3/0 260 310 330 385|4/0 300 360 385 445"""
TABLE_310 = """14 15 20 25|12 20 25 30|10 30 35 40|8 40 50 55|6 55 65 75|4 70 85 95|3 85 100 115
2 95 115 130|1 110 130 145|1/0 125 150 170|2/0 145 175 195|3/0 165 200 225|4/0 195 230 260"""
TABLE_A1 = """0.75 6 10 12 16|1 8 14 18 20|1.5 12 18 21 25|2.5 17 25 30 35|4 22 35 40 45
6 29 45 50 60|10 40 65 70 90|16 54 90 100 130|25 71 120 140 170|35 87 160 185 210
50 105 210 230 270|70 135 265 285 330|95 165 310 330 390"""
SEEN_A1 = {"1.5": (12, 25), "2.5": (17, 35), "4": (22, 45)}

# Size; up to 2 inside; 3 outside, inside; 4 to 6 outside, inside; 7 to 24 outside, inside.
BOAT_CABLE = """18 17 14 11.9 12 10.2 10 8.5|16 21.3 17.5 14.9 15 12.8 12.5 10.6
14 29.8 24.5 20.8 21 17.9 17.5 14.9|12 38.3 31.5 26.8 27 23 22.5 19.1
10 51 42 35.7 36 30.6 30 25.5|8 68 56 47.6 48 40.8 40 34|6 102 84 71.4 72 61.2 60 51
4 136 112 95.2 96 81.6 80 68|2 178.5 147 125 126 107.1 105 89.3
1 208.3 171.5 145.8 147 125 122.5 104.1|1/0 242.3 199.5 169.6 171 145.4 142.5 121.1
2/0 280.5 231 196.4 198 168.3 165 140.3|3/0 327.3 269.5 229.1 231 196.4 192.5 163.6
4/0 378.3 311.5 264.8 267 227 222.5 189.1"""
CASES = ((2, 50.0), (3, 30.0), (3, 50.0), (4, 30.0), (4, 50.0), (7, 30.0), (7, 50.0))
ENGINE = {
    "16": 21, "14": 30, "12": 38, "10": 51, "8": 68, "6": 102, "4": 136, "2": 178, "1/0": 242,
    "4/0": 378,
}  # fmt: skip

# Top of each band of ambient temperature; factors for 60, 75 and 90 C insulation.
AMBIENT = """30 1.00 1.00 1.00|35 0.91 0.94 0.96|40 0.82 0.88 0.91|45 0.71 0.82 0.87
50 0.58 0.75 0.82|55 0.41 0.67 0.76|60 - 0.58 0.71|65 - 0.47 0.65|70 - 0.33 0.58
75 - - 0.50|80 - - 0.41|85 - - 0.29"""
ADJUST = {4: 0.80, 6: 0.80, 7: 0.70, 9: 0.70, 10: 0.50, 20: 0.50, 21: 0.45, 30: 0.45, 31: 0.40,
          40: 0.40, 41: 0.35}  # fmt: skip
NOTE_1 = {60: 0.58, 75: 0.75, 90: 0.82}


def rows(block: str) -> list[list[str]]:
    """The cells of a block."""
    return [cell.split() for line in block.splitlines() for cell in line.split("|")]


def _carries(key: str, rules: str, insulation_c: int, ambient_c: float = 30, bundled: int = 2,
             in_foam: bool = False) -> Ampacity:  # fmt: skip
    wire = metric(key) if rules == "iso10133" else awg(key)
    found = ampacity(wire, rules, insulation_c, ambient_c, bundled, in_foam)
    assert found is not None
    return found


def _near(name: str, source: str, key: str, rules: str, insulation_c: int, expected: float,
          within: float, **more: float) -> Check:  # fmt: skip
    return near(
        "conductor",
        name,
        source,
        lambda: _carries(key, rules, insulation_c, **more).corrected_a,  # type: ignore[arg-type]
        expected,
        absolute=within,
    )


def checks() -> list[Check]:
    """All of them."""
    return [*_tables(), *_boat(), *_nec(), *_root_law(), *_rest()]


def _tables() -> list[Check]:
    found = []
    for rules, block, columns, source in (
        ("33cfr183", TABLE_5, (60, 75, 90, 105), CFR),
        ("nec310", TABLE_310, (60, 75, 90), IRC),
        ("iso10133", TABLE_A1, (60, 70, 90, 105), ISO),
    ):
        for key, *cells in rows(block):
            for column, cell in zip(columns, cells, strict=True):
                name = f"{rules}: {key} at {column} C insulation"
                found.append(_near(name, source, key, rules, column, float(cell), 0.001))
    for key, (cool, hot) in SEEN_A1.items():
        found.append(_near(f"ISO {key} at 60 C", ISO_SEEN, key, "iso10133", 60, cool, 0.001))
        found.append(_near(f"ISO {key} at 105 C", ISO_SEEN, key, "iso10133", 105, hot, 0.001))
    return found


def _boat() -> list[Check]:
    found = []
    for key, *cells in rows(BOAT_CABLE):
        for (bundled, ambient), cell in zip(CASES, cells, strict=True):
            found.append(
                _near(
                    f"105 C boat cable {key} AWG, {bundled} together at {ambient:g} C",
                    BOAT,
                    key,
                    "33cfr183",
                    105,
                    float(cell),
                    0.06,
                    bundled=bundled,
                    ambient_c=ambient,
                )
            )
    for key, amps in ENGINE.items():
        name = f"105 C boat cable {key} AWG in an engine space"
        found.append(_near(name, SHOP, key, "33cfr183", 105, amps, 0.6, ambient_c=50.0))
    note_2 = "33 CFR 183 table 5 note 2, reprinted in a cable maker's catalogue"
    for bundled, factor in ((2, 1.0), (3, 0.7), (6, 0.6), (24, 0.5), (25, 0.4)):
        found.append(
            near(
                "conductor",
                f"note 2 for {bundled} conductors",
                note_2,
                lambda bundled=bundled: _carries("10", "33cfr183", 105, 30, bundled).bundle_factor,
                factor,
                absolute=0.001,
            )
        )
    return found


def _nec() -> list[Check]:
    found = []
    below = 26.0
    for top, *cells in rows(AMBIENT):
        for column, cell in zip((60, 75, 90), cells, strict=True):
            if cell == "-":
                continue
            for ambient in (below, float(top)):
                found.append(
                    near(
                        "conductor",
                        f"NEC ambient factor, {column} C insulation at {ambient:g} C",
                        IRC_AMBIENT,
                        lambda column=column, ambient=ambient: (
                            _carries("12", "nec310", column, ambient).ambient_factor
                        ),
                        float(cell),
                        absolute=0.0001,
                    )
                )
        below = float(top) + 1
    for column, beyond in ((60, 56.0), (75, 71.0), (90, 86.0)):
        found.append(
            equal(
                "conductor",
                f"NEC gives {column} C insulation no current at {beyond:g} C",
                IRC_AMBIENT,
                lambda column=column, beyond=beyond: (
                    _carries("12", "nec310", column, beyond).corrected_a
                ),
                0.0,
            )
        )
    for bundled, factor in ADJUST.items():
        found.append(
            near(
                "conductor",
                f"NEC adjustment for {bundled} conductors",
                "NEC 2014 table 310.15(B)(3)(a)",
                lambda bundled=bundled: _carries("12", "nec310", 90, 30, bundled).bundle_factor,
                factor,
                absolute=0.0001,
            )
        )
    found.append(
        _near(
            "12 THHN at 55 C: 30 A x 0.76",
            "an engineers' forum on NEC 310.15(B)(2)(a)",
            "12",
            "nec310",
            90,
            22.8,
            0.01,
            ambient_c=55.0,
        )
    )
    for key, amps in {"14": 15.0, "12": 20.0, "10": 30.0, "8": float("inf")}.items():
        found.append(
            equal(
                "conductor",
                f"largest device for {key} AWG",
                "NEC 240.4(D) via a cable maker",
                lambda key=key: device_cap_a("nec310", key)[0],
                amps,
            )
        )
    return found


def _root_law() -> list[Check]:
    """Where no factor is printed the square-root law stands in; NEC's table follows from it."""
    found = []
    for rules, columns in (("33cfr183", (60, 75, 90, 105)), ("iso10133", (60, 70, 90, 105))):
        for column in columns:
            for ambient in (40.0, 48.0):
                found.append(
                    near(
                        "conductor",
                        f"{rules}: {column} C insulation at {ambient:g} C",
                        "own check by hand, square-root law",
                        lambda rules=rules, column=column, ambient=ambient: (
                            _carries(
                                "2.5" if rules == "iso10133" else "12", rules, column, ambient
                            ).ambient_factor
                        ),
                        sqrt((column - ambient) / (column - 30)),
                        absolute=0.0005,
                    )
                )
    for column, factor in NOTE_1.items():
        found.append(
            near(
                "conductor",
                f"33 CFR 183 table 5 note 1, {column} C insulation at 50 C",
                "33 CFR 183 table 5 note 1, from memory, unverified",
                lambda column=column: _carries("12", "33cfr183", column, 50.0).ambient_factor,
                factor,
                absolute=0.006,
            )
        )
    return found


def _rest() -> list[Check]:
    least = [
        ("33cfr183", False, "16 AWG", "ABYC E-11 11.14.1.2 as quoted by others"),
        ("33cfr183", True, "18 AWG", "ABYC E-11 11.14.1.2 as quoted by others"),
        ("iso10133", False, "1 mm2", "ISO 10133:2012 clause 7"),
        ("iso10133", True, "0.75 mm2", "ISO 10133:2012 clause 7"),
        ("nec310", False, "14 AWG", "NEC 310.106(A), from memory, unverified"),
    ]
    found = [
        equal(
            "conductor",
            f"least conductor by {rules}{', sheathed' if sheathed else ''}",
            source,
            lambda rules=rules, sheathed=sheathed: least_area_mm2(rules, sheathed)[1],
            expected,
        )
        for rules, sheathed, expected, source in least
    ]
    found.append(
        near(
            "conductor",
            "buried in insulation for 0.5 m or more",
            "IEE wiring regulations 16th, as in a cable guide's table 4.5",
            lambda: _carries("12", "33cfr183", 60, in_foam=True).foam_factor,
            0.5,
            absolute=0.001,
        )
    )
    return found
