"""Joists as span tables, design examples and textbooks give them."""

from __future__ import annotations

from typing import Any

from tests.sizing.checking import Check, equal, near
from tracker.sizing.beam import (
    centre_deflection_m,
    centre_moment_nm,
    effective_length_m,
    rectangle,
    stability_factor,
    tube,
    uniform_deflection_m,
    uniform_moment_nm,
)
from tracker.sizing.joist import PSF_PA, joist
from tracker.sizing.result import Result
from tracker.sizing.timber import INCH_M, PSI_PA, emin_psi, section_of, strength_of

TABLES = ("joist",)

DCA6 = "AWC DCA 6 table 2, a city's scan"
ENGINEERING = "engineeringtoolbox, beam stress and deflection, W12x35"
AWC = "AWC Structural Wood Design Examples 2015/2018, E1.2a"
NDS = "NDS Supplement 2018 table 4A, as written in a public source file"
SIZES = "softwood lumber sizes, PS 20 as tabulated publicly"
IRC = "IRC table R301.4 and R301.7"
MAKERS = "ASTM A500 grade B as given by two tube makers"
MEMORY = "from memory, unverified"
HAND = "own check by hand"
LBF_N, LB_IN_N_M, IN4_M4 = 4.4482216152605, 4.4482216152605 / INCH_M, INCH_M**4
# Longest spans in inches at 12, 16 and 24 in; southern pine, then the weakest of three incised.
SOUTHERN = {
    "2x6": (119, 108, 91),
    "2x8": (157, 142, 116),
    "2x10": (194, 168, 137),
    "2x12": (216, 198, 162),
}
WESTERN = {
    "2x6": (114, 100, 82),
    "2x8": (150, 133, 109),
    "2x10": (188, 163, 133),
    "2x12": (216, 189, 154),
}
LONGEST_IN = 216


def _span_in(section: str, spacing_in: float, material: str, incised: bool = False) -> float:
    result = joist(1, spacing_in * INCH_M, section, material, wet=True, incised=incised)
    return result.number("longest_span_m") / INCH_M


def _southern(section: str, spacing_in: float) -> int:
    return min(LONGEST_IN, round(_span_in(section, spacing_in, "sp")))


def _western(section: str, spacing_in: float) -> int:
    spans = [_span_in(section, spacing_in, each, True) for each in ("spf", "df", "hf")]
    return min(LONGEST_IN, round(min(spans)))


def _psi(result: Result, name: str) -> float:
    return result.number(name) * 1e6 / PSI_PA


def _allowed(section: str = "2x12", material: str = "spf", **how: Any) -> tuple[float, ...]:
    """Bending, shear and modulus (psi) of a section alone and dry, unless said."""
    strength = strength_of(section_of(section, material), material, **{"alone": True, **how})
    return tuple(
        each / PSI_PA for each in (strength.bending_pa, strength.shear_pa, strength.modulus_pa)
    )


def checks() -> list[Check]:
    """Every check."""
    found = []
    for name, rows, span in (
        ("southern pine", SOUTHERN, _southern),
        ("fir, hem-fir or spruce, incised", WESTERN, _western),
    ):
        for section, cells in rows.items():
            for spacing, inches in zip((12, 16, 24), cells, strict=True):
                at = f"{name} {section} at {spacing} in"
                found.append(
                    equal("joist", at, DCA6, lambda f=span, s=section, p=spacing: f(s, p), inches)
                )
    return [*found, *_beams(), *_values(), *_others()]


def _beams() -> list[Check]:
    i, e, span = 285 * IN4_M4, 29e6 * PSI_PA, 100 * INCH_M
    spf = dict(section="2x6", live_pa=40 * PSF_PA, dead_pa=10 * PSF_PA)
    return [
        near("joist", "100 lb/in: 2741 psi", ENGINEERING,
             lambda: uniform_moment_nm(100 * LB_IN_N_M, span) * 6.25 * INCH_M / i / PSI_PA, 2741,
             relative=2e-4),
        near("joist", "100 lb/in: 0.016 in", ENGINEERING,
             lambda: uniform_deflection_m(100 * LB_IN_N_M, span, e, i) / INCH_M, 0.01575,
             relative=1e-3),
        near("joist", "10,000 lb at the middle: 5482 psi", ENGINEERING,
             lambda: centre_moment_nm(1e4 * LBF_N, span) * 6.25 * INCH_M / i / PSI_PA, 5482,
             relative=2e-4),
        near("joist", "10,000 lb at the middle: 0.0252 in", HAND,
             lambda: centre_deflection_m(1e4 * LBF_N, span, e, i) / INCH_M, 0.0252, relative=1e-3),
        near("joist", "effective length under a uniform load, 1.63 lu + 3 d", MEMORY,
             lambda: effective_length_m(240 * INCH_M, 15.25 * INCH_M) / INCH_M, 436.95,
             relative=1e-4),
        near("joist", "stability factor 0.876", AWC,
             lambda: stability_factor(375 * INCH_M, 3.5 * INCH_M, 15.25 * INCH_M, 1500 * PSI_PA,
                                      690000 * PSI_PA), 0.876, absolute=0.001),
        near("joist", "which leaves 1313 psi of 1500", AWC,
             lambda: 1500 * stability_factor(375 * INCH_M, 3.5 * INCH_M, 15.25 * INCH_M,
                                             1500 * PSI_PA, 690000 * PSI_PA), 1313, absolute=1),
        near("joist", "3.5 x 15.25 in: S 135.66", AWC,
             lambda: rectangle("", 3.5, 15.25).modulus_m3, 135.66, relative=1e-4),
        near("joist", "3.5 x 15.25 in: I 1034", AWC,
             lambda: rectangle("", 3.5, 15.25).inertia_m4, 1034, relative=1e-3),
        near("joist", "a tube of 2 x 2 x 0.25 in: I", HAND,
             lambda: tube("", 2, 2, 0.25).inertia_m4, (16 - 1.5**4) / 12, relative=1e-9),
        near("joist", "2x6, 8 ft, 16 in, 50 psf: 6400 lb in", "PyNiteFEA 3.2.0 and anastruct 1.7.0",
             lambda: joist(96 * INCH_M, **spf).number("moment_nm") / (LBF_N * INCH_M), 6400.0,
             relative=1e-4),
        near("joist", "and 846.3 psi", HAND,
             lambda: _psi(joist(96 * INCH_M, **spf), "bending_mpa"), 846.3, relative=1e-4),
        near("joist", "and 0.2110 in under all of it", "PyNiteFEA 3.2.0: 0.21099 in",
             lambda: joist(96 * INCH_M, section="2x6", live_pa=50 * PSF_PA, dead_pa=0)
             .number("deflection_mm") / 25.4, 0.21099, relative=3e-4),
        near("joist", "and 0.1688 in under the live load", HAND,
             lambda: joist(96 * INCH_M, **spf).number("deflection_mm") / 25.4, 0.1688,
             relative=5e-4),
        near("joist", "against 0.2667 in", HAND,
             lambda: joist(96 * INCH_M, **spf).number("deflection_allowed_mm") / 25.4, 0.2667,
             relative=5e-4),
    ]  # fmt: skip


def _values() -> list[Check]:
    depths = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}
    rows = {"spf": (875, 135, 1.4e6), "df": (900, 180, 1.6e6), "hf": (850, 150, 1.3e6)}
    columns = ("Fb", "Fv", "E")
    return [
        *(near("joist", f"{size} is {inches} in deep", SIZES,
               lambda s=size: section_of(s, "spf").depth_m / INCH_M, inches, relative=1e-6)
          for size, inches in depths.items()),
        near("joist", "a 2x is 1-1/2 in", SIZES,
             lambda: section_of("2x6", "spf").width_m / INCH_M, 1.5, relative=1e-6),
        *(near("joist", f"{material} No. 2: {column}", NDS,
               lambda m=material, n=n: _allowed(material=m)[n], values[n], relative=1e-6)
          for material, values in rows.items() for n, column in enumerate(columns)),
        *(near("joist", f"southern pine No. 2, {column}", MEMORY,
               lambda n=n: _allowed(material="sp")[n], value, relative=1e-6)
          for n, column, value in ((1, "Fv", 175), (2, "E", 1.4e6))),
        near("joist", "southern pine No. 2, 2x4", MEMORY,
             lambda: _allowed("2x4", "sp")[0], 1100, relative=1e-6),
        *(near("joist", f"Emin of {material}", where, lambda m=material: emin_psi(m), value,
               relative=1e-6)
          for material, where, value in (("spf", NDS, 510e3), ("df", NDS, 580e3),
                                         ("hf", MEMORY, 470e3), ("sp", MEMORY, 510e3))),
        near("joist", "a 2x4 gains half", MEMORY, lambda: _allowed("2x4")[0] / 875, 1.5,
             relative=1e-6),
        near("joist", "wet shear", MEMORY, lambda: _allowed(wet=True)[1] / 135, 0.97,
             relative=1e-6),
        near("joist", "incised shear", MEMORY, lambda: _allowed(incised=True)[1] / 135, 0.8,
             relative=1e-6),
        near("joist", "wet bending up to 1150 psi is not lowered", MEMORY,
             lambda: _allowed("2x6", wet=True)[0] / (875 * 1.3), 1.0, relative=1e-6),
        near("joist", "wet bending above it is", MEMORY,
             lambda: _allowed("2x6", "df", wet=True)[0] / (900 * 1.3), 0.85, relative=1e-6),
    ]  # fmt: skip


def _metal(material: str, **how: Any) -> tuple[float, ...]:
    return _allowed("50x50x3mm", material, **how)


def _others() -> list[Check]:
    welded = dict(section="50x50x3mm", material="aluminium", welded=True)
    return [
        near("joist", "steel tube yields at 46 ksi, 0.60 of it in bending", MAKERS,
             lambda: _metal("steel")[0] / 0.60, 46000, relative=1e-6),
        near("joist", "steel in shear", MEMORY, lambda: _metal("steel")[1], 0.40 * 46000,
             relative=1e-6),
        near("joist", "steel, E", ENGINEERING, lambda: _metal("steel")[2], 29e6, relative=1e-6),
        near("joist", "6061-T6 yields at 35 ksi, over 1.65", "engineers' answers on 6061-T6",
             lambda: _metal("aluminium")[0] * 1.65, 35000, relative=1e-6),
        near("joist", "aluminium in shear", MEMORY,
             lambda: _metal("aluminium")[1] / _metal("aluminium")[0], 0.6, relative=1e-6),
        near("joist", "aluminium, E", "engineers' answers on 6061-T6",
             lambda: _metal("aluminium")[2], 10e6, relative=1e-6),
        near("joist", "welded 6061-T6, 15 ksi", MEMORY,
             lambda: _metal("aluminium", welded=True)[0] * 1.65, 15000, relative=1e-6),
        equal("joist", "and typically 20 ksi", "MMPDS-01 as tabulated publicly",
              lambda: joist(1.0, **welded).others[1][1], "20000 psi"),
        near("joist", "decks take 40 psf, and 10 dead", IRC,
             lambda: joist(1.0).number("rib_n_m") / PSF_PA * 2, 50, relative=1e-6),
        near("joist", "of which 40 bends it for sag", IRC,
             lambda: joist(1.0).number("deflection_mm")
             / joist(1.0, live_pa=40 * PSF_PA).number("deflection_mm"), 1.0, relative=1e-6),
        near("joist", "deck floors sag L/360", IRC,
             lambda: joist(3.6, section="2x12").number("deflection_allowed_mm"), 10.0,
             relative=1e-6),
        equal("joist", "other members L/240", IRC,
              lambda: joist(2.4, section="2x12").others[0][1].endswith(" 10 mm"), True),
        near("joist", "2x6 spruce, dry, 16 in, 40 + 10 psf: 9 ft 4 in", MEMORY,
             lambda: joist(1.0, section="2x6").number("longest_span_m") / INCH_M, 112,
             absolute=0.9),
    ]  # fmt: skip
