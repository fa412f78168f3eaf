"""Which units each kind of field takes, and what one of them is worth.

A field is kept in one unit: m, mm, m2, mm2 (wire), l, A, V, W, Wh, Ah, %, kg, C, K (a difference
of temperatures), ohm, Mohm, h or Pa. A worth is a pair (times, divided by), so that what is typed
in the field's own unit, or in a decimal part of it, stays exact.

Sources: the inch is 25.4 mm, the pound 0.45359237 kg (international yard and pound agreement,
1959); the US gallon is 231 cubic inches; the imperial gallon 4.54609 l (UK Weights and Measures
Act 1985); an inch of water is 249.08891 Pa at 39.2 F (NIST SP 811, table B.8); the board foot,
144 cubic inches, is common practice.
"""

from __future__ import annotations

Worth = tuple[float, float]

_LENGTH_M: dict[str, Worth] = {
    "m": (1, 1),
    "cm": (1, 100),
    "mm": (1, 1000),
    "ft": (3048, 10000),
    "in": (254, 10000),
    "yd": (9144, 10000),
}
_POUND_KG, _INCH_M = 0.45359237, 0.0254

TAKEN: dict[str, dict[str, Worth]] = {
    "m": _LENGTH_M,
    "mm": {"mm": (1, 1), "cm": (10, 1), "m": (1000, 1), "in": (254, 10), "ft": (3048, 10)},
    "m2": {
        "m2": (1, 1),
        "cm2": (1, 10000),
        "ft2": (0.3048 * 0.3048, 1),
        "in2": (_INCH_M * _INCH_M, 1),
    },
    "mm2": {"mm2": (1, 1), "kcmil": (25.4 * 25.4 * 3.141592653589793 / 4000, 1)},
    "l": {
        "l": (1, 1),
        "ml": (1, 1000),
        "m3": (1000, 1),
        "gal": (3.785411784, 1),
        "impgal": (4.54609, 1),
        "bdft": (2.359737216, 1),
    },
    "A": {"A": (1, 1), "mA": (1, 1000)},
    "V": {"V": (1, 1), "mV": (1, 1000)},
    "W": {"W": (1, 1), "kW": (1000, 1)},
    "Wh": {"Wh": (1, 1), "kWh": (1000, 1)},
    "Ah": {"Ah": (1, 1), "mAh": (1, 1000)},
    "%": {"%": (1, 1)},
    "kg": {"kg": (1, 1), "g": (1, 1000), "lb": (_POUND_KG, 1), "oz": (_POUND_KG, 16)},
    "C": {"C": (1, 1), "F": (5, 9), "K": (1, 1)},
    "K": {"K": (1, 1), "C": (1, 1), "F": (5, 9)},
    "ohm": {"ohm": (1, 1), "mohm": (1, 1000), "kohm": (1000, 1)},
    "Mohm": {"Mohm": (1, 1), "kohm": (1, 1000), "Gohm": (1000, 1)},
    "h": {"h": (1, 1), "min": (1, 60)},
    "Pa": {
        "Pa": (1, 1),
        "kPa": (1000, 1),
        "mbar": (100, 1),
        "bar": (100000, 1),
        "psi": (_POUND_KG * 9.80665 / (_INCH_M * _INCH_M), 1),
        "psf": (_POUND_KG * 9.80665 / (0.3048 * 0.3048), 1),
        "inH2O": (249.08891, 1),
    },
}

OFFSETS: dict[tuple[str, str], Worth] = {("C", "F"): (-32.0, 0.0), ("C", "K"): (0.0, -273.15)}
"""For (field, unit): what is added before and after the worth is applied."""

_OTHER_SPELLINGS: dict[str, str] = {
    "'": "ft",
    '"': "in",
    "feet": "ft",
    "foot": "ft",
    "inch": "in",
    "inches": "in",
    "yard": "yd",
    "yards": "yd",
    "meter": "m",
    "meters": "m",
    "metre": "m",
    "metres": "m",
    "sqm": "m2",
    "sqft": "ft2",
    "sqin": "in2",
    "sqmm": "mm2",
    "mcm": "kcmil",
    "litre": "l",
    "litres": "l",
    "liter": "l",
    "liters": "l",
    "usgal": "gal",
    "gallon": "gal",
    "gallons": "gal",
    "amp": "A",
    "amps": "A",
    "volt": "V",
    "volts": "V",
    "watt": "W",
    "watts": "W",
    "percent": "%",
    "pct": "%",
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "ounce": "oz",
    "ounces": "oz",
    "°c": "C",
    "°f": "F",
    "degc": "C",
    "degf": "F",
    "ω": "ohm",
    "ohms": "ohm",
    "megohm": "Mohm",
    "megohms": "Mohm",
    "kω": "kohm",
    "hr": "h",
    "hrs": "h",
    "hour": "h",
    "hours": "h",
    "mins": "min",
    "minute": "min",
    "minutes": "min",
    "inwc": "inH2O",
}

# Here a capital changes the size a million or a thousand million times, so case is never guessed.
_CASE_COUNTS: dict[str, str] = {
    "mohm": "mohm",
    "mohms": "mohm",
    "mΩ": "mohm",
    "Mohm": "Mohm",
    "Mohms": "Mohm",
    "MΩ": "Mohm",
    "mV": "mV",
    "mv": "mV",
    "mA": "mA",
    "ma": "mA",
    "mAh": "mAh",
    "mah": "mAh",
}
_CASE_FOLDED = {spelling.casefold() for spelling in _CASE_COUNTS}

_FOLDED: dict[str, str] = {
    **{unit.casefold(): unit for units in TAKEN.values() for unit in units},
    **_OTHER_SPELLINGS,
}


def unit_spelled(word: str) -> str | None:
    """The unit a word stands for, in the spelling of :data:`TAKEN`; None when it is none."""
    if word in _CASE_COUNTS:
        return _CASE_COUNTS[word]
    folded = word.casefold()
    return None if folded in _CASE_FOLDED else _FOLDED.get(folded)


def units_taken(unit: str) -> tuple[str, ...]:
    """The units a field kept in ``unit`` takes, its own first; a count takes only its own name."""
    if not unit:
        return ()
    names = tuple(TAKEN.get(unit, {unit: (1, 1)}))
    return (*names, "AWG") if unit == "mm2" else names
