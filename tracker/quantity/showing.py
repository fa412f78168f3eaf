"""From an SI float to what people read, in metric or US units."""

from __future__ import annotations

from tracker.quantity.gauge import awg_name
from tracker.quantity.units import OFFSETS, TAKEN

_US: dict[str, str] = {
    "m": "ft",
    "mm": "in",
    "m2": "ft2",
    "l": "gal",
    "kg": "lb",
    "C": "F",
    "K": "F",
    "Pa": "psi",
}


def show(value: float, unit: str, system: str = "metric") -> str:
    """A quantity for people, to four figures at least; ``parse`` reads it back.

    Parameters
    ----------
    value: in ``unit``, finite.
    unit: the unit the field is kept in; "" or a thing counted, which is put after the number.
    system: ``metric`` or ``us``; ``us`` gives lengths in feet and sixteenths of an inch, and a
        wire's area by its gauge where it is one.
    """
    if system == "us":
        if unit in ("m", "mm"):
            return _feet_and_inches(value if unit == "m" else value / 1000)
        if unit == "mm2" and (name := awg_name(value)) is not None:
            return name
        if unit in _US:
            times, over = TAKEN[unit][_US[unit]]
            before, after = OFFSETS.get((unit, _US[unit]), (0.0, 0.0))
            return f"{plain(((value - after) * over / times) - before)} {_US[unit]}"
    if unit == "m" and 0 < abs(value) < 1:
        return f"{plain(value * 1000)} mm"
    if unit == "%":
        return f"{plain(value)}%"
    return f"{plain(value)} {unit}".rstrip()


def plain(value: float) -> str:
    """A number to four figures at least, without exponent, trailing zeros or a negative zero."""
    decimals = 0
    while value and abs(value) * 10**decimals < 1000 and decimals < 12:
        decimals += 1
    text = f"{value:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _feet_and_inches(length_m: float) -> str:
    """A length by the tape: ``9 in``, ``18 ft``, ``3' 6 1/2"``, to a sixteenth of an inch."""
    sixteenths = round(abs(length_m) / 0.0254 * 16)
    sign = "-" if length_m < 0 and sixteenths else ""
    feet, rest = divmod(sixteenths, 192)
    inches, part = divmod(rest, 16)
    over, under = part, 16
    while over and over % 2 == 0:
        over, under = over // 2, under // 2
    tape = " ".join(
        word for word in (str(inches) if inches else "", f"{over}/{under}" if over else "") if word
    )
    if not feet:
        return f"{sign}{tape or '0'} in"
    return f"{sign}{feet}' {tape}\"" if tape else f"{sign}{feet} ft"
