"""What is said of a wall: what governed, the working, other answers, sources and cautions."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.sizing.layer import RSI, Paths, conductivities
from tracker.sizing.layers import METAL, Wall, least_thickness_mm, place_of, rib_face_c
from tracker.sizing.result import Source
from tracker.sizing.tables import source, table


def governs(rib: str | None, passes: bool, name: str) -> str:
    """Which limit set the U-value, and whether the kept face is dry."""
    dry = f"{name} keeps its inner face dry" if passes else f"the face inside {name} gets wet"
    if rib is None:
        return f"the layers alone, no ribs; {dry}"
    if rib == "softwood":
        return f"the mean of both limits (ISO 6946); {dry}"
    return f"the lower limit, since metal ribs are outside ISO 6946; {dry}"


def working(
    built: Wall,
    found: Paths,
    rib: str | None,
    u: float,
    dew_c: float,
    kept: int,
    least: float | None,
) -> list[str]:
    """The resistances and what follows from them, one a line."""
    said = [
        f"{each.name}: {each.thickness_m:.4g} m / {each.conductivity_w_mk:.4g} W/mK = "
        f"{each.resistance_m2k_w:.4g} m2K/W"
        if each.thickness_m is not None and each.conductivity_w_mk is not None
        else f"{each.name}: {each.resistance_m2k_w:.4g} m2K/W"
        for each in built.layers
    ]
    said.append(
        f"R = {built.outside_m2k_w:g} + {sum(built.resistances):.4g} + {built.inside_m2k_w:g} = "
        f"{found.clear:.4g} m2K/W between ribs"
    )
    if rib is not None:
        said.append(f"with ribs R lies between {found.lower:.4g} and {found.upper:.4g} m2K/W")
    said.append(f"U = 1 / {1 / u:.4g} = {u:.4g} W/m2K")
    if least is not None:
        said.append(
            f"least {built.layers[kept].name} = {built.layers[kept].conductivity_w_mk:.4g} x "
            f"({built.inside_of(kept):.4g} (Td - To) / (Ti - Td) - {built.outside_of(kept):.4g}), "
            f"Td = {dew_c:.2f} C, = {least:.4g} mm"
        )
    return said


def others(
    built: Wall,
    found: Paths,
    rib: str | None,
    flow: str,
    kept: int,
    inside_c: float,
    outside_c: float,
    dew_c: float,
    through: str | None,
) -> list[tuple[str, str]]:
    """What other surfaces, limits and factors give."""
    films = table("wall")["films"]
    ashrae = (films["inside_r"][flow] + films["outside_r"]) * RSI + sum(built.resistances)
    said = [("between ribs with the surfaces of ASHRAE", f"U {1 / ashrae:.4g} W/m2K")]
    if rib is not None:
        said.append(("without the ribs", f"U {1 / found.clear:.3g} W/m2K"))
        said.append(("if heat kept to its path", f"U {1 / found.upper:.3g} W/m2K"))
    if rib == "steel":
        bridged = built.resistances[place_of(built, through, "--rib-in")]
        keeps = table("wall")["steel-studs"]["keeps_percent"] / 100
        left = found.clear - bridged * (1 - keeps)
        said.append(("by the factor of steel studs at 16 in", f"U {1 / left:.4g} W/m2K"))
    least = least_thickness_mm(
        built, kept, inside_c, outside_c, dew_c, float(table("wall")["mould"]["inside_m2k_w"])
    )
    if least is not None:
        said.append(("least thickness behind furniture, surface 0.25", f"{least:.4g} mm"))
    return said


def sources(built: Wall, rib: str | None) -> list[Source]:
    """Of the surfaces, every layer and the rib."""
    found = [source("wall", table("wall")["surface"]["source"])]
    found += [each.source for each in built.layers if each.source is not None]
    if rib is not None:
        found.append(source("wall", conductivities()[rib][1]))
    if rib == "steel":
        found.append(source("wall", table("wall")["steel-studs"]["source"]))
    found += [
        source("wall", table("wall")["films"]["source"]),
        source("wall", table("wall")["mould"]["source"]),
        source("dewpoint", table("dewpoint")["water"]["source"]),
    ]
    return list(dict.fromkeys(found))


def cautions(
    built: Wall,
    found: Paths,
    rib: str | None,
    faces: Sequence[float],
    kept: int,
    dew_c: float,
    inside_c: float,
    outside_c: float,
) -> list[str]:
    """What may get wet, and what is not counted."""
    said = []
    behind = [
        each.name
        for each, face in zip(built.layers[:kept], faces[1 : kept + 1], strict=True)
        if face < dew_c
    ]
    if faces[0] < dew_c or behind:
        where = f"the skin and the inside of {', '.join(behind)}" if behind else "the skin"
        said.append(
            f"{where[:1].upper()}{where[1:]} lie{'' if behind else 's'} below the dew point: dry "
            f"only while no inside air gets past {built.layers[kept].name}."
        )
    if rib is not None and rib_face_c(built, found, inside_c, outside_c) < dew_c:
        said.append("Over the ribs the inner surface may fall below the dew point: break them.")
    if rib in METAL:
        said.append(
            f"Metal ribs can't be put in one number: U lies between {1 / found.upper:.2g} and "
            f"{1 / found.lower:.2g} W/m2K."
        )
    said.append(
        "Clear field and steady weather: corners, floor edges and behind cupboards are colder; "
        "the vapour resistance of layers is not counted."
    )
    return said
