"""A thing aboard as people type it: ``stove 18kg 3.2m left``, ``water 150l 2m 0.4m right``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.sizing.result import OutOfRange
from tracker.sizing.tables import table

GALLON_L, POUND_KG = 3.785411784, 0.45359237
OWN_RANGE = "things in a vehicle"
HEAVIEST_KG, FARTHEST_M, WIDEST_M = 20_000.0, 30.0, 1.5
_NUMBER = r"-?[0-9][0-9./x×*]*(?:[.,][0-9]+)?"
_LENGTH = r"-?[0-9][0-9.,/]*\s*(?:mm|cm|m|ft|in|'|\")"


@dataclass(frozen=True, slots=True)
class Mass:
    """One thing aboard.

    Parameters
    ----------
    name: what people call it.
    mass_kg: its mass (kg).
    station_m: from the datum, growing to the rear (m).
    side: left, right or centre, facing forward.
    off_centre_m: how far off the middle (m); None for over the wheels of its side.
    """

    name: str
    mass_kg: float
    station_m: float
    side: str = "centre"
    off_centre_m: float | None = None

    def left_kg(self, track_m: float | None) -> float:
        """The part of it that the left wheels carry (kg), with the wheels ``track_m`` apart."""
        if self.side == "centre":
            return self.mass_kg / 2
        share = 1.0
        if self.off_centre_m is not None and track_m is not None:
            share = 0.5 + self.off_centre_m / track_m
        return self.mass_kg * (share if self.side == "left" else 1 - share)


def water_kg_per_l() -> float:
    """Mass of a litre of cold water (kg)."""
    return float(table("weight")["water"]["lb_per_gal"]) * POUND_KG / GALLON_L


def mass_of(text: str, flag: str = "--item") -> Mass:
    """A thing from what was typed; BadInput says what is missing."""
    pattern = (
        rf"\s*(.*?)\s*({_NUMBER}\s*(?:kg|g|lb|lbs|l|gal|litres?|liters?))\s+({_LENGTH})"
        rf"(?:\s+({_LENGTH}))?(?:\s+(left|right|centre|center))?\s*"
    )
    found = re.fullmatch(pattern, text, re.I)
    if found is None:
        raise BadInput(
            f"{flag} '{text[:40]}' can't be read; write a name, its mass and its station, and "
            "perhaps its side: 'stove 18kg 3.2m left'"
        )
    side = {"center": "centre"}.get((found[5] or "centre").casefold(), (found[5] or "").casefold())
    off_m = _read(found[4], "m", flag, text) if found[4] else None
    if off_m is not None and (side or "centre") == "centre":
        raise BadInput(f"{flag} '{text[:40]}': say left or right after {found[4]}")
    mass = Mass(
        found[1].strip(" :") or "thing",
        _kg(found[2], flag, text),
        _read(found[3], "m", flag, text),
        side or "centre",
        off_m,
    )
    for what, value, low, high, unit in (
        ("the mass of", mass.mass_kg, 0.0, HEAVIEST_KG, "kg"),
        ("the station of", mass.station_m, -FARTHEST_M, FARTHEST_M, "m"),
        ("the distance off the middle of", off_m or 0.0, 0.0, WIDEST_M, "m"),
    ):
        if not low <= value <= high:
            raise OutOfRange(f"{flag}: {what} {mass.name[:20]}", value, low, high, unit, OWN_RANGE)
    return mass


def _kg(text: str, flag: str, whole: str) -> float:
    if re.search(r"(?i)(kg|g|lbs?)$", text):
        return _read(text, "kg", flag, whole)
    return _read(text, "l", flag, whole) * water_kg_per_l()


def _read(text: str, unit: str, flag: str, whole: str) -> float:
    try:
        return parse(text, unit)
    except BadInput as error:
        raise BadInput(f"{flag} '{whole[:40]}': {error}") from None
