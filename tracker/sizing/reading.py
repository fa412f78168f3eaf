"""What the meter should show on a run: loop resistance, and drop at a test load."""

from __future__ import annotations

from tracker.sizing.conductor import loop_m
from tracker.sizing.copper import (
    MADE,
    ohm_per_m,
    per_kelvin,
    resistance_source,
    resistivity_ohm_mm2_per_m,
    wire_of,
)
from tracker.sizing.result import Figure, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

OWN_RANGE = "what the tables here were checked for"
METER_OHM = 0.1
"""Below this an ordinary meter shows more of its leads than of the run. Common practice, no
source."""

INPUTS = (
    Input("size", "--size", "conductor, such as 14AWG, 2.5mm2 or 14SAE", type="area",
          required=True),
    Input("one_way_m", "--one-way", "length of the run", "m", low=0.1, high=200, why=OWN_RANGE),
    Input("round_trip_m", "--round-trip", "length there and back", "m", low=0.1, high=400,
          why=OWN_RANGE),
    Input("copper_c", "--temp", "temperature of the wire when it is tested", "C", low=-40, high=80,
          default=20.0, why="the coefficient of copper"),
    Input("return_path", "--return", "loop: both conductors; chassis: one conductor alone",
          type="choice", choices=("wire", "chassis"), default="wire"),
    Input("test_a", "--test-load", "current of the load test", "A", low=0.01, high=200,
          why=OWN_RANGE),
    Input("volts_v", "--volts", "voltage at the source under that load", "V", low=1, high=600,
          why=OWN_RANGE),
    Input("made", "--copper", "how the copper is made up", type="choice",
          choices=tuple(kind for kinds in MADE.values() for kind in kinds)),
)  # fmt: skip


def reading(
    size: str,
    one_way_m: float | None = None,
    round_trip_m: float | None = None,
    copper_c: float = 20.0,
    return_path: str = "wire",
    test_a: float | None = None,
    volts_v: float | None = None,
    made: str | None = None,
) -> Result:
    """Loop resistance and drop expected of a run that is right, with the band to accept.

    Formula
    -------
    R = length x r20 (1 + 0.00393 (T - 20)); drop = test load x R; accepted from 0.8 to 1.2 of it.

    Parameters
    ----------
    size: conductor, such as 14AWG, 2.5mm2 or 14SAE [-].
    one_way_m: length of the run [m]; this or round_trip_m.
    round_trip_m: conductor there and back [m].
    copper_c: temperature of the wire when it is tested [C].
    return_path: wire for the loop of both conductors, chassis for one conductor alone [-].
    test_a: current of the load test [A].
    volts_v: voltage at the source under that load [V].
    made: how the copper is made up [-].

    Returns
    -------
    Result with loop_ohm, its band low_ohm and high_ohm, and the drop at the test load.

    Valid
    -----
    one_way_m: 0.1..200
    round_trip_m: 0.1..400
    copper_c: -40..80
    test_a: 0.01..200
    volts_v: 1..600

    Source
    ------
    NEC chapter 9 table 8; IEC 60228; IEC 60028; a works specification for the upper limit; the
    lower limit is common practice, no source.

    Example
    -------
    22 m of 2.5 mm2 of class 2 at 20 C: 0.163 ohm one way (an electricians' forum, On-Site Guide).
    """
    guard(
        INPUTS,
        one_way_m=one_way_m,
        round_trip_m=round_trip_m,
        copper_c=copper_c,
        return_path=return_path,
        test_a=test_a,
        volts_v=volts_v,
        made=made,
    )
    wire = wire_of(size)
    length_m = loop_m(one_way_m, round_trip_m, return_path)
    r20 = ohm_per_m(wire, 20.0, made)
    ohm = ohm_per_m(wire, copper_c, made) * length_m
    low = float(table("reading")["band-low"]["low"])
    high = float(table("reading")["band"]["high"])
    figures = [
        Figure("loop_ohm", ohm, "ohm", "expected, meter leads taken off"),
        Figure("low_ohm", low * ohm, "ohm", "below this something else carries the current"),
        Figure("high_ohm", high * ohm, "ohm", "above this a joint or crimp is bad"),
        Figure("length_m", length_m, "m", "conductor measured through"),
        Figure("size", wire.label, "", "conductor"),
    ]
    working = [
        f"R = {length_m:.4g} m x {1000 * r20:.4g} ohm/km / 1000 x "
        f"(1 + {per_kelvin():g} x ({copper_c:g} - 20)) = {ohm:.4g} ohm",
        f"accepted: {low:g} x to {high:g} x = {low * ohm:.4g} to {high * ohm:.4g} ohm",
    ]
    if test_a is not None:
        drop_v = test_a * ohm
        figures += [
            Figure("drop_v", drop_v, "V", f"expected at {test_a:g} A"),
            Figure("low_v", low * drop_v, "V", "least drop to accept"),
            Figure("high_v", high * drop_v, "V", "most drop to accept"),
        ]
        working.append(f"drop = {test_a:g} A x {ohm:.4g} ohm = {drop_v:.3g} V")
        if volts_v is not None:
            at_load_v = max(0.0, volts_v - high * drop_v)
            figures.append(Figure("least_at_load_v", at_load_v, "V", "least to accept at the load"))
            working.append(f"{volts_v:g} V - {high:g} x {drop_v:.3g} V = {at_load_v:.4g} V")
    cautions = ["Test with the power off and both ends free; touch the meter's leads first."]
    if ohm < METER_OHM:
        cautions.append(
            f"{1000 * ohm:.3g} milliohm is too little for an ordinary meter: test the drop under a "
            "known load instead."
        )
    cautions.append(
        "A good reading proves no crimp that will last: check also by pull, and under load."
    )
    sources = (
        resistance_source(wire, made),
        source("copper", "ipe-handbook"),
        source("reading", "band"),
        source("reading", "low-band"),
    )
    return Result(
        f"{wire}: {ohm:.3g} ohm expected over {length_m:.4g} m, "
        f"accept {low * ohm:.3g} to {high * ohm:.3g} ohm",
        tuple(figures),
        f"{high:g} times what the length and size give",
        tuple(working),
        (
            (
                "solid copper of that area at 20 C",
                f"{_solid_ohm(wire.area_mm2, length_m):.4g} ohm",
            ),
        ),
        sources,
        tuple(cautions),
        version("copper", "reading"),
    )


def _solid_ohm(area_mm2: float, length_m: float) -> float:
    return resistivity_ohm_mm2_per_m() * length_m / area_mm2


HELPER = Helper(
    "reading",
    "what the meter should show on a run",
    INPUTS,
    reading,
    """\
  closein size reading --size 14AWG --one-way 18ft --temp 62F
  closein size reading --size 2.5mm2 --one-way 6m --test-load 5A --volts 12.6V""",
    {"check": {"limit_min": "low_ohm", "limit_max": "high_ohm"}},
)
