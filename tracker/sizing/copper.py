"""Copper conductors: their sizes, areas and resistances at a temperature.

Three families of sizes: AWG by the area of the gauge, SAE by the least area the vehicle standard
allows under the same numbers, and metric by IEC 60228.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from tracker.errors import BadInput
from tracker.quantity import awg_area_mm2, awg_name, parse
from tracker.sizing.result import Source
from tracker.sizing.tables import source, table

MM2_PER_CMIL = pi / 4 * 0.0254**2
"""A circular mil is the area of a circle of one thousandth of an inch."""

FT_M = 0.3048
AWG_STOCKED = ("18", "16", "14", "12", "10", "8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0")
"""AWG sizes that are chosen from; 3 AWG is read and rated but seldom sold."""

MM2_STOCKED = (*("0.75", "1", "1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95"),)
MADE: dict[str, tuple[str, ...]] = {
    "awg": ("stranded", "solid", "aircraft"),
    "sae": ("sae",),
    "mm2": ("class-5", "class-5-tinned", "class-2"),
}
"""Family of sizes -> how the copper may be made up; the first is taken when nothing is said."""


@dataclass(frozen=True, slots=True)
class Wire:
    """A size of conductor.

    Parameters
    ----------
    family: awg, sae or mm2.
    key: the size as tables name it, such as ``14``, ``1/0`` or ``2.5``.
    area_mm2: copper area (mm2).
    """

    family: str
    key: str
    area_mm2: float

    @property
    def label(self) -> str:
        """What people read: ``14 AWG``, ``14 SAE`` or ``2.5 mm2``."""
        return f"{self.key} {dict(awg='AWG', sae='SAE', mm2='mm2')[self.family]}"

    def __str__(self) -> str:
        return self.label


def awg(key: str) -> Wire:
    """A size by the gauge."""
    number = 1 - int(key[0]) if "/" in key else int(key)
    return Wire("awg", key, awg_area_mm2(number))


def sae(key: str) -> Wire:
    """A size by the vehicle standard, with its least area."""
    return Wire("sae", key, table("copper")["sae"]["area_cmil"][key] * MM2_PER_CMIL)


def metric(key: str) -> Wire:
    """A metric size."""
    return Wire("mm2", key, float(key))


def stocked(family: str) -> list[Wire]:
    """The sizes of a family to choose from, the smallest first."""
    if family == "mm2":
        return [metric(key) for key in MM2_STOCKED]
    return [(awg if family == "awg" else sae)(key) for key in AWG_STOCKED]


def wire_of(text: str) -> Wire:
    """A size as typed: ``14AWG``, ``2/0``, ``SAE 14``, ``2.5mm2``.

    Raises
    ------
    BadInput: a bare number, or a size that no table has.
    """
    plain = text.strip()
    if found := re.fullmatch(r"(?i)(?:sae\s*([0-9]{1,2}(?:/0)?)|([0-9]{1,2}(?:/0)?)\s*sae)", plain):
        key = found[1] or found[2]
        if key not in table("copper")["sae"]["area_cmil"]:
            raise BadInput(f"'{plain[:20]}' is no SAE size from 18 to 4/0")
        return sae(key)
    area_mm2 = parse(plain, "mm2")
    name = None if re.search(r"(?i)mm|sq", plain) else awg_name(area_mm2)
    if name is not None:
        wire = awg(name.removesuffix(" AWG"))
        if wire.key not in table("copper")["stranded"]["ohm_per_kft"]:
            raise BadInput(f"{wire} is in no table here; give 18 to 4/0 AWG")
        return wire
    low, high = 0.5, 95.0
    if not low <= area_mm2 <= high:
        raise BadInput(f"{area_mm2:g} mm2 is in no table here; give {low:g} to {high:g} mm2")
    return Wire("mm2", f"{area_mm2:.6g}", area_mm2)


def resistivity_ohm_mm2_per_m() -> float:
    """Of annealed copper at 20 C."""
    return float(table("copper")["resistivity"]["ohm_mm2_per_m"])


def per_kelvin() -> float:
    """How much the resistance of copper rises for each kelvin, as a part of that at 20 C."""
    return float(table("copper")["temperature"]["per_k"])


def at_temperature(resistance: float, from_c: float, to_c: float) -> float:
    """A resistance at another temperature: R2 = R1 (1 + a (T2 - 20)) / (1 + a (T1 - 20))."""
    a = per_kelvin()
    return resistance * (1 + a * (to_c - 20)) / (1 + a * (from_c - 20))


def ohm_per_m(wire: Wire, temperature_c: float, made: str | None = None) -> float:
    """Resistance of one metre of one conductor.

    Parameters
    ----------
    wire: its size.
    temperature_c: of the copper (C).
    made: how it is made up, one of :data:`MADE` for its family; by default the first.

    Raises
    ------
    BadInput: this size is not made so, or has no row.
    """
    kind = made or MADE[wire.family][0]
    if kind not in MADE[wire.family]:
        raise BadInput(f"{wire} is not made '{kind}'; it is {' or '.join(MADE[wire.family])}")
    if kind == "solid":
        return at_temperature(resistivity_ohm_mm2_per_m() / wire.area_mm2, 20, temperature_c)
    if kind == "sae":
        lay = table("copper")["lay"]["stranded_over_solid"]
        return at_temperature(lay * resistivity_ohm_mm2_per_m() / wire.area_mm2, 20, temperature_c)
    group = table("copper")[kind]
    if "ohm_per_kft" in group:
        rows, metres = group["ohm_per_kft"], 1000 * FT_M
        if wire.key not in rows:
            raise BadInput(f"{wire} has no row in {source('copper', group['source'])}")
        at_base = rows[wire.key] / metres
    else:
        at_base = _between_rows(group["ohm_per_km"], wire.area_mm2) / 1000
    return at_temperature(at_base, group["at_c"], temperature_c)


def _between_rows(rows: Mapping[str, float], area_mm2: float) -> float:
    """The resistance of a metric size; between two rows the worse resistivity of both."""
    below = max((key for key in rows if float(key) <= area_mm2 * 1.001), key=float, default=None)
    above = min((key for key in rows if float(key) >= area_mm2 * 0.999), key=float, default=None)
    if below is None or above is None:
        raise BadInput(f"{area_mm2:.3g} mm2 lies outside the rows of the table")
    worst = max(rows[key] * float(key) for key in (below, above))
    return min(float(rows[below]), worst / area_mm2)


def resistance_source(wire: Wire, made: str | None = None) -> Source:
    """Where the resistance of a size comes from."""
    kind = made or MADE[wire.family][0]
    if kind == "solid":
        return source("copper", table("copper")["resistivity"]["source"])
    return source("copper", table("copper")[kind]["source"])


def least_cmil(current_a: float, loop_m: float, drop_v: float) -> float:
    """Circular mils by the trade's rule, CM = K I L / E.

    Parameters
    ----------
    current_a: load (A).
    loop_m: conductor there and back (m).
    drop_v: drop allowed (V).
    """
    k = table("copper")["circular-mil"]["k_ohm_cmil_per_ft"]
    return float(k * current_a * (loop_m / FT_M) / drop_v)


def cmil_of(wire: Wire) -> float:
    """The area of a size in circular mils."""
    return wire.area_mm2 / MM2_PER_CMIL
