"""From what people type to an SI float, or to one sentence that says what would be taken.

Taken are one number and its unit (``5.5 m``, ``12,5 kg``, ``62F``), feet and inches and the like
(``3'6"``, ``3 ft 6 1/2 in``, ``1h30``), a gauge (``14AWG``, ``2/0``), and products (``45W*10h``,
``2 x 30W``, ``4ft*8ft``). A bare number is refused wherever a unit could be meant: 18 may be feet.
"""

from __future__ import annotations

import re
from itertools import permutations
from math import isfinite

from tracker.errors import BadInput
from tracker.quantity.gauge import awg_area_mm2, awg_number
from tracker.quantity.units import OFFSETS, TAKEN, unit_spelled, units_taken

_SIGNS = str.maketrans(
    {
        "\u2032": "'",
        "\u2019": "'",
        "\u2033": '"',
        "\u201d": '"',
        "\u2212": "-",
        "\u00b2": "2",
        "\u00b3": "3",
        "\u2126": "\u03a9",
        "\u00ba": "\u00b0",
        "\u00a0": " ",
        "\u202f": " ",
        "\u00bd": " 1/2",
        "\u00bc": " 1/4",
        "\u00be": " 3/4",
        "\u215b": " 1/8",
        "\u215c": " 3/8",
        "\u215d": " 5/8",
        "\u215e": " 7/8",
    }
)
_NUMBER = r"(?:[0-9]+[ -]+)?[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+"
_WORD = r"[A-Za-z]*H2O|[A-Za-z\u00b0\u03a9]+(?:[23](?![0-9A-Za-z.,'\"]))?|[%'\"]"
_PIECE = rf"\s*({_NUMBER})\s*({_WORD})?\s*"
_PARTS = {"ft": "in", "m": "cm", "lb": "oz", "h": "min"}
_TIED = r"(?i)\b(sq|imp|us|deg|bd)\.? +(?=[a-z])"
_PRODUCTS: dict[str, tuple[tuple[tuple[str, ...], float], ...]] = {
    "Wh": ((("W", "h"), 1.0), (("Ah", "V"), 1.0), (("A", "V", "h"), 1.0)),
    "W": ((("A", "V"), 1.0),),
    "Ah": ((("A", "h"), 1.0),),
    "m2": ((("m", "m"), 1.0),),
    "l": ((("m", "m", "m"), 1000.0),),
}
LONGEST = 60
"""Longer texts than this (characters) are not a quantity."""


def parse(text: str, unit: str) -> float:
    """The value of a typed quantity.

    Parameters
    ----------
    text: what was typed.
    unit: the unit the field is kept in, one of :data:`tracker.quantity.units.TAKEN`; "" for a
        plain number; any other word is a thing counted (``sheet``), which may be typed after it.

    Returns
    -------
    A finite float in ``unit``; for C a temperature not below absolute zero, for K a difference.

    Raises
    ------
    BadInput: it can't be read, or its unit is missing or of another kind. Nothing else is raised.
    """
    if len(text) > LONGEST:
        raise BadInput(f"{_echo(text)} is too long for {_wanted(unit)}")
    plain = re.sub(_TIED, r"\1", text.translate(_SIGNS)).strip()
    plain = re.sub(r"('|ft)\s*-\s*(?=[0-9])", r"\1 ", plain)
    counted = bool(unit) and unit not in TAKEN  # "3 boxes" is no product
    factors = [plain] if counted else [part.strip() for part in re.split(r"[*×xX]", plain)]
    value = _single(plain, unit, text) if len(factors) == 1 else _product(factors, unit, text)
    if not isfinite(value):
        raise BadInput(f"{_echo(text)} is too large for {_wanted(unit)}")
    if unit == "C" and value < -273.15 - 1e-9:
        raise BadInput(f"{_echo(text)} lies below absolute zero")
    return value + 0.0  # no negative zero


def _single(plain: str, unit: str, text: str) -> float:
    """One quantity without a product in it."""
    if unit == "mm2" and (area := _gauge(plain)) is not None:
        return area
    sign, plain = (-1.0, plain[1:]) if plain[:1] == "-" else (1.0, plain.removeprefix("+"))
    pieces = list(re.finditer(_PIECE, plain))
    if not pieces or "".join(piece[0] for piece in pieces) != plain:
        raise BadInput(f"{_echo(text)} can't be read as {_wanted(unit)}")
    read = [(_number(piece[1], text, unit), piece[2]) for piece in pieces]
    amount, word = read[0]
    if unit not in TAKEN:
        thing = unit.casefold()
        if len(read) > 1 or (word and word.casefold() not in (thing, thing + "s", thing + "es")):
            raise BadInput(f"{_echo(text)} can't be read as {_wanted(unit)}")
        return sign * amount
    total = _worth(sign * amount, word, unit, text)
    if len(read) == 1:
        return total
    part = _PARTS.get(unit_spelled(word) or "", "")
    if len(read) > 2 or part not in TAKEN[unit] or (read[1][1] and _spelled(read[1][1]) != part):
        raise BadInput(f"{_echo(text)} can't be read as {_wanted(unit)}")
    if not read[1][1] and part not in ("in", "min"):
        raise BadInput(f"{_echo(text)} ends in a number without a unit")
    return total + sign * _worth(read[1][0], part, unit, text)


def _product(factors: list[str], unit: str, text: str) -> float:
    """Quantities and plain counts multiplied, in any order."""
    count, rest = 1.0, []
    for factor in factors:
        if re.fullmatch(_NUMBER, factor):
            count *= _number(factor, text, unit)
        else:
            rest.append(factor)
    if not rest:
        return count * _single("1", unit, text)
    if len(rest) == 1:
        if unit in ("C", "K", "%"):
            raise BadInput(f"{_echo(text)} multiplies what can't be multiplied")
        return count * _single(rest[0], unit, text)
    for kinds, worth in _PRODUCTS.get(unit, ()):
        for order in set(permutations(kinds)) if len(kinds) == len(rest) else ():
            value = count * worth
            try:
                for factor, kind in zip(rest, order, strict=True):
                    value *= _single(factor, kind, text)
            except BadInput:
                continue
            return value
    raise BadInput(f"{_echo(text)} does not multiply to {_wanted(unit)}")


def _gauge(plain: str) -> float | None:
    """The area (mm2) of ``14AWG``, ``AWG 14``, ``#14``, ``2/0`` or ``2/0 AWG``, else None."""
    found = re.fullmatch(r"(?i)(?:awg\s*|#\s*)?([0-9]{1,4}(?:/0)?)\s*(?:awg)?", plain)
    if found is None or (plain == found[1] and not plain.endswith("/0")):
        return None
    number = awg_number(found[1])
    return None if number is None else awg_area_mm2(number)


def _number(digits: str, text: str, unit: str) -> float:
    """A decimal with point or comma, or a whole number and a fraction."""
    if "/" in digits:
        *whole, fraction = re.split(r"[ -]+", digits)
        over, under = fraction.split("/")
        if not int(under):
            raise BadInput(f"{_echo(text)} divides by zero")
        return (float(whole[0]) if whole else 0.0) + int(over) / int(under)
    if re.fullmatch(r"0*[1-9][0-9]{0,2},[0-9]{3}", digits):
        short = digits.replace(",", "")
        raise BadInput(
            f"{_echo(text)} can be read two ways; write {short} or {digits.replace(',', '.')}"
        )
    return float(digits.replace(",", "."))


def _worth(amount: float, word: str | None, unit: str, text: str) -> float:
    """The amount of one unit in the field's unit; BadInput when the word is none of its units."""
    if not word:
        raise BadInput(f"{_echo(text)} needs a unit: {_listed(unit)}")
    spelled = _spelled(word)
    if spelled not in TAKEN[unit]:
        raise BadInput(f"{_echo(text)} is not in a unit taken here: {_listed(unit)}")
    times, over = TAKEN[unit][spelled]
    before, after = OFFSETS.get((unit, spelled), (0.0, 0.0))
    return (amount + before) * times / over + after


def _spelled(word: str) -> str:
    return unit_spelled(word) or ""


def _listed(unit: str) -> str:
    *first, last = units_taken(unit)
    return f"{', '.join(first)} or {last}" if first else last


def _wanted(unit: str) -> str:
    return f"a number with a unit ({_listed(unit)})" if unit in TAKEN else "a plain number"


def _echo(text: str) -> str:
    """What was typed, in quotes, without control characters and not longer than a glance."""
    shown = "".join(sign if sign.isprintable() else " " for sign in text.strip()[:LONGEST])
    return f"'{shown[:37]}...'" if len(shown) > LONGEST - 20 else f"'{shown}'"
