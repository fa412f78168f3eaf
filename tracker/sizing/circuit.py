"""A radial circuit with loads along it, as a TOML file gives it.

::

    volts = "12 V"
    [[segment]]            # from is the source, then where the segment before ended
    to = "lamp 1"
    length = "2 m"         # one way
    size = "14AWG"
    load = "0.8 A"         # at its far end; may be left off
    [[segment]]
    from = "lamp 1"
    to = "step lamp"
    length = "3 m"
    size = "16AWG"
    return = "chassis"     # wire, unless it says otherwise
    conductors = 1         # in the segment: 2 there and back; 4 doubled; with a chassis 1 or more
    load = "0.4 A"
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from tracker.errors import BadInput, did_you_mean
from tracker.quantity import parse
from tracker.sizing.ampacity import RULES, ampacity
from tracker.sizing.copper import Wire, resistance_source, wire_of
from tracker.sizing.loss import loss
from tracker.sizing.result import Figure, OutOfRange, Result
from tracker.sizing.tables import source, version

SOURCE = "source"
RANGES: dict[str, tuple[str, float, float]] = {
    "length": ("m", 0.01, 500.0),
    "load": ("A", 0.0, 1000.0),
}
KEYS = ("from", "to", "length", "size", "load", "conductors", "return")
MOST_SEGMENTS = 500


@dataclass(frozen=True, slots=True)
class Segment:
    """One length of cable between two places.

    Parameters
    ----------
    near, far: the places; the near one is nearer to the source.
    length_m: one way (m).
    wire: its size.
    load_a: drawn at the far end (A).
    conductors: in the segment; those of a wire return counted in.
    chassis: does the current come back through the chassis?
    """

    near: str
    far: str
    length_m: float
    wire: Wire
    load_a: float
    conductors: int
    chassis: bool

    @property
    def path_m(self) -> float:
        """Length of conductor the current passes through (m)."""
        return self.length_m if self.chassis else 2 * self.length_m

    @property
    def shares(self) -> float:
        """Among how many conductors side by side the current divides."""
        return self.conductors if self.chassis else self.conductors / 2


def segments_of(table: Mapping[str, Any]) -> tuple[float, list[Segment]]:
    """The nominal voltage and the segments, sources first.

    Raises
    ------
    BadInput: names the segment and what is wrong with it.
    """
    for key in table:
        if key not in ("volts", "segment"):
            raise BadInput(f"the circuit has no '{key}'{did_you_mean(key, ('volts', 'segment'))}")
    volts_v = _quantity(table.get("volts"), "V", "the circuit's volts")
    if not 1 <= volts_v <= 600:
        raise OutOfRange("the circuit's volts", volts_v, 1, 600, "V", "")
    rows = table.get("segment")
    if not isinstance(rows, Sequence) or isinstance(rows, str) or not rows:
        raise BadInput("the circuit has no [[segment]]; give at least one")
    if len(rows) > MOST_SEGMENTS:
        raise BadInput(f"the circuit has {len(rows)} segments; at most {MOST_SEGMENTS} are taken")
    found: list[Segment] = []
    reached = {SOURCE}
    for number, row in enumerate(rows, 1):
        segment = _segment(row, number, found[-1].far if found else SOURCE)
        if segment.near not in reached:
            near = did_you_mean(segment.near, reached)
            raise BadInput(
                f"segment {number} begins at '{segment.near}', but nothing before ends there{near}"
            )
        if segment.far in reached:
            raise BadInput(
                f"segment {number} ends at '{segment.far}', which is reached already: "
                "a circuit here branches but never closes a ring"
            )
        reached.add(segment.far)
        found.append(segment)
    return volts_v, found


def _segment(row: Any, number: int, before: str) -> Segment:
    what = f"segment {number}"
    if not isinstance(row, Mapping):
        raise BadInput(f"{what} is no table")
    for key in row:
        if key not in KEYS:
            near = did_you_mean(key, KEYS) or f"; it has {', '.join(KEYS)}"
            raise BadInput(f"{what} has no '{key}'{near}")
    far = _name(row.get("to", f"end {number}"), f"{what}: to")
    size = row.get("size")
    if not isinstance(size, str):
        raise BadInput(f"{what} ('{far}') needs a size such as \"14AWG\"")
    length_m = _within(row.get("length"), "length", f"{what} ('{far}'): length")
    load_a = _within(row["load"], "load", f"{what} ('{far}'): load") if "load" in row else 0.0
    way = row.get("return", "wire")
    if way not in ("wire", "chassis"):
        raise BadInput(f"{what} ('{far}'): return is wire or chassis")
    count = row.get("conductors", 1 if way == "chassis" else 2)
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= 20:
        raise BadInput(f"{what} ('{far}'): conductors is a whole number from 1 to 20")
    if way == "wire" and count % 2:
        raise BadInput(
            f"{what} ('{far}'): {count} conductors can't be as many there as back; "
            'give an even number, or return = "chassis"'
        )
    near = _name(row.get("from", before), f"{what}: from")
    try:
        wire = wire_of(size)
    except BadInput as error:
        raise BadInput(f"{what} ('{far}'): {error}") from None
    return Segment(near, far, length_m, wire, load_a, count, way == "chassis")


def _name(value: Any, what: str) -> str:
    text = "".join(sign for sign in str(value) if sign.isprintable()).strip()
    if not text or len(text) > 60:
        raise BadInput(f"{what} is a name of 1 to 60 letters")
    return text


def _within(value: Any, key: str, what: str) -> float:
    unit, low, high = RANGES[key]
    number = _quantity(value, unit, what)
    if not low <= number <= high:
        raise OutOfRange(what, number, low, high, unit, "")
    return number


def _quantity(value: Any, unit: str, what: str) -> float:
    if not isinstance(value, str):
        raise BadInput(f'{what} is a text with its unit, such as "12 {unit}"')
    try:
        return parse(value, unit)
    except BadInput as error:
        raise BadInput(f"{what}: {error}") from None


def solve(
    segments: Sequence[Segment],
    ambient_c: float = 30.0,
    insulation_c: int = 60,
    copper_c: float | None = None,
) -> tuple[dict[str, float], list[float], list[float]]:
    """Drop at every place, current through and watts lost in every segment.

    Parameters
    ----------
    segments: each begins where one before it ended, or at the source.
    copper_c: temperature of all copper (C) where known.

    Returns
    -------
    Drop by place (V); current (A) and loss (W) by segment, in their order.
    """
    currents = [segment.load_a for segment in segments]
    place = {segment.far: number for number, segment in enumerate(segments)}
    for number in reversed(range(len(segments))):
        parent = place.get(segments[number].near)
        if parent is not None:
            currents[parent] += currents[number]
    drops = {SOURCE: 0.0}
    losses = []
    for segment, current_a in zip(segments, currents, strict=True):
        found = loss(
            segment.wire,
            current_a / segment.shares,
            segment.path_m,
            temperature_c=copper_c,
            ambient_c=ambient_c,
            insulation_c=insulation_c,
        )
        drops[segment.far] = drops[segment.near] + found.drop_v
        losses.append(found.drop_v * current_a)
    return drops, currents, losses


def circuit_result(
    table: Mapping[str, Any], ambient_c: float, insulation_c: int, copper_c: float | None
) -> Result:
    """The answer for a circuit given as a mapping; see the head of this module."""
    volts_v, segments = segments_of(table)
    drops, currents, losses = solve(segments, ambient_c, insulation_c, copper_c)
    loaded = [segment for segment in segments if segment.load_a > 0]
    if not loaded:
        raise BadInput("no segment of the circuit has a load")
    worst = max(loaded, key=lambda segment: drops[segment.far])
    worst_v = drops[worst.far]
    percent = 100 * worst_v / volts_v
    figures = [
        Figure("drop_v", worst_v, "V", f"at {worst.far}, the most"),
        Figure("drop_percent", percent, "%", "of nominal"),
        Figure("worst", worst.far, "", "load with the most drop"),
        Figure("current_a", sum(segment.load_a for segment in segments), "A", "at the source"),
        Figure("loss_w", sum(losses), "W", "turned to heat in all wires"),
    ]
    for segment in loaded:
        lost_v = drops[segment.far]
        figures.append(Figure(f"{segment.far}.drop_v", lost_v, "V", "lost on the way there"))
        share = 100 * lost_v / volts_v
        figures.append(Figure(f"{segment.far}.drop_percent", share, "%", "of nominal"))
    cautions = []
    for segment, current_a in zip(segments, currents, strict=True):
        each_a = current_a / segment.shares
        carries = ampacity(segment.wire, RULES[0], insulation_c, ambient_c)
        if carries is not None and each_a > carries.corrected_a:
            cautions.append(
                f"{segment.near} to {segment.far}: {each_a:.3g} A is above what {segment.wire} "
                f"may carry ({carries.corrected_a:.4g} A)."
            )
    if worst_v >= volts_v:
        cautions.append("The circuit would lose all of its voltage: the load can't work.")
    if any(segment.chassis for segment in segments):
        cautions.append("The chassis return is not in these figures: measure it under load.")
    cautions.append(
        "One device at the source protects the smallest size of the circuit: check its rating."
    )
    working = [
        f"{segment.near} to {segment.far}: {current_a / segment.shares:.4g} A x "
        f"{segment.path_m:.4g} m of "
        f"{segment.wire} -> {drops[segment.far] - drops[segment.near]:.3g} V, {lost_w:.3g} W"
        for segment, current_a, lost_w in zip(segments, currents, losses, strict=True)
    ]
    sources = [resistance_source(segment.wire) for segment in segments]
    return Result(
        f"{worst.far} has the most drop: {worst_v:.3g} V ({percent:.3g} %) of {volts_v:g} V",
        tuple(figures),
        f"the way to {worst.far}",
        tuple(working),
        (),
        tuple(dict.fromkeys([*sources, source("copper", "ipe-handbook")])),
        tuple(cautions),
        version("copper", "ampacity"),
    )
