"""How much current a size may carry under a rule set, with every correction shown."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import sqrt

from tracker.quantity import awg_area_mm2
from tracker.sizing.copper import Wire
from tracker.sizing.result import Source
from tracker.sizing.tables import source, table

RULES = ("33cfr183", "nec310", "iso10133")
"""Rule sets by name; the first is taken when nothing is said."""

RULE_TITLES = {
    "33cfr183": "33 CFR 183 (boats)",
    "nec310": "NEC 310.16 (buildings)",
    "iso10133": "ISO 10133 (small craft)",
}


@dataclass(frozen=True, slots=True)
class Ampacity:
    """What a size may carry.

    Parameters
    ----------
    base_a: as the table prints it (A).
    ambient_factor, bundle_factor, foam_factor: corrections, each 0 to 1.
    corrected_a: all of them multiplied (A).
    row: the table's row, which is another size's where the family differs.
    column_c: the insulation column used (C).
    sources: where all of it comes from.
    """

    base_a: float
    ambient_factor: float
    bundle_factor: float
    foam_factor: float
    corrected_a: float
    row: str
    column_c: int
    sources: tuple[Source, ...]


def ampacity(
    wire: Wire,
    rules: str,
    insulation_c: int,
    ambient_c: float = 30.0,
    bundled: int = 2,
    in_foam: bool = False,
) -> Ampacity | None:
    """The current a size may carry; None where the rule set has no row for it.

    Parameters
    ----------
    wire: the size.
    rules: one of :data:`RULES`.
    insulation_c: rating of the insulation (C).
    ambient_c: around the cable (C); below the table's base nothing is gained.
    bundled: current-carrying conductors lying together, its own among them.
    in_foam: is it buried in insulation?
    """
    tables = table("ampacity")
    group = tables[rules]
    row = _row(wire, rules)
    if row is None:
        return None
    columns: list[int] = [int(column) for column in group["insulation_c"]]
    fits = [column for column in columns if column <= insulation_c]
    if not fits:
        return None
    column = max(fits)
    base_a = float(group["amps"][row][columns.index(column)])
    ambient, ambient_sources = _ambient_factor(rules, column, ambient_c)
    bundle, bundle_sources = _bundle_factor(rules, bundled)
    foam = float(tables["foam"]["factor"]) if in_foam else 1.0
    foam_sources = [source("ampacity", tables["foam"]["source"])] if in_foam else []
    found = [source("ampacity", group["source"]), *ambient_sources, *bundle_sources, *foam_sources]
    return Ampacity(
        base_a, ambient, bundle, foam, base_a * ambient * bundle * foam, row, column, tuple(found)
    )


def _row(wire: Wire, rules: str) -> str | None:
    """The row of a size: its own, else that of the next size not larger in area."""
    rows = table("ampacity")[rules]["amps"]
    metric_rows = rules == "iso10133"
    if metric_rows == (wire.family == "mm2") and wire.key in rows:
        return wire.key
    if metric_rows:
        areas = {key: float(key) for key in rows}
    else:
        areas = {key: _awg_area(key) for key in rows}
    fits = [key for key, area in areas.items() if area <= wire.area_mm2 * 1.001]
    return max(fits, key=lambda key: areas[key]) if fits else None


@cache
def _awg_area(key: str) -> float:
    return awg_area_mm2(1 - int(key[0]) if "/" in key else int(key))


def _ambient_factor(rules: str, column_c: int, ambient_c: float) -> tuple[float, list[Source]]:
    tables = table("ampacity")
    base_c = float(tables[rules]["base_c"])
    if ambient_c <= base_c:
        return 1.0, []
    if rules == "nec310":
        group = tables["nec310-ambient"]
        factors = group[f"c{column_c}"]
        for to_c, factor in zip(group["to_c"], factors, strict=False):
            if ambient_c <= to_c:
                return float(factor), [source("ampacity", group["source"])]
        return 0.0, [source("ampacity", group["source"])]
    if ambient_c >= column_c:
        return 0.0, [source("ampacity", "root-law")]
    factor = sqrt((column_c - ambient_c) / (column_c - base_c))
    engine = tables["33cfr183-engine"]
    if rules == "33cfr183" and column_c == engine["insulation_c"] and ambient_c >= engine["from_c"]:
        named = [source("ampacity", engine["source"]), source("ampacity", "root-law")]
        return min(factor, float(engine["factor"])), named
    return factor, [source("ampacity", "root-law")]


def _bundle_factor(rules: str, bundled: int) -> tuple[float, list[Source]]:
    """ISO 10133 prints none that was seen, so that the stricter of the others stands in."""
    group = table("ampacity")["nec310-bundle" if rules == "nec310" else "33cfr183-bundle"]
    factor = 1.0
    for count, share in zip(group["from_count"], group["factor"], strict=True):
        if bundled >= count:
            factor = float(share)
    return factor, [source("ampacity", group["source"])] if factor < 1 else []


def least_area_mm2(rules: str, sheathed: bool) -> tuple[float, str, Source]:
    """The smallest conductor a rule set lets be used: its area, its name and where it says so."""
    group = table("ampacity")[f"{rules}-minimum"]
    said = source("ampacity", group["source"])
    if rules == "iso10133":
        area = float(group["sheathed_mm2" if sheathed else "single_mm2"])
        return area, f"{area:g} mm2", said
    key = group["sheathed" if sheathed else "single"]
    return _awg_area(key), f"{key} AWG", said


def device_cap_a(rules: str, row: str) -> tuple[float, Source | None]:
    """The largest device a rule set lets protect a small conductor; infinite for the others."""
    if rules != "nec310":
        return float("inf"), None
    group = table("ampacity")["nec310-device"]
    if row not in group["largest_a"]:
        return float("inf"), None
    return float(group["largest_a"][row]), source("ampacity", group["source"])


def working_temperature_c(
    current_a: float, found: Ampacity | None, ambient_c: float, insulation_c: float
) -> float:
    """How warm the copper becomes: the ambient plus a rise that goes with the square of current.

    Its full rise, to the rating of the insulation, comes at the corrected ampacity. Never below
    the ambient, never above the rating.
    """
    if found is None or found.corrected_a <= 0:
        return max(float(insulation_c), ambient_c)
    top_c = max(float(found.column_c), ambient_c)
    share = min(1.0, current_a / found.corrected_a)
    return ambient_c + (top_c - ambient_c) * share * share
