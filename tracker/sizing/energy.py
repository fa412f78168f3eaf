"""The energy of a day: what loads take, what battery, sun and alternator give, what ends first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from tracker.errors import BadInput
from tracker.sizing.load import Load, load_of
from tracker.sizing.result import Figure, Result, Source
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

OWN_RANGE = "systems of a vehicle"
INPUTS = (
    Input("load", "--load", "a load: NAME POWER*HOURS [DUTY%] [ac] [surge POWER]", type="text",
          repeated=True, required=True),
    Input("volts_v", "--volts", "nominal voltage of the battery", "V", low=6, high=96,
          default=12.0, why=OWN_RANGE, bare=True),
    Input("days", "--days", "days without any charge", low=0.1, high=30, default=2.0,
          why=OWN_RANGE),
    Input("battery_wh", "--battery", "the battery there is, such as 200Ah*12.8V", "Wh", low=1,
          high=1000000, why=OWN_RANGE),
    Input("chemistry", "--chemistry", "lead, or lithium iron phosphate", type="choice",
          choices=("lead", "lithium"), default="lithium"),
    Input("usable_percent", "--usable", "share of the battery to use, instead", "%", low=5,
          high=100, why="shares of a battery"),
    Input("battery_c", "--battery-temp", "temperature of the battery", "C", low=-6.7, high=60,
          default=20.0, why="the table by temperature"),
    Input("sun_h", "--sun", "peak sun hours of the worst month", "h", low=0.1, high=12,
          why="places on earth"),
    Input("solar_w", "--solar", "rated power of the panels", "W", low=1, high=50000,
          why=OWN_RANGE),
    Input("alternator_a", "--alternator", "what the charger gives while driving", "A", low=0.1,
          high=500, why=OWN_RANGE),
    Input("driving_h", "--driving", "driving a day", "h", low=0, high=24, why="a day"),
    Input("inverter_w", "--inverter", "continuous rating of the inverter", "W", low=10,
          high=50000, why=OWN_RANGE),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Demand:
    """What the loads take.

    Parameters
    ----------
    dc_wh, ac_wh: energy a day at the loads (Wh).
    battery_wh: energy a day out of the battery, with the inverter's loss (Wh).
    ac_w: all alternating-current loads at once (W).
    surge_w: that, with the greatest single surge on top (W).
    """

    dc_wh: float
    ac_wh: float
    battery_wh: float
    ac_w: float
    surge_w: float


def energy(
    load: Sequence[str],
    volts_v: float = 12.0,
    days: float = 2.0,
    battery_wh: float | None = None,
    chemistry: str = "lithium",
    usable_percent: float | None = None,
    battery_c: float = 20.0,
    sun_h: float | None = None,
    solar_w: float | None = None,
    alternator_a: float | None = None,
    driving_h: float | None = None,
    inverter_w: float | None = None,
) -> Result:
    """Energy a day from loads, and the battery, panels, charging and inverter that go with it.

    Formula
    -------
    day = sum W h duty (through the inverter / 0.90); battery = day x days x cold / usable;
    panels = day x 1.2 / (sun hours x (1 - 0.140757)); charge a day = panels x sun hours x
    (1 - 0.140757) / 1.2 + amperes x volts x hours / 1.2.

    Parameters
    ----------
    load: loads, as name, power times hours a day, duty, ac, surge [-].
    volts_v: nominal voltage of the battery [V].
    days: days without any charge [d].
    battery_wh: the battery there is [Wh].
    chemistry: lead or lithium (iron phosphate) [-].
    usable_percent: share of the battery to use, instead [%].
    battery_c: temperature of the battery [C].
    sun_h: peak sun hours of the worst month [h].
    solar_w: rated power of the panels [W].
    alternator_a: what the charger gives while driving [A].
    driving_h: driving a day [h].
    inverter_w: continuous rating of the inverter [W].

    Returns
    -------
    Result with day_wh, battery_needed_wh, battery_needed_ah, panels_needed_w, charge_day_wh,
    inverter_needed_w, inverter_surge_w, days_on_battery and first_out.

    Valid
    -----
    volts_v: 6..96
    days: 0.1..30
    battery_wh: 1..1000000
    usable_percent: 5..100
    battery_c: -6.7..60
    sun_h: 0.1..12
    solar_w: 1..50000
    alternator_a: 0.1..500
    driving_h: 0..24
    inverter_w: 10..50000

    Source
    ------
    Worksheets of the Sandia stand-alone photovoltaic handbook (method, worst month governs);
    pvlib for the losses of panels; a solar magazine for inverters; conventions for batteries.

    Example
    -------
    100 W for 2 h are 200 Wh; 1000 Wh a day for 2.5 days of lead-acid at 40 F need 6500 Wh (a
    solar dealer).
    """
    guard(
        INPUTS,
        volts_v=volts_v,
        days=days,
        battery_wh=battery_wh,
        chemistry=chemistry,
        usable_percent=usable_percent,
        battery_c=battery_c,
        sun_h=sun_h,
        solar_w=solar_w,
        alternator_a=alternator_a,
        driving_h=driving_h,
        inverter_w=inverter_w,
    )
    if not load:
        raise BadInput("--load is missing: say what runs, such as --load 'fridge 45W*24h 40%'")
    if solar_w is not None and sun_h is None:
        raise BadInput("--solar needs --sun, the peak sun hours of the worst month")
    if alternator_a is not None and driving_h is None:
        raise BadInput("--alternator needs --driving, the hours driven a day")
    loads = [load_of(text, volts_v) for text in load]
    demand = _demand(loads)
    usable = usable_percent if usable_percent is not None else _usable(chemistry)
    cold = cold_factor(battery_c) if chemistry == "lead" else 1.0
    need_wh = demand.battery_wh * days * cold / (usable / 100)
    keep = (1 - table("energy")["solar"]["losses_percent"] / 100) / _charging()
    panels_w = None if sun_h is None else demand.battery_wh / (sun_h * keep)
    solar_wh = (solar_w or 0.0) * (sun_h or 0.0) * keep
    driven_wh = (alternator_a or 0.0) * volts_v * (driving_h or 0.0) / _charging()
    charge_wh = solar_wh + driven_wh
    figures = [
        Figure("day_wh", demand.battery_wh, "Wh", "a day, out of the battery"),
        Figure("dc_wh", demand.dc_wh, "Wh", "a day at loads on the battery"),
        Figure("ac_wh", demand.ac_wh, "Wh", "a day at loads on the inverter"),
        Figure("battery_needed_wh", need_wh, "Wh", f"battery for {days:g} days"),
        Figure("battery_needed_ah", need_wh / volts_v, "Ah", f"at {volts_v:g} V"),
    ]
    efficiency = table("energy")["inverter"]["efficiency_percent"]
    working = [
        *(
            f"{each.name}: {each.watts_w:.4g} W x {each.hours_h:.4g} h x {each.duty_percent:g} % "
            f"= {each.wh:.4g} Wh{' ac' if each.ac else ''}"
            for each in loads
        ),
        f"day = {demand.dc_wh:.4g} + {demand.ac_wh:.4g} / {efficiency / 100:g} = "
        f"{demand.battery_wh:.4g} Wh",
        f"battery = {demand.battery_wh:.4g} Wh x {days:g} x {cold:.3g} / {usable / 100:g} = "
        f"{need_wh:.4g} Wh",
    ]
    if panels_w is not None:
        figures.append(Figure("panels_needed_w", panels_w, "W", f"at {sun_h:g} sun hours"))
        working.append(
            f"panels = {demand.battery_wh:.4g} Wh / ({sun_h:g} h x {keep:.4g}) = {panels_w:.4g} W"
        )
    if solar_w is not None or alternator_a is not None:
        figures += [
            Figure("solar_day_wh", solar_wh, "Wh", "a day from the panels"),
            Figure("driven_day_wh", driven_wh, "Wh", "a day from driving"),
            Figure("charge_day_wh", charge_wh, "Wh", "a day in all"),
            Figure("balance_day_wh", charge_wh - demand.battery_wh, "Wh", "charge less use"),
        ]
        working.append(f"charge = {solar_wh:.4g} + {driven_wh:.4g} = {charge_wh:.4g} Wh a day")
    if demand.ac_w:
        figures += [
            Figure("inverter_needed_w", demand.ac_w, "W", "continuous, all at once"),
            Figure("inverter_surge_w", demand.surge_w, "W", "for a moment, greatest surge on top"),
        ]
    full_days = None
    if battery_wh is not None:
        full_days = battery_wh * usable / 100 / cold / demand.battery_wh
        figures.append(Figure("days_on_battery", full_days, "d", "until it is down, uncharged"))
    first, governs = _first_out(demand, days, full_days, panels_w, solar_w, charge_wh, alternator_a,
                                inverter_w)  # fmt: skip
    figures.append(Figure("first_out", first, "", "what runs out first"))
    return Result(
        f"{demand.battery_wh:.4g} Wh a day; {need_wh / volts_v:.4g} Ah at {volts_v:g} V for "
        f"{days:g} days" + (f", {panels_w:.4g} W of panels" if panels_w else ""),
        tuple(figures),
        governs,
        tuple(working),
        tuple(_others(demand, days, cold, chemistry, sun_h)),
        tuple(_sources(chemistry, demand, solar_w, panels_w)),
        tuple(_cautions(chemistry, battery_c, demand)),
        version("energy"),
    )


def _demand(loads: Sequence[Load]) -> Demand:
    efficiency = table("energy")["inverter"]["efficiency_percent"] / 100
    through = [each for each in loads if each.ac]
    dc = sum(each.wh for each in loads if not each.ac)
    ac = sum(each.wh for each in through)
    together = sum(each.watts_w for each in through)
    surge = max((each.surge_w - each.watts_w for each in through), default=0.0)
    return Demand(dc, ac, dc + ac / efficiency, together, together + surge)


def _usable(chemistry: str) -> float:
    return float(table("energy")["usable"][chemistry]["percent"])


def _charging() -> float:
    return float(table("energy")["charging"]["factor"])


def cold_factor(battery_c: float) -> float:
    """How much larger a lead-acid battery must be for its temperature (C), between the rows."""
    rows = table("energy")["cold"]["lead"]
    at, factors = [(f - 32) * 5 / 9 for f in rows["f"]], rows["factor"]
    if battery_c <= at[0]:
        return float(factors[0])
    for low, high, one, other in zip(at, at[1:], factors, factors[1:], strict=False):
        if battery_c <= high:
            return float(one + (other - one) * (battery_c - low) / (high - low))
    return float(factors[-1])


def _first_out(
    demand: Demand,
    days: float,
    full_days: float | None,
    panels_w: float | None,
    solar_w: float | None,
    charge_wh: float,
    alternator_a: float | None,
    inverter_w: float | None,
) -> tuple[str, str]:
    """What runs out first and why, by the smallest ratio of what there is to what is needed."""
    ratios = []
    if full_days is not None:
        ratios.append((full_days / days, "battery", f"it is down after {full_days:.3g} days"))
    if solar_w is not None or alternator_a is not None:
        share = charge_wh / demand.battery_wh
        ratios.append((share, "charge", f"a day's charge is {100 * share:.3g} % of a day's use"))
    if inverter_w is not None:
        share = inverter_w / demand.ac_w if demand.ac_w else inf
        ratios.append((share, "inverter", f"it carries {inverter_w:g} of {demand.ac_w:.4g} W"))
    if not ratios:
        return "unknown", "the days without charge set the battery; no battery or charge was given"
    least, name, why = min(ratios)
    if least >= 1:
        return "nothing", f"all is enough; the {name} is nearest: {why}"
    return name, f"the {name} runs out first: {why}"


def _others(
    demand: Demand, days: float, cold: float, chemistry: str, sun_h: float | None
) -> list[tuple[str, str]]:
    tables = table("energy")
    limit = tables["usable"][chemistry]["limit_percent"]
    said = [
        (
            f"battery drawn down to its limit, {limit:g} %",
            f"{demand.battery_wh * days * cold / (limit / 100):.4g} Wh",
        )
    ]
    if demand.ac_wh:
        best = tables["inverter"]["best_percent"]
        said.append(
            (
                f"a day with the inverter at its best, {best:g} %",
                f"{demand.dc_wh + demand.ac_wh / (best / 100):.4g} Wh",
            )
        )
    if sun_h is not None:
        share = tables["measured"]["percent"]
        said.append(
            (
                f"panels by a measured system, {share:g} % used",
                f"{demand.battery_wh / sun_h / (share / 100):.4g} W",
            )
        )
    return said


def _sources(
    chemistry: str, demand: Demand, solar_w: float | None, panels_w: float | None
) -> list[Source]:
    keys = [table("energy")["usable"][chemistry]["source"]]
    if chemistry == "lead":
        keys.append(table("energy")["cold"]["lead"]["source"])
    if demand.ac_wh:
        keys.append(table("energy")["inverter"]["source"])
    if solar_w is not None or panels_w is not None:
        keys += [table("energy")[name]["source"] for name in ("solar", "charging", "measured")]
    return [source("energy", key) for key in keys]


def _cautions(chemistry: str, battery_c: float, demand: Demand) -> list[str]:
    said = []
    frost_c = (table("energy")["frost"]["charge_above_f"] - 32) * 5 / 9
    if chemistry == "lithium" and battery_c <= frost_c:
        said.append("Lithium cells are ruined by charging at or below 0 C: a cut-off is needed.")
    if chemistry == "lead":
        said.append("Lead-acid batteries give off hydrogen: vented to the outside, no sparks.")
    said.append(
        "A battery's fuse must be able to break what the bank can give; check the maker's sheet."
    )
    if demand.ac_w:
        said.append("Inverter output is mains voltage: earthing and wiring by licensed practice.")
    said.append("Use the month you will be there with the least sun, and watts measured, not read.")
    return said


HELPER = Helper(
    "energy",
    "a day's energy: battery, panels, charging and inverter",
    INPUTS,
    energy,
    """\
  closein size energy --load "fridge 45W*24h 40%" --load "lamps 0.8A*5h" --days 2 --sun 2.5h
  closein size energy --load "kettle 1200W*0.3h ac surge 1500W" --battery 200Ah*12.8V
  closein size energy --load "fan 30W*8h" --solar 200W --sun 3h --alternator 30A --driving 1h
  closein size energy --from-build --battery 200Ah*12.8V""",
)
