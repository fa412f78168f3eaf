"""Sheets as builders' pages and material tables give them."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.cutlist import FOOT_M, POUND_KG, cutlist
from tracker.sizing.result import Result

TABLES = ("cutlist",)

PAGE = "a builders' page on drywall, sheets of 32 ft2"
SCHOOL = "an educators' page on drywall, sheets of 32 ft2"
PLY = "a builders' page on plywood sheets"
SUBFLOOR = "builders' pages on estimating, 10 to 20 %"
PDS = "Plywood Design Specification, as quoted publicly"
ASHRAE = "ASHRAE Fundamentals 2005, as written in a public data set"
ISO = "EN ISO 10077-2:2003, table"
DENSITY = "public density tables"
BLADES = "saw makers' trade blogs"
HAND = "own check by hand"
FT2 = FOOT_M**2


def _sheets(ft2: float, waste: float | None = 0.0) -> Result:
    return cutlist(area_m2=(ft2 * FT2,), waste_percent=waste)


def _sheet_kg(material: str, thick_mm: float) -> float:
    return cutlist(area_m2=(1.0,), thick_mm=thick_mm, material=material).number("sheet_kg")


def _said(name: str, result: Result) -> float:
    return next(float(said.split()[0]) for key, said in result.others if name in key)


def _other_kg(material: str) -> float:
    return _said("another table", cutlist(area_m2=(1.0,), long_m=1, wide_m=1, thick_mm=1,
                                          material=material))  # fmt: skip


def checks() -> list[Check]:
    """Every check."""
    return [
        equal("cutlist", "135 ft of wall 8 ft high: 34 sheets", PAGE,
              lambda: _sheets(1080)["sheets"], 34),
        equal("cutlist", "720 ft2: 23 sheets", SCHOOL, lambda: _sheets(720)["sheets"], 23),
        equal("cutlist", "800 ft2: 25 sheets", PLY, lambda: _sheets(800)["sheets"], 25),
        equal("cutlist", "and not one more", PLY, lambda: _sheets(801)["sheets"], 26),
        near("cutlist", "a sheet is 8 ft long", PLY,
             lambda: cutlist(area_m2=(0.5,), wide_m=1.0, thick_mm=1, material="steel")
             .number("sheet_kg") / 7.85, 8 * FOOT_M, relative=1e-9),
        near("cutlist", "a sheet is 4 ft wide", PLY,
             lambda: cutlist(area_m2=(0.5,), long_m=1.0, thick_mm=1, material="steel")
             .number("sheet_kg") / 7.85, 4 * FOOT_M, relative=1e-9),
        near("cutlist", "10 % for a simple layout", SUBFLOOR,
             lambda: _sheets(100, None).number("waste_percent"), 10, relative=1e-9),
        near("cutlist", "20 % for a complex one", SUBFLOOR,
             lambda: cutlist(area_m2=(1.0,), layout="complex").number("waste_percent"), 20,
             relative=1e-9),
        equal("cutlist", "240 ft2 and a tenth: 9 sheets", SUBFLOOR,
              lambda: _sheets(240, None)["sheets"], 9),
        near("cutlist", "a blade takes 1/8 in (3.18 mm)", BLADES,
             lambda: cutlist(area_m2=(1.0,)).number("kerf_mm"), 3.18, absolute=0.01),
        near("cutlist", "a thin one 3/32 in (2.38 mm)", BLADES,
             lambda: _said("thin blade", cutlist(("1m x 1m",))) ** 0.5 - 1, 0.00238,
             absolute=2e-5),
        near("cutlist", "3/4 in plywood, 4 x 8 ft: 72 lb", PDS,
             lambda: _sheet_kg("plywood", 19.05) / POUND_KG, 72, relative=1e-6),
        near("cutlist", "1/2 in plywood: 0.68 kg a square foot", PDS,
             lambda: _sheet_kg("plywood", 12.7) / 32, 0.68, absolute=0.005),
        near("cutlist", "plywood, 540 kg/m3", ASHRAE, lambda: _other_kg("plywood") * 1000, 540,
             relative=1e-4),
        near("cutlist", "rolled steel, 7850 kg/m3", DENSITY,
             lambda: _sheet_kg("steel", 1) / (32 * FT2) * 1000, 7850, relative=1e-6),
        near("cutlist", "steel, 7800 kg/m3", ISO, lambda: _other_kg("steel") * 1000, 7800,
             relative=1e-4),
        near("cutlist", "aluminium alloy, 2800 kg/m3", ISO,
             lambda: _sheet_kg("aluminium", 1) / (32 * FT2) * 1000, 2800, relative=1e-6),
        near("cutlist", "aluminium, 2700 kg/m3", DENSITY,
             lambda: _other_kg("aluminium") * 1000, 2700, relative=1e-4),
        equal("cutlist", "three pieces of 5 x 4 ft take three sheets whatever their area", HAND,
              lambda: cutlist(("3 x 5ft x 4ft",), waste_percent=0)["sheets"], 3),
    ]  # fmt: skip
