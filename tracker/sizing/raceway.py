"""How full a tube or chase is, how many wires more it takes, how wide its bends must be."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, pi

from tracker.errors import BadInput
from tracker.quantity import awg_area_mm2, parse
from tracker.sizing.copper import wire_of
from tracker.sizing.result import Figure, OutOfRange, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

INCH_MM = 25.4
OWN_RANGE = "sizes that make sense in a vehicle"
INPUTS = (
    Input("wire", "--wire", "wires, such as 3x12AWG, or 2x8.5mm for an outside diameter",
          type="text", repeated=True, required=True),
    Input("inside_mm", "--inside", "inside diameter of a round tube", "mm", low=3, high=300,
          why=OWN_RANGE),
    Input("width_mm", "--width", "inside width of a rectangular chase", "mm", low=3, high=1000,
          why=OWN_RANGE),
    Input("height_mm", "--height", "inside height of a rectangular chase", "mm", low=3, high=1000,
          why=OWN_RANGE),
    Input("tube", "--tube", "trade size of EMT", type="choice",
          choices=("1/2", "3/4", "1", "1-1/4", "1-1/2")),
    Input("length_mm", "--length", "length of the tube; a short one may be fuller", "mm", low=10,
          high=30000, why=OWN_RANGE),
)  # fmt: skip
MOST_WIRES = 500
PACKED = 0.6
"""How much of a loose bundle is wire, about. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Lot:
    """Wires of one sort.

    Parameters
    ----------
    count: how many.
    label: what people read.
    outside_mm: diameter over the insulation (mm).
    area_mm2: of one wire with its insulation (mm2); the table's own figure where there is one.
    from_table: was it read from the table, not measured?
    """

    count: int
    label: str
    outside_mm: float
    area_mm2: float
    from_table: bool


def raceway(
    wire: Sequence[str] = (),
    inside_mm: float | None = None,
    width_mm: float | None = None,
    height_mm: float | None = None,
    tube: str | None = None,
    length_mm: float | None = None,
) -> Result:
    """Fill of a round tube or rectangular chase, and how many wires more of each sort it takes.

    Formula
    -------
    fill = sum of pi/4 OD^2 / inside area, at most 53 % for one wire, 31 % for two, 40 % for more,
    60 % in a tube of at most 600 mm, 20 % in a rectangular chase; bend >= 5 OD; three wires can
    jam where inside / OD is 2.8 to 3.2.

    Parameters
    ----------
    wire: wires by number and size (3x12AWG), or by outside diameter (2x8.5mm) [-].
    inside_mm: inside diameter of a round tube [mm].
    width_mm: inside width of a rectangular chase [mm].
    height_mm: inside height of a rectangular chase [mm].
    tube: trade size of EMT, instead of a diameter [-].
    length_mm: length of the tube, where it is short [mm].

    Returns
    -------
    Result with fill_percent, allowed_percent, passes, more_<sort>, bend_radius_mm, jam_ratio.

    Valid
    -----
    inside_mm: 3..300
    width_mm: 3..1000
    height_mm: 3..1000
    length_mm: 10..30000

    Source
    ------
    NEC chapter 9 tables 1, 4 and 5 with their notes; NEC 376.22(A); NEC 551.47(H).

    Example
    -------
    3 of 12, 4 of 10 and 8 of 8 AWG THWN are 0.4171 in2 and need 1-1/4 EMT (a conduit makers'
    association).
    """
    guard(
        INPUTS,
        inside_mm=inside_mm,
        width_mm=width_mm,
        height_mm=height_mm,
        tube=tube,
        length_mm=length_mm,
    )
    lots = [lot_of(text) for text in wire]
    if not lots:
        raise BadInput("--wire is missing: say which wires, such as --wire 3x12AWG")
    total = sum(lot.count for lot in lots)
    if total > MOST_WIRES:
        raise OutOfRange("the number of wires", total, 1, MOST_WIRES, "", OWN_RANGE)
    round_mm, room_mm2 = _inside(inside_mm, width_mm, height_mm, tube)
    short = length_mm is not None and length_mm <= table("raceway")["fill"]["short_mm"]
    rectangular = round_mm is None
    used_mm2 = sum(lot.count * lot.area_mm2 for lot in lots)
    allowed = allowed_percent(total, rectangular=rectangular, short=short)
    percent = 100 * used_mm2 / room_mm2
    one_size = len({round(lot.outside_mm, 3) for lot in lots}) == 1
    most = most_of_one_size(room_mm2, lots[0].area_mm2, rectangular, short) if one_size else None
    passes = total <= most if most is not None else percent <= allowed * (1 + 1e-9)
    biggest = max(lots, key=lambda lot: lot.outside_mm)
    fits = round_mm is None or biggest.outside_mm < round_mm
    passes = passes and fits and biggest.outside_mm < _least_side(round_mm, width_mm, height_mm)
    bends = float(table("raceway")["bend"]["diameters"])
    figures = [
        Figure("fill_percent", percent, "%", "of the inside area"),
        Figure("allowed_percent", allowed, "%", f"for {total} wire{'s' if total > 1 else ''}"),
        Figure("passes", "yes" if passes else "no", "", "is it within the rule?"),
        Figure("wires_mm2", used_mm2, "mm2", "of all wires with their insulation"),
        Figure("inside_mm2", room_mm2, "mm2", "inside the tube or chase"),
        Figure("bend_radius_mm", bends * biggest.outside_mm, "mm", f"least, for {biggest.label}"),
    ]
    for lot in lots:
        more = how_many_more(lots, lot, room_mm2, rectangular, short) if passes else 0
        figures.append(Figure(f"more_{lot.label}", more, "", f"more of {lot.label} would fit"))
    ratio = _jam_ratio(lots, round_mm)
    jam = table("raceway")["jam"]
    jams = ratio is not None and jam["low"] <= ratio <= jam["high"]
    if ratio is not None:
        figures.append(Figure("jam_ratio", ratio, "", "inside over outside diameter, three wires"))
    cautions = []
    if jams:
        cautions.append(
            f"Three wires at {ratio:.2f} times their diameter can jam in a bend "
            f"({jam['low']:g} to {jam['high']:g}): take another tube."
        )
    if any(lot.from_table for lot in lots):
        cautions.append(
            "Diameters are those of THHN building wire: vehicle and boat cable differs, so measure "
            "one and give its outside diameter."
        )
    cautions.append(
        "Many loaded wires in one tube warm each other: check their ampacity bundled; keep a pull "
        "string in it."
    )
    group = "wireway" if rectangular else "fill"
    working = [
        *(
            f"{lot.count} x {lot.area_mm2:.4g} mm2 ({lot.label}, {lot.outside_mm:.3g} mm across) = "
            f"{lot.count * lot.area_mm2:.4g} mm2"
            for lot in lots
        ),
        f"{used_mm2:.4g} mm2 / {room_mm2:.4g} mm2 = {percent:.3g} % of {allowed:g} % allowed",
        f"bend: {bends:g} x {biggest.outside_mm:.3g} mm = {bends * biggest.outside_mm:.4g} mm",
    ]
    sources = [source("raceway", table("raceway")[group]["source"])]
    if tube is not None:
        sources.append(source("raceway", table("raceway")["emt"]["source"]))
    if any(lot.from_table for lot in lots):
        sources.append(source("raceway", table("raceway")["thhn"]["source"]))
    sources += [
        source("raceway", table("raceway")["jam"]["source"]),
        source("raceway", table("raceway")["bend"]["source"]),
    ]
    said = "within" if passes else "above"
    why = f"{allowed:g} % for {total} wire{'s' if total > 1 else ''}"
    return Result(
        f"{percent:.3g} % full, {said} the {allowed:g} % allowed",
        tuple(figures),
        why if fits else f"{biggest.label} is wider than the tube",
        tuple(working),
        tuple(_others(lots, total, percent, rectangular, used_mm2)),
        tuple(dict.fromkeys(sources)),
        tuple(cautions),
        version("raceway"),
    )


def lot_of(text: str) -> Lot:
    """Wires as typed: ``3x12AWG``, ``12 AWG``, ``2 x 8.5mm`` (outside diameter), ``4x2.5mm2``.

    A size without a row of its own takes the next larger row's diameter.
    """
    found = re.fullmatch(r"\s*(?:([0-9]{1,3})\s*[x×*]\s*)?(.+?)\s*", text)
    if found is None or not (found[1] is None or int(found[1])):
        raise BadInput(f"'{text[:40]}' can't be read as wires; write 3x12AWG or 2x8.5mm")
    count = int(found[1] or 1)
    size = found[2]
    if re.search(r"(?i)(mm|cm|in|\")$", size):
        outside_mm = parse(size, "mm")
        if not 0.5 <= outside_mm <= 150:
            raise OutOfRange("the outside diameter", outside_mm, 0.5, 150, "mm", OWN_RANGE)
        return Lot(count, f"{outside_mm:g} mm", outside_mm, pi / 4 * outside_mm**2, False)
    wire = wire_of(size)
    thhn = table("raceway")["thhn"]
    rows = thhn["diameter_in"]
    areas = {key: awg_area_mm2(1 - int(key[0]) if "/" in key else int(key)) for key in rows}
    fits = [key for key in rows if areas[key] >= wire.area_mm2 * 0.999]
    if wire.family != "mm2" and wire.key in rows:
        fits = [wire.key]
    if not fits:
        raise BadInput(f"{wire} has no diameter here; give its outside diameter, such as 2x8.5mm")
    key = min(fits, key=lambda key: areas[key])
    area_mm2 = thhn["area_in2"][key] * INCH_MM**2
    return Lot(count, wire.label, rows[key] * INCH_MM, area_mm2, True)


def allowed_percent(count: int, *, rectangular: bool = False, short: bool = False) -> float:
    """The fill allowed for a number of wires (%).

    Parameters
    ----------
    rectangular: a chase goes by the wireway rule.
    short: at most 600 mm between two ends.
    """
    tables = table("raceway")
    if rectangular:
        return float(tables["wireway"]["percent"])
    fill = tables["fill"]
    if short:
        return float(fill["short_percent"])
    return float(fill[{1: "one_percent", 2: "two_percent"}.get(count, "more_percent")])


def most_of_one_size(
    room_mm2: float, wire_mm2: float, rectangular: bool = False, short: bool = False
) -> int:
    """How many wires of one size a raceway takes; 0.8 of a wire counts as one in a round tube."""
    part = float(table("raceway")["fill"]["round_up_from"])

    def room_for(count: int) -> int:
        """How many fit by the percentage that holds for this count."""
        allowed = allowed_percent(count, rectangular=rectangular, short=short)
        exact = room_mm2 * allowed / 100 / wire_mm2
        whole = floor(exact + 1e-9)
        return whole + 1 if not rectangular and exact - whole >= part and count > 1 else whole

    many = min(room_for(3), MOST_WIRES)
    if many >= 3:
        return many
    return next((count for count in (2, 1) if room_for(count) >= count), 0)


def how_many_more(
    lots: Sequence[Lot], lot: Lot, room_mm2: float, rectangular: bool, short: bool
) -> int:
    """How many wires more of one sort fit beside all that are there; they are within the rule."""
    total = sum(each.count for each in lots)
    if len({round(each.outside_mm, 3) for each in lots}) == 1:
        return max(0, most_of_one_size(room_mm2, lot.area_mm2, rectangular, short) - total)
    used = sum(each.count * each.area_mm2 for each in lots)
    allowed = allowed_percent(max(total + 1, 3), rectangular=rectangular, short=short)
    more = floor((room_mm2 * allowed / 100 - used) / lot.area_mm2 + 1e-9)
    # Lots of more than one sort are two wires at least, so that one more makes three.
    return max(0, min(more, MOST_WIRES - total))


def _inside(
    inside_mm: float | None, width_mm: float | None, height_mm: float | None, tube: str | None
) -> tuple[float | None, float]:
    """The inside diameter, None for a chase, and the inside area (mm2)."""
    chase = width_mm is not None or height_mm is not None
    if sum((inside_mm is not None, chase, tube is not None)) != 1:
        raise BadInput("give one of --inside, --tube, or --width with --height")
    if chase:
        if width_mm is None or height_mm is None:
            raise BadInput("a chase needs both --width and --height")
        return None, width_mm * height_mm
    if tube is not None:
        inside_mm = table("raceway")["emt"]["inside_in"][tube] * INCH_MM
    assert inside_mm is not None  # one of the three is given
    return inside_mm, pi / 4 * inside_mm**2


def _least_side(round_mm: float | None, width_mm: float | None, height_mm: float | None) -> float:
    return round_mm if round_mm is not None else min(width_mm or 0.0, height_mm or 0.0)


def _jam_ratio(lots: Sequence[Lot], round_mm: float | None) -> float | None:
    """Inside over outside diameter where exactly three wires are pulled into a round tube."""
    if round_mm is None or sum(lot.count for lot in lots) != 3:
        return None
    return round_mm / (sum(lot.count * lot.outside_mm for lot in lots) / 3)


def _others(
    lots: Sequence[Lot], total: int, percent: float, rectangular: bool, used_mm2: float
) -> list[tuple[str, str]]:
    said = []
    if rectangular:
        allowed = allowed_percent(total)
        word = "within" if percent <= allowed else "above"
        said.append(("by the rule for round tube (table 1)", f"{word} {allowed:g} %"))
    bundle_mm = (4 * used_mm2 / pi / PACKED) ** 0.5 if total > 1 else lots[0].outside_mm
    times = float(table("raceway")["bend-bundle"]["diameters"])
    said.append(
        (
            "bend radius for the whole bundle, aircraft practice",
            f"{times:g} x about {bundle_mm:.3g} mm = {times * bundle_mm:.3g} mm",
        )
    )
    return said


HELPER = Helper(
    "raceway",
    "fill of a tube or chase, bends, jamming",
    INPUTS,
    raceway,
    """\
  closein size raceway --inside 25mm --wire 3x12AWG --wire 4x14AWG
  closein size raceway --tube 3/4 --wire 9x12AWG
  closein size raceway --width 60mm --height 40mm --wire 6x5.1mm""",
    {"chase": {"fill_pct": "fill_percent"}},
)
