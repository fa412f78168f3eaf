"""The conductor for a load: the smallest size that keeps every limit, and its device."""

from __future__ import annotations

from tracker.errors import BadInput
from tracker.sizing import protection
from tracker.sizing.ampacity import RULE_TITLES, RULES, least_area_mm2
from tracker.sizing.choosing import (
    Circuit,
    Trial,
    at_higher_voltage,
    choose,
    in_parallel,
)
from tracker.sizing.conductor_words import cautions, others, working
from tracker.sizing.copper import cmil_of, least_cmil, resistance_source
from tracker.sizing.result import Figure, Result, Source
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, version

INSULATIONS = ("60", "75", "90", "105")
OWN_RANGE = "what the tables here were checked for"

INPUTS = (
    Input("load_a", "--amps", "current of the load", "A", low=0.05, high=500, why=OWN_RANGE,
          required=True, bare=True),
    Input("one_way_m", "--one-way", "length from source to load", "m", low=0.1, high=100,
          why=OWN_RANGE),
    Input("round_trip_m", "--round-trip", "length there and back", "m", low=0.2, high=200,
          why=OWN_RANGE),
    Input("volts_v", "--volts", "nominal voltage", "V", low=5, high=250, why=OWN_RANGE,
          required=True, bare=True),
    Input("drop_percent", "--drop", "voltage drop allowed", "%", low=0.5, high=15, default=3.0,
          why=OWN_RANGE),
    Input("return_path", "--return", "how the current comes back", type="choice",
          choices=("wire", "chassis"), default="wire"),
    Input("insulation", "--insulation", "rating of the insulation in C; 60 when not known",
          type="choice", choices=INSULATIONS),
    Input("ambient_c", "--ambient", "temperature around the cable", "C", low=-40, high=70,
          default=30.0, why="ambient factors"),
    Input("bundled", "--bundled", "current-carrying conductors lying together", type="whole",
          low=1, high=60, default=2, why="bundle factors"),
    Input("in_foam", "--in-foam", "buried in insulation for 0.5 m or more", type="yesno",
          default=False),
    Input("continuous", "--continuous", "the load runs three hours or more", type="yesno",
          default=False),
    Input("sheathed", "--sheathed", "the conductor lies in a sheath or a cable", type="yesno",
          default=False),
    Input("rules", "--rules", "rule set", type="choice", choices=RULES, default="33cfr183"),
    Input("gauge", "--gauge", "family of sizes", type="choice", choices=("awg", "mm2", "sae"),
          default="awg"),
    Input("cranking_a", "--bank", "total cold cranking amps of the bank, for the interrupt rating",
          "A", low=1, high=20000, why="interrupt ratings"),
)  # fmt: skip


def conductor(
    load_a: float,
    one_way_m: float | None = None,
    round_trip_m: float | None = None,
    volts_v: float = 12.0,
    drop_percent: float = 3.0,
    return_path: str = "wire",
    insulation: str | None = None,
    ambient_c: float = 30.0,
    bundled: int = 2,
    in_foam: bool = False,
    continuous: bool = False,
    sheathed: bool = False,
    rules: str = "33cfr183",
    gauge: str = "awg",
    cranking_a: float | None = None,
) -> Result:
    """The smallest conductor that keeps drop, ampacity and least size, and the device for it.

    Formula
    -------
    drop = load x loop x r20 (1 + 0.00393 (T - 20)), with T = ambient + (insulation - ambient)
    (load / ampacity)^2; circular mils >= 10.75 x load x loop in ft / drop allowed; ampacity =
    table x ambient x bundle x foam; load (125 % of it when continuous) <= device <= ampacity.

    Parameters
    ----------
    load_a: current of the load [A].
    one_way_m: length from source to load [m]; this or round_trip_m.
    round_trip_m: conductor there and back [m].
    volts_v: nominal voltage [V].
    drop_percent: drop allowed [%].
    return_path: wire, or chassis, whose own drop is then not counted [-].
    insulation: rating of the insulation in C; None is taken as 60, the lowest [-].
    ambient_c: around the cable [C].
    bundled: current-carrying conductors lying together, its own among them [-].
    in_foam: buried in insulation for half a metre or more [-].
    continuous: does the load run three hours or more [-].
    sheathed: does the conductor lie in a sheath [-].
    rules: rule set for ampacity, least size and device [-].
    gauge: family of sizes: awg, sae (less copper under the same numbers) or mm2 [-].
    cranking_a: total cold cranking amps of the bank [A].

    Returns
    -------
    Result with size, area_mm2, drop_v, drop_percent, ampacity_a, protection_a and their working;
    size is None where no single conductor does, with parallel or a higher voltage offered.

    Valid
    -----
    load_a: 0.05..500
    one_way_m: 0.1..100
    round_trip_m: 0.2..200
    volts_v: 5..250
    drop_percent: 0.5..15
    ambient_c: -40..70
    bundled: 1..60
    cranking_a: 1..20000

    Source
    ------
    33 CFR 183.425 table 5, NEC table 310.16, ISO 10133 table A.1; NEC chapter 9 table 8, IEC
    60228; ABYC E-11 11.14 as quoted by others; 33 CFR 183.455.

    Example
    -------
    A 10 A pump, 21 ft of conductor there and back, 12 V, 3 %: 12 AWG by the circular-mil rule (a
    wire dealer's worked example, table there and 10.75).
    """
    guard(
        INPUTS,
        load_a=load_a,
        one_way_m=one_way_m,
        round_trip_m=round_trip_m,
        volts_v=volts_v,
        drop_percent=drop_percent,
        return_path=return_path,
        insulation=insulation,
        ambient_c=ambient_c,
        bundled=bundled,
        rules=rules,
        gauge=gauge,
        cranking_a=cranking_a,
    )
    circuit = Circuit(
        load_a,
        loop_m(one_way_m, round_trip_m, return_path),
        volts_v,
        drop_percent,
        int(insulation or INSULATIONS[0]),
        ambient_c,
        bundled,
        bool(in_foam),
        bool(sheathed),
        bool(continuous),
        rules,
    )
    found, before = choose(circuit, gauge)
    known = insulation is not None
    if found is None:
        return _none_does(circuit, gauge, before, return_path, known)
    carries = found.ampacity
    assert carries is not None  # a size without ampacity never passes
    sits, sit_sources = protection.where_it_sits(rules)
    figures = [
        *_size_figures(found, circuit),
        Figure("ampacity_a", carries.corrected_a, "A", "what it may carry, corrected"),
        Figure("ampacity_table_a", carries.base_a, "A", f"in the table's {carries.row} row"),
        Figure("ambient_factor", carries.ambient_factor, "", "for the ambient temperature"),
        Figure("bundle_factor", carries.bundle_factor, "", "for conductors lying together"),
        Figure("foam_factor", carries.foam_factor, "", "for being buried in insulation"),
        Figure("protection_a", found.device_a, "A", "fuse or breaker"),
        Figure("protection_within_mm", protection.within_mm(rules), "mm", "from the source"),
    ]
    if cranking_a is not None:
        breaks_a = protection.interrupt_a(cranking_a)
        figures.append(Figure("interrupt_a", breaks_a, "A", "the device must interrupt at least"))
    percent = 100 * found.drop_v / volts_v
    return Result(
        f"{found.wire}, {found.device_a:g} A device; drops {found.drop_v:.3g} V ({percent:.2g} %), "
        f"may carry {carries.corrected_a:.4g} A by {RULE_TITLES[rules]}",
        tuple(figures),
        governs(found, before),
        tuple([*working(found, circuit), f"The device sits {sits}."]),
        tuple(others(found, circuit, gauge)),
        _sources(found, circuit, sit_sources, cranking_a),
        tuple(cautions(found, circuit, return_path, known, cranking_a)),
        version("copper", "ampacity", "protection"),
    )


def loop_m(one_way_m: float | None, round_trip_m: float | None, return_path: str) -> float:
    """The length of conductor the current passes through (m).

    Raises
    ------
    BadInput: neither or both lengths are given, or a round trip with a chassis return.
    """
    if (one_way_m is None) == (round_trip_m is None):
        raise BadInput("give either --one-way or --round-trip, with its unit")
    if return_path == "chassis":
        if one_way_m is None:
            raise BadInput("with a chassis return only the wire counts; give --one-way")
        return one_way_m
    return 2 * one_way_m if one_way_m is not None else float(round_trip_m or 0)


def governs(found: Trial, before: Trial | None) -> str:
    """Which limit decided: what the next smaller size fails."""
    if before is None:
        return f"nothing: {found.wire} is the smallest size kept"
    return f"{' and '.join(before.fails)}: {before.wire} fails it"


def _size_figures(found: Trial, circuit: Circuit) -> list[Figure]:
    needed = least_cmil(circuit.load_a, circuit.loop_m, circuit.drop_allowed_v)
    return [
        Figure("size", found.wire.label, "", "conductor, copper"),
        Figure("area_mm2", found.wire.area_mm2, "mm2", "copper area"),
        Figure("loop_m", circuit.loop_m, "m", "conductor the current passes through"),
        Figure("drop_v", found.drop_v, "V", "drop at working temperature"),
        Figure("drop_percent", 100 * found.drop_v / circuit.volts_v, "%", "of nominal"),
        Figure("drop_allowed_v", circuit.drop_allowed_v, "V", "drop allowed"),
        Figure("working_c", found.working_c, "C", "copper under this load"),
        Figure("resistance_ohm", found.ohm, "ohm", "of the loop at that temperature"),
        Figure("area_cmil", cmil_of(found.wire), "cmil", "copper area"),
        Figure("rule_cmil", needed, "cmil", "least area by the circular-mil rule"),
    ]


def _none_does(
    circuit: Circuit, gauge: str, before: Trial | None, return_path: str, known: bool
) -> Result:
    """The answer where no single conductor does."""
    parallel = in_parallel(circuit, gauge)
    higher = at_higher_voltage(circuit, gauge)
    offers = []
    if parallel is not None:
        offers.append(("in parallel", f"{parallel[0]} x {parallel[1].wire} each way"))
    if higher is not None:
        same = f"{higher[1].wire} at {higher[0]:g} V for the same power"
        offers.append(("at a higher voltage", same))
    if not offers:
        offers.append(("nothing offered", "shorten the run, split the load or let more drop"))
    none = [
        Figure(name, None, unit, "no single conductor does")
        for name, unit in (
            ("size", ""),
            ("area_mm2", "mm2"),
            ("drop_v", "V"),
            ("drop_percent", "%"),
            ("ampacity_a", "A"),
            ("protection_a", "A"),
        )
    ]
    figures = [
        *none,
        Figure("loop_m", circuit.loop_m, "m", "conductor the current passes through"),
        Figure("drop_allowed_v", circuit.drop_allowed_v, "V", "drop allowed"),
        Figure("parallel_count", parallel[0] if parallel else None, "", "conductors each way"),
        Figure("parallel_size", parallel[1].wire.label if parallel else None, "", "each of them"),
        Figure("higher_v", higher[0] if higher else None, "V", "same power, one conductor"),
        Figure("higher_size", higher[1].wire.label if higher else None, "", "at that voltage"),
    ]
    why = f"no single conductor does: {before.wire} fails {' and '.join(before.fails)}" if before \
        else "no size"  # fmt: skip
    found_sources = [*(before.ampacity.sources if before and before.ampacity else ())]
    if before is not None:
        found_sources.append(resistance_source(before.wire))
    return Result(
        f"no single conductor does; {offers[0][1]}",
        tuple(figures),
        why,
        tuple(working(before, circuit)) if before else (),
        tuple(offers),
        tuple(dict.fromkeys(found_sources)),
        (
            "Conductors in parallel must be alike in size, length and ends; each needs its own "
            "device at the source, and codes limit where they are let be.",
            *cautions(None, circuit, return_path, known, None),
        ),
        version("copper", "ampacity", "protection"),
    )


def _sources(
    found: Trial, circuit: Circuit, sits: list[Source], cranking_a: float | None
) -> tuple[Source, ...]:
    assert found.ampacity is not None
    rows = [
        *found.ampacity.sources,
        resistance_source(found.wire),
        source("copper", "abyc-k"),
        least_area_mm2(circuit.rules, circuit.sheathed)[2],
        *protection.rating_sources(circuit.rules, found.device_a),
        *sits,
    ]
    if circuit.continuous:
        rows.append(source("protection", "nec-continuous"))
    if cranking_a is not None:
        rows.append(source("protection", "interrupt"))
    return tuple(dict.fromkeys(rows))


HELPER = Helper(
    "conductor",
    "conductor and fuse for a load: drop, ampacity, least size",
    INPUTS,
    conductor,
    """\
  closein size conductor --amps 8 --one-way 18ft --volts 12V --drop 3%
  closein size conductor --amps 20A --round-trip 9m --volts 12V --in-foam
  closein size conductor --amps 8A --one-way 5.5m --volts 12V --to L7""",
    {"run": {"gauge": "size", "protection_a": "protection_a"}},
)
