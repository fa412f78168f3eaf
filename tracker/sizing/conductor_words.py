"""What the conductor helper says beside its figures: working, other answers, cautions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tracker.sizing import protection
from tracker.sizing.ampacity import RULE_TITLES, RULES
from tracker.sizing.choosing import Circuit, Trial, smallest
from tracker.sizing.copper import (
    FT_M,
    cmil_of,
    least_cmil,
    ohm_per_m,
    per_kelvin,
    stocked,
)

MANY_AMPS = 100.0
"""From here on the device sits at a bank that can deliver more than a blade fuse interrupts."""


def working(trial: Trial, circuit: Circuit) -> Iterator[str]:
    """The formulas with the numbers put in."""
    r20 = ohm_per_m(trial.wire, 20.0)
    yield (
        f"loop = {circuit.loop_m:.4g} m; r20 = {1000 * r20:.4g} ohm/km; "
        f"copper at {trial.working_c:.3g} C"
    )
    yield (
        f"drop = {circuit.load_a:g} A x {circuit.loop_m:.4g} m x {1000 * r20:.4g} ohm/km / 1000 x "
        f"(1 + {per_kelvin():g} x ({trial.working_c:.3g} - 20)) = {trial.drop_v:.3g} V"
    )
    needed = least_cmil(circuit.load_a, circuit.loop_m, circuit.drop_allowed_v)
    yield (
        f"circular mils = K x {circuit.load_a:g} A x {circuit.loop_m / FT_M:.4g} ft / "
        f"{circuit.drop_allowed_v:.3g} V = {needed:.0f}; {trial.wire} has {cmil_of(trial.wire):.0f}"
    )
    found = trial.ampacity
    if found is not None:
        yield (
            f"ampacity = {found.base_a:g} A ({found.row}, {found.column_c} C) x "
            f"{found.ambient_factor:.3g} (ambient {circuit.ambient_c:g} C) x "
            f"{found.bundle_factor:g} ({circuit.bundled} together) x {found.foam_factor:g} (foam) "
            f"= {found.corrected_a:.4g} A"
        )
    if circuit.continuous:
        factor = protection.continuous_factor()
        yield f"continuous: {factor:g} x {circuit.load_a:g} A = {circuit.rated_a:.4g} A"
    if trial.device_a is not None and found is not None:
        yield (
            f"device: {circuit.rated_a:.4g} A <= {trial.device_a:g} A <= {found.corrected_a:.4g} A"
        )


def others(found: Trial, circuit: Circuit, family: str) -> Iterator[tuple[str, str]]:
    """What the other rule sets, families and the plain rule say."""
    for rules in RULES:
        if rules != circuit.rules:
            yield RULE_TITLES[rules], _said(smallest(replace(circuit, rules=rules), family))
    for other in ("awg", "sae", "mm2"):
        if other != family:
            yield f"in {other} sizes", _said(smallest(circuit, other))
    needed = least_cmil(circuit.load_a, circuit.loop_m, circuit.drop_allowed_v)
    fits = [wire.label for wire in stocked(family) if cmil_of(wire) >= needed]
    yield "circular-mil rule alone", fits[0] if fits else "larger than any size kept"
    cold = ohm_per_m(found.wire, 20.0) * circuit.loop_m * circuit.load_a
    yield "drop at 20 C", f"{cold:.3g} V ({100 * cold / circuit.volts_v:.2g} %)"
    carries = found.ampacity
    if carries is not None and carries.bundle_factor < 1 and _not_demanded(circuit):
        more_a = carries.corrected_a / carries.bundle_factor
        yield (
            "without the bundle factor, which 33 CFR 183.435(b) asks for only from 50 V",
            f"{more_a:.4g} A",
        )
    if carries is not None and circuit.volts_v < protection.bundling_from_v():
        up = protection.next_up_a(circuit.rules, carries.corrected_a)
        if circuit.rules == "33cfr183" and up is not None and up != found.device_a:
            yield "largest device 33 CFR 183.455(c) lets pass below 50 V", f"{up:g} A"


def _not_demanded(circuit: Circuit) -> bool:
    return circuit.rules == "33cfr183" and circuit.volts_v < protection.bundling_from_v()


def _said(trial: Trial | None) -> str:
    if trial is None or trial.ampacity is None:
        return "no single conductor does"
    return (
        f"{trial.wire}, {trial.device_a:g} A device, may carry {trial.ampacity.corrected_a:.4g} A"
    )


def cautions(
    found: Trial | None,
    circuit: Circuit,
    return_path: str,
    insulation_known: bool,
    cranking_a: float | None,
) -> Iterator[str]:
    """What to check, the most dangerous first."""
    if circuit.volts_v >= protection.bundling_from_v():
        yield "This voltage can kill: have it planned and checked by a licensed electrician."
    device_a = found.device_a if found is not None else None
    if cranking_a is None and (device_a is None or device_a >= MANY_AMPS):
        yield (
            "A large bank can drive thousands of amps into a short: check that the device's "
            "interrupt rating is above the bank's short-circuit current (--bank gives a guide)."
        )
    if (
        cranking_a is not None
        and protection.interrupt_a(cranking_a) > protection.blade_interrupt_a()
    ):
        yield (
            f"A blade fuse interrupts {protection.blade_interrupt_a():g} A only; this bank needs a "
            "type with more."
        )
    if circuit.in_foam:
        yield "Buried in foam the cable can't be cooled, reached or changed: check the size twice."
    if not insulation_known:
        yield "Insulation not stated: 60 C taken. Read the rating printed on the cable."
    if return_path == "chassis":
        yield (
            "The chassis return is not in these figures: measure its drop under load, and check "
            "that the maker and the local code let the chassis carry current."
        )
    if found is not None and found.wire.family == "sae":
        yield "SAE areas but for 18 to 10 are from memory, unverified: check the cable's sheet."
    if circuit.rules == "iso10133":
        yield "Most ISO 10133 ampacities here are from memory, unverified: check the standard."
    yield (
        "Check terminals, holder, switch and device for the same current, and the local code and "
        "the cable maker's sheet before closing the wall."
    )
