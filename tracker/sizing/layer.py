"""A layer of a wall as people type it, and how layers and ribs add up.

``plywood 12mm`` takes the conductivity of the table, ``foam 50mm 0.024`` that of the sheet
(W/mK), and ``cavity R0.18`` is a resistance (m2K/W).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from tracker.errors import BadInput, did_you_mean
from tracker.quantity import parse
from tracker.sizing.result import OutOfRange, Source
from tracker.sizing.tables import source, table

RSI = 0.3048**2 * 3600 / (1.8 * 1055.05585262)
"""One h ft2 F/Btu in m2 K/W."""
OWN_RANGE = "layers of a vehicle's shell"


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer.

    Parameters
    ----------
    name: what people call it.
    resistance_m2k_w: from face to face (m2 K/W).
    thickness_m: or None where only the resistance is given (m).
    conductivity_w_mk: or None likewise (W/mK).
    source: of its conductivity; None when it was typed.
    """

    name: str
    resistance_m2k_w: float
    thickness_m: float | None = None
    conductivity_w_mk: float | None = None
    source: Source | None = None


@dataclass(frozen=True, slots=True)
class Paths:
    """What a wall with ribs resists, from air to air (m2 K/W).

    Parameters
    ----------
    clear: between the ribs, as if there were none.
    rib: through a rib alone.
    upper: heat keeps to its path (parallel paths).
    lower: heat spreads freely at each layer (isothermal planes).
    """

    clear: float
    rib: float
    upper: float
    lower: float

    @property
    def mean(self) -> float:
        """The combined method of ISO 6946: the mean of the two limits."""
        return (self.upper + self.lower) / 2


def conductivities() -> dict[str, tuple[float, str]]:
    """Conductivity (W/mK) and source of every material that has a row."""
    rows = table("wall")
    found = {
        name: (0.0254 / (r * RSI), str(rows["resistance"]["source"]))
        for name, r in rows["resistance"]["r_per_in"].items()
    }
    for group in rows["conductivity"].values():
        found.update({name: (float(k), group["source"]) for name, k in group["w_mk"].items()})
    return found


def layer_of(text: str) -> Layer:
    """A layer from what was typed; BadInput says what is missing."""
    given = re.fullmatch(r"\s*(.+?)\s+[rR]\s*=?\s*([0-9]*[.,]?[0-9]+)\s*", text)
    if given:
        resistance = float(given[2].replace(",", "."))
        _refuse(f"the resistance of {given[1][:20]}", resistance, 0.0, 20.0, "m2K/W")
        return Layer(given[1], resistance)
    found = re.fullmatch(
        r"\s*(.+?)\s+([0-9./-]+(?:\s+[0-9]+/[0-9]+)?\s*(?:mm|cm|m|in|ft|\"|'))"
        r"(?:\s+([0-9]*[.,]?[0-9]+))?\s*",
        text,
    )
    if found is None:
        raise BadInput(
            f"--layer '{text[:40]}' can't be read; write 'plywood 12mm', 'foam 50mm 0.024' (W/mK) "
            "or 'cavity R0.18' (m2K/W)"
        )
    name, thickness_m = found[1], _thickness(found[2], text)
    if found[3]:
        conductivity, where = float(found[3].replace(",", ".")), None
        _refuse(f"the conductivity of {name[:20]}", conductivity, 0.005, 500.0, "W/mK")
    else:
        conductivity, where = _known(name)
    return Layer(name, thickness_m / conductivity, thickness_m, conductivity, where)


def _thickness(text: str, whole: str) -> float:
    try:
        thickness_m = parse(text, "m")
    except BadInput as error:
        raise BadInput(f"--layer '{whole[:40]}': {error}") from None
    _refuse(f"the thickness in '{whole[:20]}'", 1000 * thickness_m, 0.1, 600.0, "mm")
    return thickness_m


def _known(name: str) -> tuple[float, Source]:
    known = conductivities()
    key = name.strip().casefold().replace(" ", "-")
    if key not in known:
        near = did_you_mean(key, known) or f"; known are {', '.join(known)}"
        raise BadInput(
            f"no conductivity is known for '{name[:30]}': add it in W/mK after the thickness{near}"
        )
    return known[key][0], source("wall", known[key][1])


def _refuse(name: str, value: float, low: float, high: float, unit: str) -> None:
    if not low <= value <= high:
        raise OutOfRange(name, value, low, high, unit, OWN_RANGE)


def paths(
    resistances: Sequence[float],
    bridged: int,
    rib_m2k_w: float,
    share: float,
    inside_m2k_w: float,
    outside_m2k_w: float,
) -> Paths:
    """How a wall resists with ribs through one of its layers.

    Formula: upper = 1 / (f / R_rib path + (1 - f) / R_clear path); lower = all other layers + 1 /
    (f / R_rib + (1 - f) / R_layer). Source: ISO 6946, combined method.

    Parameters
    ----------
    resistances: of the layers (m2 K/W).
    bridged: which of them the ribs go through.
    rib_m2k_w: of the rib and any tape on it, over the depth of that layer (m2 K/W).
    share: f, of the area that ribs take, 0 to below 1.
    inside_m2k_w, outside_m2k_w: of the surfaces (m2 K/W).
    """
    others = inside_m2k_w + outside_m2k_w + sum(resistances) - resistances[bridged]
    clear, rib = others + resistances[bridged], others + rib_m2k_w
    if share == 0:
        return Paths(clear, rib, clear, clear)
    upper = 1 / (share / rib + (1 - share) / clear)
    mixed = 1 / (share / rib_m2k_w + (1 - share) / resistances[bridged])
    return Paths(clear, rib, upper, others + mixed)
