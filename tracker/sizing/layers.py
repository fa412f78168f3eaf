"""A wall of layers: the temperature at each face, and how thick a layer must be."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.errors import BadInput
from tracker.sizing.layer import Layer, Paths

METAL = ("steel", "stainless", "aluminium")
"""Ribs that ISO 6946 does not cover."""


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall of layers with the surfaces on both sides.

    Parameters
    ----------
    layers: outermost first.
    inside_m2k_w, outside_m2k_w: resistance of the surfaces (m2 K/W).
    """

    layers: tuple[Layer, ...]
    inside_m2k_w: float
    outside_m2k_w: float

    @property
    def total_m2k_w(self) -> float:
        """From air to air, without ribs (m2 K/W)."""
        return self.inside_m2k_w + self.outside_m2k_w + sum(self.resistances)

    @property
    def resistances(self) -> list[float]:
        """Of each layer (m2 K/W)."""
        return [each.resistance_m2k_w for each in self.layers]

    def faces_c(self, inside_c: float, outside_c: float) -> list[float]:
        """The temperature of the outer surface, then of each layer's inner face (C)."""
        reached, faces = self.outside_m2k_w, []
        for resistance in (0.0, *self.resistances):
            reached += resistance
            faces.append(outside_c + (inside_c - outside_c) * reached / self.total_m2k_w)
        return faces

    def inside_of(self, place: int) -> float:
        """Resistance from a layer's inner face to the air inside (m2 K/W)."""
        return self.inside_m2k_w + sum(self.resistances[place + 1 :])

    def outside_of(self, place: int) -> float:
        """Resistance from a layer's outer face to the air outside (m2 K/W)."""
        return self.outside_m2k_w + sum(self.resistances[:place])


def place_of(built: Wall, name: str | None, flag: str) -> int:
    """Which layer is meant; the most resistant where none is named."""
    if name is None:
        return max(range(len(built.layers)), key=lambda n: built.resistances[n])
    wanted = name.strip().casefold()
    for place, each in enumerate(built.layers):
        if each.name.casefold() == wanted:
            return place
    names = ", ".join(each.name for each in built.layers)
    raise BadInput(f"{flag} '{name[:30]}' is none of the layers: {names}")


def rib_face_c(built: Wall, found: Paths, inside_c: float, outside_c: float) -> float:
    """The inner surface over a rib (C) if all heat came through the rib alone."""
    return inside_c - (inside_c - outside_c) * built.inside_m2k_w / found.rib


def least_thickness_mm(
    built: Wall, kept: int, inside_c: float, outside_c: float, dew_c: float, inside_m2k_w: float
) -> float | None:
    """The least thickness (mm) of a layer that keeps its inner face at the dew point, or None."""
    conductivity = built.layers[kept].conductivity_w_mk
    if conductivity is None or dew_c >= inside_c - 1e-9:
        return None
    inner = built.inside_of(kept) - built.inside_m2k_w + inside_m2k_w
    needed = inner * (dew_c - outside_c) / (inside_c - dew_c) - built.outside_of(kept)
    return max(0.0, 1000 * conductivity * needed)
