"""How many sheets or boards a list of pieces takes, by area with waste, and what they weigh."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.sizing.result import Figure, OutOfRange, Result, Source
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

FOOT_M, INCH_M, POUND_KG = 0.3048, 0.0254, 0.45359237
OWN_RANGE = "sheets and boards that are sold"
MATERIALS = ("plywood", "steel", "aluminium")
INPUTS = (
    Input("piece", "--piece", "pieces, such as '4 x 600mm x 400mm' or 'shelf 2ft x 16in'",
          type="text", repeated=True),
    Input("area_m2", "--area", "area to cover, instead of or beside pieces", "m2", low=0.001,
          high=10000, why=OWN_RANGE, repeated=True),
    Input("less_m2", "--less", "openings taken off that area", "m2", low=0.001, high=10000,
          why=OWN_RANGE, repeated=True),
    Input("long_m", "--long", "length of a sheet or board; 8 ft where not given", "m", low=0.2,
          high=12, why=OWN_RANGE),
    Input("wide_m", "--wide", "width of a sheet or board; 4 ft where not given", "m", low=0.02,
          high=3, why=OWN_RANGE),
    Input("waste_percent", "--waste", "waste, instead of the generic 10 %", "%", low=0, high=100,
          why=OWN_RANGE),
    Input("layout", "--layout", "simple, or complex with many cuts", type="choice",
          choices=("simple", "complex"), default="simple"),
    Input("kerf_mm", "--kerf", "width of the saw's cut; 1/8 in where not given", "mm", low=0,
          high=10, why=OWN_RANGE),
    Input("grain", "--grain", "pieces may not be turned", type="yesno", default=False),
    Input("thick_mm", "--thick", "thickness, for the mass", "mm", low=0.3, high=100,
          why=OWN_RANGE),
    Input("material", "--material", "what it is of, for the mass", type="choice",
          choices=MATERIALS, default="plywood"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Piece:
    """Pieces of one size.

    Parameters
    ----------
    name: what people call it.
    count: how many.
    long_m, wide_m: its sides, the first along the sheet (m).
    """

    name: str
    count: int
    long_m: float
    wide_m: float

    def area_m2(self, kerf_m: float) -> float:
        """Of all of them, with a cut along two sides of each (m2)."""
        return self.count * (self.long_m + kerf_m) * (self.wide_m + kerf_m)

    def fits(self, long_m: float, wide_m: float, grain: bool) -> bool:
        """Does one fit on a sheet?"""
        if self.long_m <= long_m + 1e-9 and self.wide_m <= wide_m + 1e-9:
            return True
        return not grain and self.wide_m <= long_m + 1e-9 and self.long_m <= wide_m + 1e-9

    def on_one(self, long_m: float, wide_m: float, kerf_m: float, grain: bool) -> int:
        """How many of this piece alone one sheet takes, cut in rows."""

        def rows(along_m: float, across_m: float) -> int:
            long = floor((long_m + kerf_m) / (along_m + kerf_m) + 1e-9)
            return long * floor((wide_m + kerf_m) / (across_m + kerf_m) + 1e-9)

        straight = rows(self.long_m, self.wide_m)
        return straight if grain else max(straight, rows(self.wide_m, self.long_m))


def cutlist(
    piece: Sequence[str] = (),
    area_m2: Sequence[float] = (),
    less_m2: Sequence[float] = (),
    long_m: float | None = None,
    wide_m: float | None = None,
    waste_percent: float | None = None,
    layout: str = "simple",
    kerf_mm: float | None = None,
    grain: bool = False,
    thick_mm: float | None = None,
    material: str = "plywood",
) -> Result:
    """How many sheets or boards pieces and areas take, by area with waste, and their mass.

    Formula
    -------
    area = sum of pieces with their kerf + areas - openings; sheets = area (1 + waste) / area of a
    sheet, rounded up, and not fewer than each piece takes alone in rows.

    Parameters
    ----------
    piece: pieces, with count and both sides [-].
    area_m2: area to cover, instead of or beside pieces [m2].
    less_m2: openings taken off that area [m2].
    long_m: length of a sheet or board [m].
    wide_m: width of a sheet or board [m].
    waste_percent: waste, instead of the generic one [%].
    layout: simple, or complex with many cuts [-].
    kerf_mm: width of the saw's cut [mm].
    grain: pieces may not be turned [-].
    thick_mm: thickness, for the mass [mm].
    material: what it is of, for the mass [-].

    Returns
    -------
    Result with area_m2, sheets, bare_sheets, offcut_percent and, with a thickness, mass_kg.

    Valid
    -----
    area_m2: 0.001..10000
    less_m2: 0.001..10000
    long_m: 0.2..12
    wide_m: 0.02..3
    waste_percent: 0..100
    kerf_mm: 0..10
    thick_mm: 0.3..100

    Source
    ------
    Builders' pages on sheets and waste; saw makers on kerf; Plywood Design Specification and
    public density tables for the mass.

    Example
    -------
    800 ft2 without waste are 25 sheets of 4 x 8 ft (builders' pages).
    """
    guard(
        INPUTS,
        area_m2=area_m2,
        less_m2=less_m2,
        long_m=long_m,
        wide_m=wide_m,
        waste_percent=waste_percent,
        layout=layout,
        kerf_mm=kerf_mm,
        thick_mm=thick_mm,
        material=material,
    )
    if not piece and not area_m2:
        raise BadInput("say what is needed: --piece '4 x 600mm x 400mm', or --area 12m2")
    rows = table("cutlist")
    long = long_m if long_m is not None else rows["sheet"]["long_ft"] * FOOT_M
    wide = wide_m if wide_m is not None else rows["sheet"]["wide_ft"] * FOOT_M
    kerf = kerf_mm / 1000 if kerf_mm is not None else rows["kerf"]["full_in"] * INCH_M
    pieces = [_piece(text) for text in piece]
    for each in pieces:
        if not each.fits(long, wide, grain):
            raise BadInput(
                f"{each.name} of {each.long_m:.4g} x {each.wide_m:.4g} m does not fit on a sheet "
                f"of {long:.4g} x {wide:.4g} m{' without turning it' if grain else ''}"
            )
    plain_m2 = sum(area_m2)
    less = sum(less_m2)
    if less and less >= plain_m2:
        raise BadInput(f"--less takes away {less:g} m2 of the {plain_m2:g} m2 to cover")
    cut_m2 = sum(each.area_m2(kerf) for each in pieces)
    need_m2 = cut_m2 + plain_m2 - less
    waste = waste_percent if waste_percent is not None else rows["waste"][f"{layout}_percent"]
    one_m2 = long * wide
    bare = ceil(need_m2 / one_m2 - 1e-9)
    by_area = ceil(need_m2 * (1 + waste / 100) / one_m2 - 1e-9)
    in_rows = [ceil(each.count / each.on_one(long, wide, kerf, grain) - 1e-9) for each in pieces]
    sheets = max([by_area, *in_rows])
    offcut = 100 * (1 - need_m2 / (sheets * one_m2))
    figures = [
        Figure("sheets", sheets, "", f"to buy, of {long:.4g} x {wide:.4g} m"),
        Figure("area_m2", need_m2, "m2", "needed, kerf included"),
        Figure("bare_sheets", bare, "", "if nothing were wasted"),
        Figure("waste_percent", float(waste), "%", "waste reckoned with"),
        Figure("offcut_percent", max(0.0, offcut), "%", "of what is bought is over"),
        Figure("kerf_mm", 1000 * kerf, "mm", "lost at each cut"),
    ]
    working = [
        f"{each.name}: {each.count} x ({each.long_m:.4g} + {kerf:.3g}) m x "
        f"({each.wide_m:.4g} + {kerf:.3g}) m = {each.area_m2(kerf):.4g} m2"
        for each in pieces
    ]
    working.append(f"area = {cut_m2:.4g} + {plain_m2:.4g} - {less:.4g} = {need_m2:.4g} m2")
    working.append(
        f"sheets = {need_m2:.4g} m2 x (1 + {waste:g} / 100) / {one_m2:.4g} m2, rounded up = "
        f"{by_area}"
    )
    thin = rows["kerf"]["thin_in"] * INCH_M
    thin_m2 = sum(each.area_m2(thin) for each in pieces) + plain_m2 - less
    others = [("area with a thin blade", f"{thin_m2:.6g} m2")]
    other = "complex" if layout == "simple" else "simple"
    other_waste = rows["waste"][f"{other}_percent"]
    also = ceil(need_m2 * (1 + other_waste / 100) / one_m2 - 1e-9)
    others.append((f"for a {other} layout, {other_waste:g} % waste", f"{also} sheets"))
    sources = [source("cutlist", rows[name]["source"]) for name in ("sheet", "waste", "kerf")]
    if thick_mm is not None:
        each_kg, light_kg, where = _mass(material, one_m2, thick_mm)
        figures.append(Figure("sheet_kg", each_kg, "kg", "one sheet"))
        figures.append(Figure("mass_kg", sheets * each_kg, "kg", "all of them"))
        working.append(f"mass = {sheets} x {each_kg:.4g} kg = {sheets * each_kg:.4g} kg")
        others.append(("one sheet by another table", f"{light_kg:.5g} kg"))
        sources += where
    most = max(in_rows, default=0)
    return Result(
        f"{sheets} sheet{'s' if sheets != 1 else ''} of {long:.4g} x {wide:.4g} m",
        tuple(figures),
        f"area with {waste:g} % waste" if by_area >= most else "how the pieces lie in rows",
        tuple(working),
        tuple(others),
        tuple(dict.fromkeys(sources)),
        (
            "By area alone pieces may still not lie together on a sheet: lay them out on paper "
            "before you cut.",
            "Dust of boards and treated wood harms lungs: mask and extraction; support a sheet "
            "before the last cut.",
        ),
        version("cutlist"),
    )


def _mass(
    material: str, area_m2: float, thick_mm: float
) -> tuple[float, float, tuple[Source, Source]]:
    """The mass of a sheet (kg) by the heavier table and by the other, with both sources."""
    rows = table("cutlist")
    inches = thick_mm / 1000 / INCH_M
    by_table = {
        "plywood": (
            rows["plywood"]["lb_ft2_in"] * inches * POUND_KG / FOOT_M**2 * area_m2,
            rows["plywood-ashrae"]["kg_m3"] * area_m2 * thick_mm / 1000,
            ("plywood", "plywood-ashrae"),
        ),
        "steel": (
            rows["steel"]["kg_m3"] * area_m2 * thick_mm / 1000,
            rows["steel-iso"]["kg_m3"] * area_m2 * thick_mm / 1000,
            ("steel", "steel-iso"),
        ),
        "aluminium": (
            rows["aluminium"]["kg_m3"] * area_m2 * thick_mm / 1000,
            rows["aluminium-pure"]["kg_m3"] * area_m2 * thick_mm / 1000,
            ("aluminium", "aluminium-pure"),
        ),
    }
    heavy, light, names = by_table[material]
    first, second = (source("cutlist", rows[name]["source"]) for name in names)
    return float(heavy), float(light), (first, second)


def _piece(text: str) -> Piece:
    """Pieces from what was typed: ``4 x 600mm x 400mm``, ``shelf 2ft x 16in``."""
    found = re.fullmatch(
        r"\s*(.*?)\s*(?<!\S)(?:([0-9]{1,4})\s*[x×*]\s*)?([0-9.][^x×*]*?)\s*[x×*]\s*([^x×*]+?)\s*",
        text,
        re.I | re.S,
    )
    if found is None:
        raise BadInput(
            f"--piece '{text[:40]}' can't be read; write it like '4 x 600mm x 400mm', the side "
            "along the sheet first"
        )
    unit = re.search(r"[A-Za-z'\"]+\s*$", found[4])
    sides = []
    for side in (found[3], found[4]):
        bare = not re.search(r"[A-Za-z'\"]\s*$", side)
        try:
            sides.append(parse(f"{side} {unit[0]}" if bare and unit else side, "m"))
        except BadInput as error:
            raise BadInput(f"--piece '{text[:40]}': {error}") from None
    count = int(found[2] or 1)
    for name, value, low, high, unit_said in (
        ("the count", float(count), 1.0, 1000.0, ""),
        ("a side", min(sides), 0.005, 12.0, "m"),
        ("a side", max(sides), 0.005, 12.0, "m"),
    ):
        if not low <= value <= high:
            raise OutOfRange(f"--piece: {name}", value, low, high, unit_said, OWN_RANGE)
    return Piece(found[1].rstrip(": ") or "piece", count, sides[0], sides[1])


HELPER = Helper(
    "cutlist",
    "sheets and boards by area, with waste and mass",
    INPUTS,
    cutlist,
    """\
  closein size cutlist --piece "4 x 600mm x 400mm" --piece "bed 6ft x 30in" --thick 18mm
  closein size cutlist --area 14m2 --less 2m2 --layout complex""",
    {"part": {"needed": "sheets"}},
)
