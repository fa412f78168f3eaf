"""Water aboard: days between fills, what it weighs, how drains fall, how long the pump runs."""

from __future__ import annotations

from tracker.errors import BadInput
from tracker.sizing.result import Figure, Result, Source
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

GALLON_L, POUND_KG, INCH_MM = 3.785411784, 0.45359237, 25.4
OWN_RANGE = "tanks and pipes of a vehicle"
INPUTS = (
    Input("people", "--people", "how many live aboard", type="whole", low=1, high=20,
          why=OWN_RANGE),
    Input("each_l", "--each", "used by each a day", "l", low=0.5, high=500, why=OWN_RANGE),
    Input("tank_l", "--tank", "fresh water tank", "l", low=1, high=5000, why=OWN_RANGE),
    Input("grey_l", "--grey", "waste water tank", "l", low=1, high=5000, why=OWN_RANGE),
    Input("grey_percent", "--grey-share", "of the water used that reaches the waste tank", "%",
          low=1, high=100, default=100.0, why=OWN_RANGE),
    Input("pipe_m", "--pipe", "length of a drain pipe", "m", low=0.05, high=30, why=OWN_RANGE),
    Input("pipe_mm", "--pipe-size", "its inside diameter", "mm", low=10, high=250, default=38.0,
          why=OWN_RANGE),
    Input("fall_mm", "--fall", "the fall it has, end to end", "mm", low=0, high=5000,
          why=OWN_RANGE),
    Input("rules", "--rules", "plumbing code for the fall", type="choice", choices=("irc", "ipc"),
          default="irc"),
    Input("pump_l_min", "--pump", "what the pump gives (litres a minute, without a unit)",
          low=0.5, high=100, why=OWN_RANGE),
    Input("pump_w", "--pump-power", "power of the pump", "W", low=1, high=2000, why=OWN_RANGE),
)  # fmt: skip


def water(
    people: int | None = None,
    each_l: float | None = None,
    tank_l: float | None = None,
    grey_l: float | None = None,
    grey_percent: float = 100.0,
    pipe_m: float | None = None,
    pipe_mm: float = 38.0,
    fall_mm: float | None = None,
    rules: str = "irc",
    pump_l_min: float | None = None,
    pump_w: float | None = None,
) -> Result:
    """Days between fills, mass of full tanks, least fall of a drain, and what the pump takes.

    Formula
    -------
    days = tank / (people x each); mass = volume x 1.000 kg/l (8.3452 lb/gal); least fall =
    length x 1/4 in a foot (1/8 in wide pipes); pump minutes a day = use / flow.

    Parameters
    ----------
    people: how many live aboard [-].
    each_l: used by each a day [l].
    tank_l: fresh water tank [l].
    grey_l: waste water tank [l].
    grey_percent: of the water used that reaches the waste tank [%].
    pipe_m: length of a drain pipe [m].
    pipe_mm: its inside diameter [mm].
    fall_mm: the fall it has, end to end [mm].
    rules: irc or ipc [-].
    pump_l_min: what the pump gives [l/min].
    pump_w: power of the pump [W].

    Returns
    -------
    Result with use_day_l, days, mass_kg, grey_days, least_fall_mm, passes, pump_day_min and
    pump_day_wh, as far as the inputs go.

    Valid
    -----
    people: 1..20
    each_l: 0.5..500
    tank_l: 1..5000
    grey_l: 1..5000
    grey_percent: 1..100
    pipe_m: 0.05..30
    pipe_mm: 10..250
    fall_mm: 0..5000
    pump_l_min: 0.5..100
    pump_w: 1..2000

    Source
    ------
    USGS and CoolProp for the mass; IRC P3005.3 and IPC table 704.1 for the fall; FEMA for the
    least that a person needs.

    Example
    -------
    A drain of 10 ft falls at least 2.5 in (IRC P3005.3, as explained publicly).
    """
    guard(
        INPUTS,
        people=people,
        each_l=each_l,
        tank_l=tank_l,
        grey_l=grey_l,
        grey_percent=grey_percent,
        pipe_m=pipe_m,
        pipe_mm=pipe_mm,
        fall_mm=fall_mm,
        rules=rules,
        pump_l_min=pump_l_min,
        pump_w=pump_w,
    )
    if (people is None) != (each_l is None):
        raise BadInput("the use of a day needs both --people and --each")
    use_l = people * each_l if people is not None and each_l is not None else None
    figures: list[Figure] = []
    working: list[str] = []
    others: list[tuple[str, str]] = []
    governs: list[str] = []
    if use_l is not None:
        figures.append(Figure("use_day_l", use_l, "l", f"a day for {people}"))
        working.append(f"use = {people} x {each_l:.4g} l = {use_l:.4g} l a day")
    if tank_l is not None or grey_l is not None:
        _tanks(tank_l, grey_l, grey_percent, use_l, people, figures, working, others, governs)
    passes = _drain(pipe_m, pipe_mm, fall_mm, rules, figures, working, others, governs)
    if pump_l_min is not None:
        if use_l is None:
            raise BadInput("--pump needs --people and --each, to know how long it runs")
        minutes = use_l / pump_l_min
        figures.append(Figure("pump_day_min", minutes, "min", "the pump runs a day"))
        working.append(f"pump = {use_l:.4g} l / {pump_l_min:.4g} l/min = {minutes:.4g} min")
        if pump_w is not None:
            figures.append(Figure("pump_day_wh", pump_w * minutes / 60, "Wh", "for it a day"))
    elif pump_w is not None:
        raise BadInput("--pump-power needs --pump, what the pump gives in litres a minute")
    if not figures:
        raise BadInput("say what there is: --tank with --people and --each, or --pipe")
    return Result(
        _title(figures, passes),
        tuple(figures),
        "; ".join(governs) or ("the use of a day" if use_l is not None else "what the tanks hold"),
        tuple(working),
        tuple(others),
        tuple(_sources(tank_l, grey_l, pipe_m, rules)),
        tuple(_cautions(people, each_l, tank_l, pipe_m, fall_mm)),
        version("water"),
    )


def _tanks(
    tank_l: float | None,
    grey_l: float | None,
    grey_percent: float,
    use_l: float | None,
    people: int | None,
    figures: list[Figure],
    working: list[str],
    others: list[tuple[str, str]],
    governs: list[str],
) -> None:
    ends = []
    if tank_l is not None and use_l is not None:
        ends.append((tank_l / use_l, "the fresh tank is empty first"))
        figures.append(Figure("days", tank_l / use_l, "d", "between fills"))
        working.append(f"days = {tank_l:.4g} l / {use_l:.4g} l = {tank_l / use_l:.4g}")
    if grey_l is not None and use_l is not None:
        days = grey_l / (use_l * grey_percent / 100)
        ends.append((days, "the waste tank is full first"))
        figures.append(Figure("grey_days", days, "d", "until the waste tank is full"))
        working.append(
            f"waste = {grey_l:.4g} l / ({use_l:.4g} l x {grey_percent:g} %) = {days:.4g}"
        )
    if ends:
        governs.append(min(ends)[1])
    full_l = (tank_l or 0.0) + (grey_l or 0.0)
    rows = table("water")["mass"]
    heavy = rows["lb_per_gal"] * POUND_KG / GALLON_L
    figures.append(Figure("mass_kg", (tank_l or 0.0) * heavy, "kg", "of the full fresh tank"))
    figures.append(Figure("all_full_kg", full_l * heavy, "kg", "with both tanks full"))
    working.append(f"mass = {full_l:.4g} l x {heavy:.5g} kg/l = {full_l * heavy:.4g} kg")
    others.append(
        (
            "mass of it all at 70 F",
            f"{full_l * rows['warm_lb_per_gal'] * POUND_KG / GALLON_L:.5g} kg",
        )
    )
    if tank_l is not None and people is not None:
        spare = table("water")["camping"]["gal_per_person_day"] * GALLON_L * people
        others.append(("days with the care of campers", f"{tank_l / spare:.3g}"))
        need = least_l(people)
        others.append(("days of bare need", f"{tank_l / need:.3g}"))


def _drain(
    pipe_m: float | None,
    pipe_mm: float,
    fall_mm: float | None,
    rules: str,
    figures: list[Figure],
    working: list[str],
    others: list[tuple[str, str]],
    governs: list[str],
) -> bool | None:
    """Put down the fall of a drain; whether the one there is is enough, None where unknown."""
    if pipe_m is None:
        if fall_mm is not None:
            raise BadInput("--fall needs --pipe, the length it falls over")
        return None
    slope = slope_in_per_ft(pipe_mm, rules)
    least = 1000 * pipe_m * slope / 12
    figures.append(Figure("least_fall_mm", least, "mm", f"over {pipe_m:.4g} m"))
    working.append(f"fall = {pipe_m:.4g} m x {slope:g} in / 12 in = {least:.4g} mm")
    governs.append(f"{slope:g} in a foot by the {rules.upper()}")
    other = "ipc" if rules == "irc" else "irc"
    also = 1000 * pipe_m * slope_in_per_ft(pipe_mm, other) / 12
    others.append((f"fall by the {other.upper()}", f"{also:.4g} mm"))
    if fall_mm is None:
        return None
    passes = fall_mm >= least - 1e-6
    figures.append(Figure("fall_in_per_ft", fall_mm / 1000 / pipe_m * 12, "in/ft", "it has"))
    figures.append(Figure("passes", passes, "", "does it fall enough?"))
    return passes


def slope_in_per_ft(pipe_mm: float, rules: str) -> float:
    """The least slope (inches a foot) of a drain by its inside diameter (mm)."""
    rows = table("water")["fall"][rules]
    inches = pipe_mm / INCH_MM
    for up_to, slope in zip(rows["up_to_in"], rows["in_per_ft"], strict=False):
        if inches <= up_to + 1e-9:
            return float(slope)
    return float(rows["in_per_ft"][-1])


def least_l(people: int) -> float:
    """The least water (l) that so many people need a day."""
    return float(table("water")["need"]["gal_per_person_day"]) * GALLON_L * people


def is_steep(pipe_m: float, fall_mm: float) -> bool:
    """Does a drain fall so steeply that water outruns solids?"""
    steep = float(table("water")["steep"]["above_in_per_ft"])
    return fall_mm / 1000 / pipe_m * 12 > steep + 1e-9


def _title(figures: list[Figure], passes: bool | None) -> str:
    said = []
    for figure in figures:
        if figure.name == "days":
            said.append(f"{figure.value:.3g} days between fills")
        elif figure.name == "all_full_kg":
            said.append(f"{figure.value:.4g} kg with full tanks")
        elif figure.name == "least_fall_mm":
            enough = {True: ", it has enough", False: ", it has too little", None: ""}[passes]
            said.append(f"a fall of {figure.value:.3g} mm{enough}")
    return "; ".join(said) or f"{figures[0].value:.4g} l a day"


def _sources(
    tank_l: float | None, grey_l: float | None, pipe_m: float | None, rules: str
) -> list[Source]:
    keys = []
    if tank_l is not None or grey_l is not None:
        keys += [table("water")[name]["source"] for name in ("mass", "camping")]
    keys.append(table("water")["need"]["source"])
    if pipe_m is not None:
        keys += [table("water")["fall"][rules]["source"], table("water")["steep"]["source"]]
    return [source("water", key) for key in keys]


def _cautions(
    people: int | None,
    each_l: float | None,
    tank_l: float | None,
    pipe_m: float | None,
    fall_mm: float | None,
) -> list[str]:
    said = []
    if people is not None and each_l is not None and each_l < least_l(1) - 1e-9:
        said.append("Less than a gallon a person a day: that is below what people need to live.")
    if tank_l is not None:
        said.append("Water is the heaviest thing that moves: strap the tank, baffle a long one.")
    if pipe_m is not None:
        said.append("A vehicle parked off level takes the fall away: level it, or give more.")
        if fall_mm is not None and is_steep(pipe_m, fall_mm):
            said.append("Steeper than 1/2 in a foot, water can outrun solids and leave them.")
    said.append("Drain or heat what can freeze; drinking-water pipe and tank must be rated for it.")
    return said


HELPER = Helper(
    "water",
    "days between fills, mass, fall of drains, pump",
    INPUTS,
    water,
    """\
  closein size water --people 2 --each 15l --tank 150l --grey 120l --pump 10 --pump-power 60W
  closein size water --pipe 6ft --pipe-size 1.5in --fall 1in""",
)
