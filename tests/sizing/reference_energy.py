"""Energy of a day as handbooks, dealers and measurements give it."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.energy import cold_factor, energy
from tracker.sizing.load import load_of

TABLES = ("energy",)

MATHS = "Sizing a Photovoltaic System, a public lesson"
DEALER = "a solar dealer's page after IEEE practice"
WIKI = "a travellers' wiki on sizing solar"
DUTCH = "a page on calculating an off-grid system"
MAGAZINE = "a solar magazine, Designing a stand-alone PV system"
PVLIB = "pvlib 0.16.1, pvwatts_losses()"
MEASURED = "T. Murphy, a stand-alone system measured for two and a half years"
HAND = "own check by hand"
COLD = ((80, 1.00), (70, 1.04), (60, 1.11), (50, 1.19), (40, 1.30), (30, 1.40), (20, 1.59))


def _c(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def _wh(*loads: str) -> float:
    return energy(loads).number("day_wh")


def _beside(name: str, **inputs: object) -> float:
    result = energy(**inputs)  # type: ignore[arg-type]
    return next(float(said.split()[0]) for key, said in result.others if name in key)


def checks() -> list[Check]:
    """Every check."""
    cold = [
        near("energy", f"lead-acid at {f} F", DEALER, lambda f=f: cold_factor(_c(f)), factor,
             absolute=1e-6)
        for f, factor in COLD
    ]  # fmt: skip
    between = [
        near("energy", f"lead-acid at {f} F lies between the rows", HAND,
             lambda f=f: cold_factor(_c(f)), factor, absolute=2e-3)
        for f, factor in ((25, 1.495), (35, 1.35), (45, 1.245), (55, 1.15), (65, 1.075),
                          (75, 1.02))
    ]  # fmt: skip
    return [
        *cold,
        *between,
        near("energy", "100 W for 2 h", MATHS, lambda: _wh("lamp 100W*2h"), 200, relative=1e-9),
        near("energy", "8 W for 24 h", WIKI, lambda: load_of("pump 8W*24h", 12).wh, 192,
             relative=1e-9),
        near("energy", "400 W for a quarter of an hour", WIKI,
             lambda: load_of("roaster 400W*0.25h", 12).wh, 100, relative=1e-9),
        near("energy", "12 V and 2 A are 24 W", WIKI, lambda: load_of("x 2A*1h", 12).watts_w, 24,
             relative=1e-9),
        near("energy", "120 V and 2 A are 240 W", WIKI,
             lambda: load_of("x 120V*2A*1h", 12).watts_w, 240, relative=1e-9),
        near("energy", "four loads, 4.7 kWh", DUTCH,
             lambda: _wh("fridge 100W*24h", "lights 50W*8h", "tv 200W*6h", "cooker 1000W*0.7h"),
             4700, relative=1e-9),
        near("energy", "1000 Wh, 2.5 days, half used, 40 F: 6500 Wh", DEALER,
             lambda: energy(("x 100W*10h",), 12, 2.5, chemistry="lead", battery_c=_c(40))
             .number("battery_needed_wh"), 6500, relative=1e-6),
        near("energy", "which at 12 V are 541.7 Ah", DEALER,
             lambda: energy(("x 100W*10h",), 12, 2.5, chemistry="lead", battery_c=_c(40))
             .number("battery_needed_ah"), 541.67, relative=1e-4),
        near("energy", "an inverter of 90 %", MAGAZINE, lambda: _wh("x 90W*10h ac"), 1000,
             relative=1e-9),
        near("energy", "an inverter at its best, 95 %", MAGAZINE,
             lambda: _beside("inverter at its best", load=("x 95W*10h ac",)), 1000, relative=1e-3),
        near("energy", "panels lose 14.0757 %, and charging takes 1.2", PVLIB,
             lambda: energy(("x 100W*10h",), sun_h=5).number("panels_needed_w"),
             1000 * 1.2 / 5 / (1 - 0.140757), relative=1e-6),
        near("energy", "the losses alone", PVLIB,
             lambda: energy(("x 100W*10h",), sun_h=1, solar_w=1200).number("solar_day_wh"),
             1000 * (1 - 0.140757), relative=1e-6),
        near("energy", "charging takes 1.2", "an array sizing worksheet of a solar dealer",
             lambda: energy(("x 1W*1h",), alternator_a=10, driving_h=1.2).number("driven_day_wh"),
             120, relative=1e-6),
        near("energy", "62 % of the sun used", MEASURED,
             lambda: _beside("measured system", load=("x 62W*10h",), sun_h=1), 1000, relative=1e-3),
        near("energy", "half of a lead-acid battery", "a mailing list of installers, 2011",
             lambda: energy(("x 50W*10h",), days=1, chemistry="lead", battery_c=30)
             .number("battery_needed_wh"), 1000, relative=1e-9),
        near("energy", "80 % of it at the very most", "a mailing list of installers, 2011",
             lambda: _beside("its limit", load=("x 80W*10h",), days=1, chemistry="lead",
                             battery_c=30), 1000, relative=1e-3),
        near("energy", "80 % of lithium", "retail pages; weak",
             lambda: energy(("x 80W*10h",), days=1).number("battery_needed_wh"), 1000,
             relative=1e-9),
        near("energy", "100 % of lithium at the very most", "retail pages; weak",
             lambda: _beside("its limit", load=("x 100W*10h",), days=1), 1000, relative=1e-3),
        equal("energy", "lithium at 0 C is warned of", "common practice, no source",
              lambda: tuple("ruined" in energy(("x 1W*1h",), battery_c=c).cautions[0]
                            for c in (-0.5, 0.0, 0.5)), (True, True, False)),
        equal("energy", "the greatest surge stands on top of all that runs", HAND,
              lambda: (energy(("a 100W*1h ac surge 300W", "b 50W*1h ac surge 400W"))
                       ["inverter_surge_w"]), 500.0),
    ]  # fmt: skip
