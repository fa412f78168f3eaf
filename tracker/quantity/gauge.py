"""American wire gauge: a size by its number, as diameter and area.

Source: ASTM B258, definition of the gauge: 36 AWG is 0.005 in and 4/0 is 0.46 in in diameter,
with 39 equal ratios between them, hence d = 0.005 in x 92^((36 - n) / 39). The figures are those
of solid round wire of exactly that size; made-up cable may have less copper.
"""

from __future__ import annotations

from math import pi

SMALLEST, LARGEST = 40, -3
"""The gauge numbers taken, 4/0 being -3, 3/0 -2, 2/0 -1 and 1/0 0."""


def awg_diameter_mm(number: int) -> float:
    """Diameter (mm) of solid wire of a gauge.

    Parameters
    ----------
    number: gauge from -3 (4/0) to 40; ValueError outside.
    """
    if not LARGEST <= number <= SMALLEST:
        raise ValueError(f"gauge {number} is outside 4/0 to {SMALLEST}")
    return float(0.127 * 92.0 ** ((36 - number) / 39))


def awg_area_mm2(number: int) -> float:
    """Area (mm2) of solid wire of a gauge; see :func:`awg_diameter_mm`."""
    return pi / 4 * awg_diameter_mm(number) ** 2


def awg_name(area_mm2: float, within: float = 0.005) -> str | None:
    """The gauge whose area this is, such as ``14 AWG`` or ``2/0 AWG``; None when it is none.

    Parameters
    ----------
    area_mm2: the area (mm2).
    within: how far it may be off, as a fraction. Neighbours differ by about 0.26.
    """
    for number in range(LARGEST, SMALLEST + 1):
        exact = awg_area_mm2(number)
        if abs(area_mm2 - exact) <= within * exact:
            return f"{number} AWG" if number > 0 else f"{1 - number}/0 AWG"
    return None


def awg_number(digits: str) -> int | None:
    """The gauge number of ``14``, ``0``, ``2/0`` or ``00``; None when it is none."""
    if digits.endswith("/0") and digits[:-2] in ("1", "2", "3", "4"):
        return 1 - int(digits[:-2])
    if digits and set(digits) == {"0"} and len(digits) <= 4:
        return 1 - len(digits)
    if digits.isascii() and digits.isdigit() and 1 <= len(digits) <= 2 and digits[0] != "0":
        number = int(digits)
        return number if number <= SMALLEST else None
    return None
