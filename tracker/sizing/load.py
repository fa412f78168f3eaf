"""A load as people type it: ``fridge 45W*24h 40%``, ``kettle 1200W*0.3h ac surge 1500W``.

A name with a number in it ends in a colon: ``12 V fan: 30W*8h``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.sizing.result import OutOfRange

MOST_W, MOST_H = 20_000.0, 24.0
OWN_RANGE = "what runs in a vehicle"


@dataclass(frozen=True, slots=True)
class Load:
    """One load.

    Parameters
    ----------
    name: what people call it.
    watts_w: while it runs.
    hours_h: a day.
    duty_percent: of those hours in which it draws.
    ac: does it go through the inverter?
    surge_w: for a moment at its start; at least ``watts_w``.
    """

    name: str
    watts_w: float
    hours_h: float
    duty_percent: float = 100.0
    ac: bool = False
    surge_w: float = 0.0

    @property
    def wh(self) -> float:
        """Energy a day (Wh), before the inverter's loss."""
        return self.watts_w * self.hours_h * self.duty_percent / 100


def load_of(text: str, volts_v: float) -> Load:
    """A load from what was typed; BadInput says what is missing.

    Parameters
    ----------
    volts_v: for loads typed in amperes.
    """
    pattern = r"\s*([^:]*):\s*(.+)" if ":" in text else r"\s*(.*?)\s*(?<!\S)(\.?[0-9].*)"
    found = re.fullmatch(pattern, text, re.S)
    if found is None:
        raise BadInput(f"--load '{text[:40]}' has no number; write it like 'fridge 45W*24h 40%'")
    name = " ".join(found[1].split()) or "load"
    rest, surge = _cut(found[2], r"\bsurge\s+(.+)$")
    rest, ac = _cut(rest, r"\s(ac)\b\s*")
    rest, duty = _cut(rest, r"\s([0-9.,]+\s*%)\s*")
    watts, hours = _power_and_hours(rest.strip(), volts_v, text)
    load = Load(
        name,
        watts,
        hours,
        _named(duty, "%", text) if duty else 100.0,
        bool(ac),
        max(watts, _power(surge, volts_v, text)) if surge else watts,
    )
    _refuse(load)
    return load


def _cut(text: str, pattern: str) -> tuple[str, str]:
    """The text without what the pattern finds, and its group."""
    found = re.search(pattern, text, re.I)
    if found is None:
        return text, ""
    return f"{text[: found.start()]} {text[found.end() :]}".strip(), found[1]


def _power_and_hours(text: str, volts_v: float, whole: str) -> tuple[float, float]:
    parts = [part.strip() for part in re.split(r"[*×]|\bfor\b", text) if part.strip()]
    hours = [part for part in parts if re.search(r"(?i)[0-9]\s*(h|hr|hrs|hours?|min)$", part)]
    if len(hours) != 1 or len(parts) < 2:
        raise BadInput(
            f"--load '{whole[:40]}' needs power and hours a day, such as 'fridge 45W*24h 40%'"
        )
    power = "*".join(part for part in parts if part is not hours[0])
    return _power(power, volts_v, whole), _named(hours[0], "h", whole)


def _power(text: str, volts_v: float, whole: str) -> float:
    try:
        return parse(text, "W")
    except BadInput as error:
        try:
            return parse(text, "A") * volts_v
        except BadInput:
            raise BadInput(f"--load '{whole[:40]}': {error}") from None


def _named(text: str, unit: str, whole: str) -> float:
    try:
        return parse(text, unit)
    except BadInput as error:
        raise BadInput(f"--load '{whole[:40]}': {error}") from None


def _refuse(load: Load) -> None:
    for name, value, low, high, unit in (
        ("the power of", load.watts_w, 0.01, MOST_W, "W"),
        ("the hours of", load.hours_h, 0.001, MOST_H, "h"),
        ("the duty of", load.duty_percent, 0.1, 100.0, "%"),
        ("the surge of", load.surge_w, 0.01, 5 * MOST_W, "W"),
    ):
        if not low <= value <= high:
            raise OutOfRange(f"--load: {name} {load.name[:20]}", value, low, high, unit, OWN_RANGE)
