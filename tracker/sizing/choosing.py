"""Which conductor does for a circuit: every size tried against every limit of the rule set."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tracker.sizing import protection
from tracker.sizing.ampacity import (
    Ampacity,
    ampacity,
    device_cap_a,
    least_area_mm2,
    working_temperature_c,
)
from tracker.sizing.copper import Wire, cmil_of, least_cmil, ohm_per_m, stocked

PARALLEL_FROM_MM2 = 53.0
"""Parallel conductors are of 1/0 AWG or more (NEC 310.10(G), from memory, unverified)."""

MOST_PARALLEL = 6
HIGHER_V = (24.0, 48.0)


@dataclass(frozen=True, slots=True)
class Circuit:
    """What a conductor has to do.

    Parameters
    ----------
    load_a: current (A).
    loop_m: conductor there and back; one way where the chassis is the return (m).
    volts_v: nominal voltage (V).
    drop_percent: drop allowed (%).
    insulation_c: rating of the insulation (C).
    ambient_c: around the cable (C).
    bundled: current-carrying conductors lying together.
    in_foam, sheathed, continuous: as they say.
    rules: the rule set.
    """

    load_a: float
    loop_m: float
    volts_v: float
    drop_percent: float
    insulation_c: int
    ambient_c: float
    bundled: int
    in_foam: bool
    sheathed: bool
    continuous: bool
    rules: str

    @property
    def drop_allowed_v(self) -> float:
        """In volts."""
        return self.volts_v * self.drop_percent / 100

    @property
    def rated_a(self) -> float:
        """What conductor and device must carry (A)."""
        return self.load_a * (protection.continuous_factor() if self.continuous else 1.0)


@dataclass(frozen=True, slots=True)
class Trial:
    """One size tried.

    Parameters
    ----------
    wire: the size.
    ampacity: None where the rule set has no row for it.
    working_c: of the copper under load (C).
    ohm: of the whole loop at that temperature (ohm).
    drop_v: at the load (V).
    device_a: rating of the device (A), or None where none fits.
    fails: the limits it fails, in words.
    """

    wire: Wire
    ampacity: Ampacity | None
    working_c: float
    ohm: float
    drop_v: float
    device_a: float | None
    fails: tuple[str, ...]


def try_size(wire: Wire, circuit: Circuit, made: str | None = None) -> Trial:
    """Hold one size against every limit."""
    found = _ampacity(wire, circuit)
    working_c = working_temperature_c(
        circuit.load_a, found, circuit.ambient_c, circuit.insulation_c
    )
    ohm = ohm_per_m(wire, working_c, made) * circuit.loop_m
    drop_v = ohm * circuit.load_a
    fails = []
    if drop_v > circuit.drop_allowed_v * (1 + 1e-9):
        percent = 100 * drop_v / circuit.volts_v
        fails.append(f"voltage drop ({percent:.1f} % of {circuit.drop_percent:g} %)")
    if cmil_of(wire) < least_cmil(circuit.load_a, circuit.loop_m, circuit.drop_allowed_v):
        fails.append("the circular-mil rule")
    carries = found.corrected_a if found else 0.0
    if carries < circuit.rated_a * (1 - 1e-9):
        fails.append(f"ampacity ({carries:.1f} A for {circuit.rated_a:g} A)")
    least_mm2, least_name, _ = least_area_mm2(circuit.rules, circuit.sheathed)
    if wire.family != "sae" and wire.area_mm2 < least_mm2 * 0.999:
        fails.append(f"the least size of the rule set ({least_name})")
    if wire.family == "sae" and _sae_below(wire, least_mm2):
        fails.append(f"the least size of the rule set ({least_name})")
    cap_a = device_cap_a(circuit.rules, found.row)[0] if found else 0.0
    device_a = protection.device_a(circuit.rules, circuit.rated_a, min(carries, cap_a))
    if device_a is None and carries >= circuit.rated_a:
        fails.append(
            f"the device: no rating from {circuit.rated_a:g} A to {min(carries, cap_a):.4g} A"
        )
    return Trial(wire, found, working_c, ohm, drop_v, device_a, tuple(fails))


def _sae_below(wire: Wire, least_mm2: float) -> bool:
    """An SAE size goes by its number, though its copper is less than that number's by the gauge."""
    return wire.area_mm2 < least_mm2 * 0.85


def choose(circuit: Circuit, family: str) -> tuple[Trial | None, Trial | None]:
    """The smallest stocked size that passes, and the one below it; None for none.

    Where no size passes the second is the largest.
    """
    wires = stocked(family)
    found = smallest(circuit, family, wires)
    if found is None:
        return None, try_size(wires[-1], circuit)
    place = wires.index(found.wire)
    return found, try_size(wires[place - 1], circuit) if place else None


def smallest(circuit: Circuit, family: str, wires: list[Wire] | None = None) -> Trial | None:
    """The smallest stocked size that passes; None for none."""
    # What is below the circular-mil rule or carries too little fails anyhow: no need to try it.
    needed = least_cmil(circuit.load_a, circuit.loop_m, circuit.drop_allowed_v)
    for wire in wires or stocked(family):
        if cmil_of(wire) >= needed and _carries_a(wire, circuit) >= circuit.rated_a * (1 - 1e-9):
            trial = try_size(wire, circuit)
            if not trial.fails:
                return trial
    return None


def _carries_a(wire: Wire, circuit: Circuit) -> float:
    found = _ampacity(wire, circuit)
    return found.corrected_a if found is not None else 0.0


def _ampacity(wire: Wire, circuit: Circuit) -> Ampacity | None:
    return ampacity(
        wire,
        circuit.rules,
        circuit.insulation_c,
        circuit.ambient_c,
        circuit.bundled,
        circuit.in_foam,
    )


def in_parallel(circuit: Circuit, family: str) -> tuple[int, Trial] | None:
    """The fewest equal conductors side by side that pass together, and one of them; None for none.

    Each pair more lies in the same bundle, which lowers what all of them carry.
    """
    for count in range(2, MOST_PARALLEL + 1):
        share = replace(
            circuit, load_a=circuit.load_a / count, bundled=circuit.bundled + 2 * (count - 1)
        )
        large = [wire for wire in stocked(family) if wire.area_mm2 >= PARALLEL_FROM_MM2 * 0.9]
        trial = smallest(share, family, large)
        if trial is not None:
            return count, trial
    return None


def at_higher_voltage(circuit: Circuit, family: str) -> tuple[float, Trial] | None:
    """The next usual voltage at which one conductor does for the same power; None for none."""
    for volts_v in HIGHER_V:
        if volts_v > circuit.volts_v * 1.01:
            load_a = circuit.load_a * circuit.volts_v / volts_v
            found = smallest(replace(circuit, volts_v=volts_v, load_a=load_a), family)
            if found is not None:
                return volts_v, found
    return None
