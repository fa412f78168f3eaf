"""Voltage drop of one run, or at every load of a circuit with branches."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.errors import BadInput
from tracker.sizing.circuit import circuit_result
from tracker.sizing.conductor import loop_m
from tracker.sizing.copper import MADE, ohm_per_m, per_kelvin, resistance_source, wire_of
from tracker.sizing.loss import DEFAULT_AMBIENT_C, loss
from tracker.sizing.result import Figure, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, version

OWN_RANGE = "what the tables here were checked for"
INPUTS = (
    Input("size", "--size", "conductor, such as 14AWG, 2.5mm2 or 14SAE", type="area"),
    Input("load_a", "--amps", "current", "A", low=0.001, high=1000, why=OWN_RANGE, bare=True),
    Input("one_way_m", "--one-way", "length from source to load", "m", low=0.01, high=500,
          why=OWN_RANGE),
    Input("round_trip_m", "--round-trip", "length there and back", "m", low=0.01, high=1000,
          why=OWN_RANGE),
    Input("volts_v", "--volts", "nominal voltage", "V", low=1, high=600, why=OWN_RANGE, bare=True),
    Input("return_path", "--return", "how the current comes back", type="choice",
          choices=("wire", "chassis"), default="wire"),
    Input("insulation", "--insulation", "rating of the insulation in C; 60 when not known",
          type="choice", choices=("60", "75", "90", "105")),
    Input("ambient_c", "--ambient", "temperature around the cable", "C", low=-40, high=70,
          default=DEFAULT_AMBIENT_C, why="ambient factors"),
    Input("copper_c", "--copper-at", "temperature of the copper, where it is known", "C",
          low=-40, high=105, why="the coefficient of copper"),
    Input("made", "--copper", "how the copper is made up", type="choice",
          choices=tuple(kind for kinds in MADE.values() for kind in kinds)),
    Input("circuit", "--circuit", "a TOML file with a whole circuit", type="table"),
)  # fmt: skip


def drop(
    size: str | None = None,
    load_a: float | None = None,
    one_way_m: float | None = None,
    round_trip_m: float | None = None,
    volts_v: float | None = None,
    return_path: str = "wire",
    insulation: str | None = None,
    ambient_c: float = DEFAULT_AMBIENT_C,
    copper_c: float | None = None,
    made: str | None = None,
    circuit: Mapping[str, Any] | None = None,
) -> Result:
    """Volts and percent lost along one run, or at every load of a circuit.

    Formula
    -------
    drop = load x length x r20 (1 + 0.00393 (T - 20)); in a circuit each segment carries the sum
    of the loads beyond it, and the drops add up from the source.

    Parameters
    ----------
    size: conductor, such as 14AWG, 2.5mm2 or 14SAE [-].
    load_a: current [A].
    one_way_m: length from source to load [m]; this or round_trip_m.
    round_trip_m: conductor there and back [m].
    volts_v: nominal voltage [V].
    return_path: wire, or chassis, whose own drop is then not counted [-].
    insulation: rating of the insulation in C; None is taken as 60 [-].
    ambient_c: around the cable [C].
    copper_c: temperature of the copper where known; else ambient and load give it [C].
    made: how the copper is made up; None is stranded, SAE or class 5 by the size [-].
    circuit: a circuit as a TOML file gives it, instead of one run [-].

    Returns
    -------
    Result with drop_v and drop_percent; for a circuit also those at every load and loss_w.

    Valid
    -----
    load_a: 0.001..1000
    one_way_m: 0.01..500
    round_trip_m: 0.01..1000
    volts_v: 1..600
    ambient_c: -40..70
    copper_c: -40..105

    Source
    ------
    NEC chapter 9 table 8; IEC 60228; FAA AC 43.13-1B tables 11-7 to 11-9; IEC 60028.

    Example
    -------
    107 ft of 6 AWG aircraft wire at 20 C carrying 20 A drop 0.942 V (FAA AC 43.13-1B table 11-7).
    """
    guard(
        INPUTS,
        load_a=load_a,
        one_way_m=one_way_m,
        round_trip_m=round_trip_m,
        volts_v=volts_v,
        return_path=return_path,
        insulation=insulation,
        ambient_c=ambient_c,
        copper_c=copper_c,
        made=made,
    )
    insulation_c = int(insulation or 60)
    if circuit is not None:
        if size is not None or load_a is not None:
            raise BadInput("--circuit brings its own sizes and loads; leave --size and --amps out")
        return circuit_result(circuit, ambient_c, insulation_c, copper_c)
    if size is None or load_a is None or volts_v is None:
        raise BadInput("one run needs --size, --amps, --volts and a length; or give --circuit FILE")
    wire = wire_of(size)
    length_m = loop_m(one_way_m, round_trip_m, return_path)
    found = loss(
        wire,
        load_a,
        length_m,
        temperature_c=copper_c,
        ambient_c=ambient_c,
        insulation_c=insulation_c,
        made=made,
    )
    r20 = ohm_per_m(wire, 20.0, made)
    cold_v = r20 * length_m * load_a
    percent = 100 * found.drop_v / volts_v
    cautions = []
    carries = found.ampacity
    if carries is not None and load_a > carries.corrected_a:
        cautions.append(
            f"{load_a:g} A is above the {carries.corrected_a:.4g} A {wire} may carry with "
            f"{insulation_c} C insulation: 'closein size conductor' finds the size."
        )
    if found.drop_v >= volts_v:
        cautions.append("The run would lose all of its voltage: the load can't work.")
    if return_path == "chassis":
        cautions.append("The chassis return is not in these figures: measure it under load.")
    cautions.append(
        "Joints, switches and fuses lose more: check the voltage at the load, under load."
    )
    return Result(
        f"{wire}: {found.drop_v:.3g} V ({percent:.3g} %) at {load_a:g} A over {length_m:.4g} m",
        (
            Figure("drop_v", found.drop_v, "V", "lost along the run"),
            Figure("drop_percent", percent, "%", "of nominal"),
            Figure("at_load_v", max(0.0, volts_v - found.drop_v), "V", "at the load"),
            Figure("loss_w", found.drop_v * load_a, "W", "turned to heat in the wire"),
            Figure("size", wire.label, "", "conductor"),
            Figure("area_mm2", wire.area_mm2, "mm2", "copper area"),
            Figure("loop_m", length_m, "m", "conductor the current passes through"),
            Figure("resistance_ohm", found.ohm, "ohm", "of that length, warm"),
            Figure("working_c", found.working_c, "C", "copper"),
        ),
        f"resistance of {wire} at {found.working_c:.3g} C",
        (
            f"drop = {load_a:g} A x {length_m:.4g} m x {1000 * r20:.4g} ohm/km / 1000 x "
            f"(1 + {per_kelvin():g} x ({found.working_c:.3g} - 20)) = {found.drop_v:.3g} V",
            f"{found.drop_v:.3g} V / {volts_v:g} V = {percent:.3g} %",
        ),
        (("at 20 C", f"{cold_v:.3g} V ({100 * cold_v / volts_v:.3g} %)"),),
        (resistance_source(wire, made), source("copper", "ipe-handbook")),
        tuple(cautions),
        version("copper", "ampacity"),
    )


HELPER = Helper(
    "drop",
    "voltage drop of one run, or at every load of a circuit",
    INPUTS,
    drop,
    """\
  closein size drop --size 14AWG --amps 5A --one-way 18ft --volts 12V
  closein size drop --size 2.5mm2 --amps 5A --round-trip 11m --volts 12V --copper-at 20C
  closein size drop --circuit lamps.toml""",
)
