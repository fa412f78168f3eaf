"""What a joist is made of: its section as typed, and the stresses it is allowed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.sizing.beam import Section, effective_length_m, rectangle, stability_factor, tube
from tracker.sizing.result import OutOfRange, Source
from tracker.sizing.tables import source, table

PSI_PA = 0.45359237 * 9.80665 / 0.0254**2
INCH_M = 0.0254
LUMBER = ("spf", "df", "hf", "sp")
METAL = ("steel", "aluminium")
OWN_RANGE = "joists of a vehicle"


@dataclass(frozen=True, slots=True)
class Strength:
    """What a section is allowed.

    Parameters
    ----------
    name: of the material.
    bending_pa, shear_pa: allowable stresses (Pa).
    modulus_pa: for deflection (Pa).
    working: how they came about, one a line.
    sources: of the values and factors.
    """

    name: str
    bending_pa: float
    shear_pa: float
    modulus_pa: float
    working: tuple[str, ...]
    sources: tuple[Source, ...]


def section_of(text: str, material: str) -> Section:
    """A section as typed: ``2x6``, ``38x140mm`` for lumber, ``50x50x3mm`` for a tube."""
    plain = text.strip().casefold().replace("×", "x").replace(" ", "")
    sizes = table("joist")["size"]
    if plain in sizes["depth_in"]:
        if material in METAL:
            raise BadInput(f"'{plain}' is lumber; write a tube like 50x50x3mm")
        depth = sizes["depth_in"][plain] * INCH_M
        return rectangle(plain, sizes["width_in"] * INCH_M, depth)
    found = re.fullmatch(r"([0-9./-]+)x([0-9./-]+)(?:x([0-9./-]+))?(mm|cm|in|\")", plain)
    if found is None:
        raise BadInput(f"'{text[:30]}' is no section; write 2x6, 38x140mm or 50x50x3mm")
    width, depth = (parse(f"{found[n]} {found[4]}", "m") for n in (1, 2))
    wall = parse(f"{found[3]} {found[4]}", "m") if found[3] else None
    for name, value in (("width", width), ("depth", depth)):
        if not 0.01 <= value <= 0.5:
            raise OutOfRange(f"the {name} of the section", value, 0.01, 0.5, "m", OWN_RANGE)
    if material in LUMBER:
        if wall is not None:
            raise BadInput("lumber is solid: write it as 2x6 or 38x140mm")
        deepest = max(sizes["depth_in"].values()) * INCH_M
        if depth > deepest + 1e-6:
            raise OutOfRange("the depth of lumber", depth, 0.01, deepest, "m", "the size factors")
        return rectangle(text.strip(), width, depth)
    if wall is None:
        raise BadInput("a tube needs its wall, such as 50x50x3mm")
    if not 0.0008 <= wall < min(width, depth) / 2:
        raise OutOfRange("the wall", wall, 0.0008, min(width, depth) / 2, "m", OWN_RANGE)
    return tube(text.strip(), width, depth, wall)


def strength_of(
    section: Section,
    material: str,
    *,
    alone: bool = False,
    wet: bool = False,
    incised: bool = False,
    welded: bool = False,
    unbraced_m: float | None = None,
) -> Strength:
    """The stresses allowed to a section.

    Parameters
    ----------
    alone: a single beam, not three or more side by side at most 24 in apart.
    wet, incised: lumber out in the weather; with the cuts of pressure treatment.
    welded: metal with welds along the span.
    unbraced_m: between points that hold the top edge sideways (m); None when the deck holds it.
    """
    if material in METAL:
        return _metal(material, welded)
    return _lumber(section, material, alone, wet, incised, unbraced_m)


def depth_key(depth_m: float) -> str:
    """The row of the size tables for a depth (m): the next deeper, which is never stronger."""
    depths = table("joist")["size"]["depth_in"]
    deep_enough = [key for key, inches in depths.items() if inches * INCH_M >= depth_m - 1e-6]
    return str(min(deep_enough, key=lambda key: depths[key]))


def emin_psi(material: str) -> float:
    """Modulus of lumber for stability (psi), before factors."""
    rows = table("joist")
    return float({**rows["emin"]["psi"], **rows["emin-unseen"]["psi"]}[material])


def _lumber(
    section: Section,
    material: str,
    alone: bool,
    wet: bool,
    incised: bool,
    unbraced_m: float | None,
) -> Strength:
    row, factors = table("joist")["lumber"][material], table("joist")["factors"]
    key = depth_key(section.depth_m)
    by_depth = row.get("fb_by_depth_psi")
    base = by_depth[key] if by_depth else row["fb_psi"]
    size = 1.0 if by_depth else factors["size"][key]
    repetitive = 1.0 if alone else factors["repetitive"]
    damp = factors["wet_fb"] if wet and base * size > factors["wet_fb_none_up_to_psi"] else 1.0
    cut = factors["incised_fb"] if incised else 1.0
    fb = base * size * repetitive * damp * cut
    stiff = (factors["wet_e"] if wet else 1.0) * (factors["incised_e"] if incised else 1.0)
    fv = row["fv_psi"] * (factors["wet_fv"] if wet else 1.0)
    fv *= factors["incised_fv"] if incised else 1.0
    working = [
        f"Fb' = {base:g} x {size:g} (size) x {repetitive:g} (neighbours) x {damp:g} (wet) x "
        f"{cut:g} (incised) = {fb:.4g} psi = {fb * PSI_PA / 1e6:.4g} MPa"
    ]
    if unbraced_m is not None:
        long_m = effective_length_m(unbraced_m, section.depth_m)
        keeps = stability_factor(
            long_m, section.width_m, section.depth_m, fb, emin_psi(material) * stiff
        )
        fb *= keeps
        working.append(f"and {keeps:.3g} of it, as the top edge is held each {unbraced_m:.3g} m")
    sources = (source("joist", row["source"]), source("joist", factors["source"]))
    return Strength(
        row["name"],
        fb * PSI_PA,
        fv * PSI_PA,
        row["e_psi"] * stiff * PSI_PA,
        tuple(working),
        sources,
    )


def _metal(material: str, welded: bool) -> Strength:
    rows = table("joist")
    row, allowed = rows["metal"][material], rows["allowable"]
    fy = float(row["yield_psi"])
    sources = [source("joist", row["source"])]
    if welded and material == "aluminium":
        fy = float(rows["welded"]["yield_psi"])
        sources.append(source("joist", rows["welded"]["source"]))
    bending, shear = _allowed(material, fy, allowed)
    working = (
        f"Fb = {fy:g} psi x {bending / fy:.3g} = {bending:.4g} psi = "
        f"{bending * PSI_PA / 1e6:.4g} MPa",
    )
    sources.append(source("joist", allowed["source"]))
    return Strength(
        row["name"],
        bending * PSI_PA,
        shear * PSI_PA,
        row["e_psi"] * PSI_PA,
        working,
        tuple(sources),
    )


def _allowed(material: str, fy: float, allowed: Any) -> tuple[float, float]:
    if material == "steel":
        return fy * allowed["steel_bending"], fy * allowed["steel_shear"]
    bending = fy / allowed["aluminium_over"]
    return bending, bending * allowed["aluminium_shear"]
