"""How far a surface is above the dew point of the air around it."""

from __future__ import annotations

from math import log

from tracker.errors import BadInput

A, B_C = 17.625, 243.04
"""The two constants of the Magnus formula over water; ``B_C`` in degrees Celsius."""
COLDEST_C, WARMEST_C = -40.0, 50.0
"""The range of air temperature for which the constants were fitted."""


def dew_point_c(air_c: float, humidity_pct: float) -> float:
    """The temperature (C) to which air must cool before dew forms.

    Formula: g = ln(RH / 100) + a T / (b + T); dew point = b g / (a - g), a = 17.625, b = 243.04 C.
    Source: O. A. Alduchov and R. E. Eskridge, Improved Magnus form approximation of saturation
    vapor pressure, Journal of Applied Meteorology 35 (1996): the constants, over water, with
    their range of -40 to 50 C.

    Parameters
    ----------
    air_c: air temperature (C), -40 to 50.
    humidity_pct: relative humidity (percent), above 0 to 100.

    Raises
    ------
    BadInput: a reading outside its range.
    """
    if not COLDEST_C <= air_c <= WARMEST_C:
        raise BadInput(
            f"air at {air_c:g} C is outside {COLDEST_C:g} to {WARMEST_C:g} C, "
            "for which the dew point can be worked out"
        )
    if not 0.0 < humidity_pct <= 100.0:
        raise BadInput(f"humidity {humidity_pct:g}% is outside 0 to 100%")
    g = log(humidity_pct / 100.0) + A * air_c / (B_C + air_c)
    return B_C * g / (A - g)


def margin_k(surface_c: float, air_c: float, humidity_pct: float) -> float:
    """How far (K) a surface is above the dew point, to a hundredth; below 0 it is wet.

    Parameters
    ----------
    surface_c: temperature of the surface (C).
    air_c, humidity_pct: of the air at it; see :func:`dew_point_c`.
    """
    return round(surface_c - dew_point_c(air_c, humidity_pct), 2)
