"""Beams on two supports: sections, moments, deflections and what lets a narrow one tip.

Source: textbook formulas of the elastic beam; lateral stability by the NDS, 3.3.3, from memory,
unverified, confirmed by a published design example.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt


@dataclass(frozen=True, slots=True)
class Section:
    """A cross-section, bent about its horizontal axis.

    Parameters
    ----------
    label: what people call it.
    width_m, depth_m: outside (m).
    inertia_m4: second moment of area (m4).
    shear_m2: the area whose mean stress is the greatest shear stress (m2).
    """

    label: str
    width_m: float
    depth_m: float
    inertia_m4: float
    shear_m2: float

    @property
    def modulus_m3(self) -> float:
        """Section modulus (m3)."""
        return self.inertia_m4 / (self.depth_m / 2)


def rectangle(label: str, width_m: float, depth_m: float) -> Section:
    """A solid rectangle; its greatest shear stress is 1.5 times the mean."""
    area = width_m * depth_m
    return Section(label, width_m, depth_m, width_m * depth_m**3 / 12, area / 1.5)


def tube(label: str, width_m: float, depth_m: float, wall_m: float) -> Section:
    """A rectangular tube without rounded corners; its two webs take the shear."""
    inner = (width_m - 2 * wall_m) * (depth_m - 2 * wall_m) ** 3
    inertia = (width_m * depth_m**3 - inner) / 12
    return Section(label, width_m, depth_m, inertia, 2 * wall_m * (depth_m - 2 * wall_m))


def uniform_moment_nm(load_n_m: float, span_m: float) -> float:
    """Greatest moment (N m) under a uniform load (N/m): w L^2 / 8."""
    return load_n_m * span_m**2 / 8


def uniform_deflection_m(
    load_n_m: float, span_m: float, modulus_pa: float, inertia_m4: float
) -> float:
    """Greatest deflection (m) under a uniform load: 5 w L^4 / (384 E I)."""
    return 5 * load_n_m * span_m**4 / (384 * modulus_pa * inertia_m4)


def centre_moment_nm(load_n: float, span_m: float) -> float:
    """Greatest moment (N m) under a load at the middle: P L / 4."""
    return load_n * span_m / 4


def centre_deflection_m(
    load_n: float, span_m: float, modulus_pa: float, inertia_m4: float
) -> float:
    """Deflection (m) under a load at the middle: P L^3 / (48 E I)."""
    return load_n * span_m**3 / (48 * modulus_pa * inertia_m4)


def effective_length_m(unbraced_m: float, depth_m: float) -> float:
    """Effective length (m) for tipping under a uniform load.

    Parameters
    ----------
    unbraced_m: between points that hold the compressed edge sideways (m).
    """
    if unbraced_m < 7 * depth_m:
        return 2.06 * unbraced_m
    return 1.63 * unbraced_m + 3 * depth_m


def stability_factor(
    effective_m: float, width_m: float, depth_m: float, strength_pa: float, emin_pa: float
) -> float:
    """Share of the bending strength that a narrow wooden beam keeps against tipping, 0 to 1.

    Parameters
    ----------
    effective_m: effective length (m).
    strength_pa: bending strength with every other factor (Pa).
    emin_pa: modulus for stability (Pa).
    """
    slenderness = sqrt(effective_m * depth_m) / width_m
    ratio = 1.2 * emin_pa / slenderness**2 / strength_pa
    half = (1 + ratio) / 1.9
    return half - sqrt(half**2 - ratio / 0.95)
