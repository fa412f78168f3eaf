"""Dew or frost point of the air, and how far a surface is above it."""

from __future__ import annotations

from math import exp, log

from tracker.sizing.result import Figure, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

FITTED = "the range for which the coefficients were fitted"
INPUTS = (
    Input("air_c", "--air", "temperature of the air at the surface", "C", low=-40, high=50,
          why=FITTED, required=True),
    Input("humidity_percent", "--humidity", "relative humidity of that air", "%", low=0.1,
          high=100, why="relative humidity", required=True),
    Input("surface_c", "--surface", "temperature of the coldest surface", "C", low=-60, high=80,
          why="surfaces that are coated"),
    Input("rules", "--rules", "the margin asked: 3 C, or 5 F", type="choice",
          choices=("3c", "5f"), default="3c"),
    Input("asked_k", "--margin", "the margin of the product's own sheet, instead", "K", low=0,
          high=20, why="margins that sheets ask"),
)  # fmt: skip


def dewpoint(
    air_c: float,
    humidity_percent: float,
    surface_c: float | None = None,
    rules: str = "3c",
    asked_k: float | None = None,
) -> Result:
    """Dew or frost point of air, and whether a surface is far enough above it to coat or foam.

    Formula
    -------
    g = ln(RH / 100) + a T / (b + T); dew point = b g / (a - g), with a = 17.625, b = 243.04 C
    over water; below 0 C over ice (frost point) with a = 22.587, b = 273.86 C. Humidity counts
    over ice where the air is below 0 C, as psychrometric tables do.

    Parameters
    ----------
    air_c: temperature of the air at the surface [C].
    humidity_percent: relative humidity of that air [%].
    surface_c: temperature of the coldest surface [C].
    rules: 3c for 3 C above the dew point, 5f for 5 F [-].
    asked_k: the margin of the product's own sheet, instead [K].

    Returns
    -------
    Result with dew_point_c, kind (dew or frost), margin_c and passes (both None without a surface),
    and vapour_pa.

    Valid
    -----
    air_c: -40..50
    humidity_percent: 0.1..100
    surface_c: -60..80
    asked_k: 0..20

    Source
    ------
    Alduchov and Eskridge, Journal of Applied Meteorology 35 (1996); the 3 C of coating work and
    the 5 F of coating and foam sheets.

    Example
    -------
    Air at 70 F and 65 % has its dew point at 57 F: no coating below 62 F (a coating supplier).
    """
    guard(
        INPUTS,
        air_c=air_c,
        humidity_percent=humidity_percent,
        surface_c=surface_c,
        rules=rules,
        asked_k=asked_k,
    )
    point_c = dew_point_c(air_c, humidity_percent)
    kind = "frost" if point_c < 0 else "dew"
    need_k = asked_k if asked_k is not None else rule_k(rules)
    margin = None if surface_c is None else surface_c - point_c
    passes = None if margin is None else margin >= need_k - 1e-9
    figures = (
        Figure("dew_point_c", point_c, "C", f"{kind} point of the air"),
        Figure("kind", kind, "", "frost below 0 C, else dew"),
        Figure("margin_c", margin, "K", "surface above it"),
        Figure("asked_c", need_k, "K", "margin asked"),
        Figure("least_surface_c", point_c + need_k, "C", "the surface must be at least this"),
        Figure("passes", passes, "", "is the margin met?"),
        Figure("vapour_pa", humidity_percent / 100 * saturation_pa(air_c), "Pa", "in the air"),
    )
    row = table("dewpoint")["ice" if kind == "frost" else "water"]
    first = table("dewpoint")["ice" if air_c < 0 else "water"]
    working = [
        f"g = ln({humidity_percent:g} / 100) + {first['a']:g} x {air_c:.4g} / "
        f"({first['b_c']:g} + {air_c:.4g}), over {'ice' if air_c < 0 else 'water'}",
        f"{kind} point = {row['b_c']:g} g / ({row['a']:g} - g) = {point_c:.2f} C",
    ]
    if margin is not None:
        working.append(f"margin = {surface_c:g} C - {point_c:.2f} C = {margin:.2f} K")
    asked = "the product's own sheet" if asked_k is not None else f"the {_named(rules)} rule"
    if margin is None:
        title = f"{kind} point {point_c:.1f} C; the surface must be at {point_c + need_k:.1f} C"
        governs = f"{need_k:.3g} K above the {kind} point, by {asked}"
    else:
        title = (
            f"{kind} point {point_c:.1f} C; the surface is {abs(margin):.1f} K "
            f"{'above' if margin >= 0 else 'below'} it, "
            f"{'enough' if passes else 'not enough'} for {need_k:.3g} K"
        )
        governs = f"{need_k:.3g} K by {asked}"
    cautions = [
        "Measure the coldest metal, at ribs and sills, not the air beside it; measure again as "
        "the day turns.",
        "The product's sheet sets its own margin and temperatures; where stricter, it governs.",
    ]
    if kind == "frost":
        cautions.append(
            "Below 0 C it is frost that forms, and frost can't be felt as wet: look for it."
        )
    return Result(
        title,
        figures,
        governs,
        tuple(working),
        tuple(_others(air_c, humidity_percent, surface_c, rules)),
        (
            source("dewpoint", row["source"]),
            source("dewpoint", table("dewpoint")["rule"][rules]["source"]),
        ),
        tuple(cautions),
        version("dewpoint"),
    )


def dew_point_c(air_c: float, humidity_percent: float) -> float:
    """The temperature (C) to which air must cool before dew, or below 0 C frost, forms.

    Parameters
    ----------
    air_c: air temperature (C), -40 to 50.
    humidity_percent: relative humidity (%), 0.1 to 100.

    Raises
    ------
    OutOfRange: a reading outside its range.
    """
    guard(INPUTS, air_c=air_c, humidity_percent=humidity_percent)
    return point_c(air_c, humidity_percent, "water", "ice")


def margin_k(surface_c: float, air_c: float, humidity_percent: float) -> float:
    """How far (K) a surface is above the dew point, to a hundredth; below 0 it is wet.

    Parameters
    ----------
    surface_c: temperature of the surface (C).
    air_c, humidity_percent: of the air at it; see :func:`dew_point_c`.
    """
    return round(surface_c - dew_point_c(air_c, humidity_percent), 2)


def point_c(air_c: float, humidity_percent: float, water: str, ice: str | None) -> float:
    """The dew or frost point (C) by two rows of the table; without ``ice`` over water always.

    The pressures over water and over ice are taken as equal at 0 C, so that nothing jumps there.
    """
    below = ice if ice is not None else water
    rows = table("dewpoint")
    first = rows[water if air_c >= 0 else below]
    g = log(humidity_percent / 100.0) + first["a"] * air_c / (first["b_c"] + air_c)
    last = rows[water if g >= 0 else below]
    return float(last["b_c"] * g / (last["a"] - g))


def saturation_pa(air_c: float) -> float:
    """Vapour pressure (Pa) of saturated air, over ice below 0 C: p0 exp(a T / (b + T)).

    Within 0.3 % of the ASHRAE tables, for which the coefficients were not fitted.
    """
    rows = table("dewpoint")
    row = rows["water" if air_c >= 0 else "ice"]
    return float(rows["water"]["at_0_pa"] * exp(row["a"] * air_c / (row["b_c"] + air_c)))


def rule_k(rules: str) -> float:
    """The margin (K) that a rule asks."""
    row = table("dewpoint")["rule"][rules]
    return float(row["margin_k"]) if "margin_k" in row else float(row["margin_f"]) * 5 / 9


def _named(rules: str) -> str:
    return {"3c": "3 C", "5f": "5 F"}[rules]


def _others(
    air_c: float, humidity_percent: float, surface_c: float | None, rules: str
) -> list[tuple[str, str]]:
    said = [
        (
            "ISO 13788, from memory",
            f"{point_c(air_c, humidity_percent, 'iso-water', 'iso-ice'):.2f} C",
        ),
        ("WMO, over water", f"{point_c(air_c, humidity_percent, 'wmo', None):.2f} C"),
    ]
    if air_c < 0:
        rows = table("dewpoint")["water"], table("dewpoint")["ice"]
        g = log(humidity_percent / 100.0) + rows[0]["a"] * air_c / (rows[0]["b_c"] + air_c)
        frost = rows[1]["b_c"] * g / (rows[1]["a"] - g)
        said.append(("frost point if the hygrometer counts humidity over water", f"{frost:.2f} C"))
    other = "5f" if rules == "3c" else "3c"
    if surface_c is not None:
        met = surface_c - dew_point_c(air_c, humidity_percent) >= rule_k(other) - 1e-9
        said.append((f"by the {_named(other)} rule", "met" if met else "not met"))
    return said


HELPER = Helper(
    "dewpoint",
    "dew point, and how far a surface is above it",
    INPUTS,
    dewpoint,
    """\
  closein size dewpoint --air 62F --humidity 60% --surface 55F
  closein size dewpoint --air 8C --humidity 85% --surface 9C --to dew-point-margin --at roof""",
    {"check": {"value": "margin_c"}},
)
