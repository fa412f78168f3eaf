"""Voltage lost along one run, at the temperature its copper reaches."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.sizing.ampacity import RULES, Ampacity, ampacity, working_temperature_c
from tracker.sizing.copper import Wire, ohm_per_m

DEFAULT_AMBIENT_C = 30.0
DEFAULT_INSULATION_C = 60


@dataclass(frozen=True, slots=True)
class Loss:
    """What one run loses.

    Parameters
    ----------
    working_c: of the copper (C).
    ohm: of the whole length (ohm).
    drop_v: lost (V).
    ampacity: of the size under the first rule set, or None.
    """

    working_c: float
    ohm: float
    drop_v: float
    ampacity: Ampacity | None


def loss(
    wire: Wire,
    current_a: float,
    loop_m: float,
    *,
    temperature_c: float | None = None,
    ambient_c: float = DEFAULT_AMBIENT_C,
    insulation_c: int = DEFAULT_INSULATION_C,
    made: str | None = None,
) -> Loss:
    """The drop of a current through a length of one size.

    Parameters
    ----------
    current_a: through the run (A).
    loop_m: conductor passed through (m).
    temperature_c: of the copper (C), where it is known; else worked out from the load.
    ambient_c: around the cable (C).
    insulation_c: its rating (C).
    made: how the copper is made up.
    """
    found = ampacity(wire, RULES[0], insulation_c, ambient_c)
    working_c = (
        working_temperature_c(current_a, found, ambient_c, insulation_c)
        if temperature_c is None
        else temperature_c
    )
    ohm = ohm_per_m(wire, working_c, made) * loop_m
    return Loss(working_c, ohm, ohm * current_a, found)
