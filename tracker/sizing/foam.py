"""Spray foam for an area: board feet, kits, lifts and waiting, what it insulates and weighs."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from tracker.errors import BadInput
from tracker.sizing.result import Figure, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

INCH_MM = 25.4
BOARD_FOOT_L = 144 * 0.0254**3 * 1000
KG_PER_M3 = 0.45359237 / 0.3048**3
"""One pound in a cubic foot."""
RSI = 0.3048**2 * 3600 / (1.8 * 1055.05585262)
"""One h ft2 F/Btu in m2 K/W."""
OWN_RANGE = "what a vehicle's shell takes"
SHEET = "what product sheets give"
INPUTS = (
    Input("area_m2", "--area", "area to foam, or bays such as 6x16in*6ft", "m2", low=0.01,
          high=1000, why=OWN_RANGE, required=True, repeated=True),
    Input("thickness_mm", "--thick", "finished thickness; one, or one for each area", "mm", low=5,
          high=400, why=OWN_RANGE, required=True, repeated=True),
    Input("less_m2", "--less", "windows, doors and cavities kept free", "m2", low=0.001, high=1000,
          why=OWN_RANGE, repeated=True),
    Input("framing_percent", "--framing", "share of the area that ribs take up", "%", low=0,
          high=60, default=0.0, why=OWN_RANGE),
    Input("kind", "--kind", "closed-cell or open-cell", type="choice", choices=("closed", "open"),
          default="closed"),
    Input("loss_percent", "--loss", "loss, instead of the generic one", "%", low=0, high=100,
          why=OWN_RANGE),
    Input("rough", "--rough", "rough, ribbed or fiddly surface", type="yesno", default=False),
    Input("surface_c", "--surface", "temperature of the surface", "C", low=-20, high=60,
          why=SHEET),
    Input("kit_l", "--kit", "what one kit yields, such as 600bdft", "l", low=1, high=20000,
          why=SHEET),
    Input("lift_mm", "--lift", "thickest lift by the sheet", "mm", low=5, high=200, why=SHEET),
    Input("wait_h", "--wait", "wait between lifts by the sheet", "h", low=0, high=48, why=SHEET),
    Input("density_kg_m3", "--density", "density by the sheet (kg/m3, without a unit)", low=4,
          high=100, why=SHEET),
)  # fmt: skip


def foam(
    area_m2: Sequence[float],
    thickness_mm: float | Sequence[float],
    less_m2: Sequence[float] = (),
    framing_percent: float = 0.0,
    kind: str = "closed",
    loss_percent: float | None = None,
    rough: bool = False,
    surface_c: float | None = None,
    kit_l: float | None = None,
    lift_mm: float | None = None,
    wait_h: float | None = None,
    density_kg_m3: float | None = None,
) -> Result:
    """Board feet of spray foam for an area, the kits, lifts and waiting, and the mass it adds.

    Formula
    -------
    net = (area - less) (1 - framing); foam = net x thickness, added up; to buy = foam (1 + loss);
    lifts = thickest / lift, rounded up; mass = foam x density; R = R per inch x thinnest.

    Parameters
    ----------
    area_m2: areas to foam, added up [m2].
    thickness_mm: finished thickness; one, or one for each area [mm].
    less_m2: windows, doors and cavities kept free, added up [m2].
    framing_percent: share of the area that ribs take up [%].
    kind: closed or open [-].
    loss_percent: loss, instead of the generic one [%].
    rough: rough, ribbed or fiddly surface [-].
    surface_c: temperature of the surface [C].
    kit_l: what one kit yields as foam [l].
    lift_mm: thickest lift by the sheet [mm].
    wait_h: wait between lifts by the sheet [h].
    density_kg_m3: density by the sheet [kg/m3].

    Returns
    -------
    Result with net_area_m2, board_feet, buy_board_feet, buy_l, kits, lifts, waiting_h, mass_kg
    and resistance_m2k_w.

    Valid
    -----
    area_m2: 0.01..1000
    thickness_mm: 5..400
    less_m2: 0.001..1000
    framing_percent: 0..60
    loss_percent: 0..100
    surface_c: -20..60
    kit_l: 1..20000
    lift_mm: 5..200
    wait_h: 0..48
    density_kg_m3: 4..100

    Source
    ------
    NRCan Keeping the Heat In, table 3-1; Spray Polyurethane Foam Alliance; a builders' journal on
    lifts; losses are common practice, no source.

    Example
    -------
    29.24 m2 at 2 in are 629.5 board feet (own check by hand).
    """
    depths_mm = tuple(thickness_mm) if isinstance(thickness_mm, Sequence) else (thickness_mm,)
    guard(
        INPUTS,
        area_m2=area_m2,
        thickness_mm=depths_mm,
        less_m2=less_m2,
        framing_percent=framing_percent,
        kind=kind,
        loss_percent=loss_percent,
        surface_c=surface_c,
        kit_l=kit_l,
        lift_mm=lift_mm,
        wait_h=wait_h,
        density_kg_m3=density_kg_m3,
    )
    gross_m2, less = sum(area_m2), sum(less_m2)
    if not area_m2:
        raise BadInput("--area is missing: say what is foamed, such as --area 12m2")
    _match(area_m2, depths_mm, less_m2)
    if less >= gross_m2:
        raise BadInput(f"--less takes away {less:g} m2, all of the {gross_m2:g} m2 given")
    net_m2 = (gross_m2 - less) * (1 - framing_percent / 100)
    foam_l = net_m2 * depths_mm[0]
    if len(depths_mm) > 1:
        each_l = (area * depth for area, depth in zip(area_m2, depths_mm, strict=True))
        foam_l = sum(each_l) * (1 - framing_percent / 100)
    thinnest_mm, thickest_mm = min(depths_mm), max(depths_mm)
    loss, why_loss = _loss(loss_percent, rough, surface_c)
    buy_l = foam_l * (1 + loss / 100)
    lift, lifts, waiting_h = _lifts(kind, thickest_mm, lift_mm, wait_h)
    rows = table("foam")[kind]
    density = density_kg_m3 or rows["density"]["lb_per_ft3"][1] * KG_PER_M3
    mass_kg = foam_l / 1000 * density
    inches = thinnest_mm / INCH_MM
    r_low, r_design, r_high = (float(each) for each in rows["r_per_in"])
    figures = [
        Figure("net_area_m2", net_m2, "m2", "foamed"),
        Figure("board_feet", foam_l / BOARD_FOOT_L, "bdft", "of finished foam"),
        Figure("foam_l", foam_l, "l", "of finished foam"),
        Figure("loss_percent", loss, "%", why_loss),
        Figure("buy_board_feet", buy_l / BOARD_FOOT_L, "bdft", "to buy, loss included"),
        Figure("buy_l", buy_l, "l", "to buy, loss included, as foam"),
    ]
    working = [
        f"net = ({gross_m2:.4g} - {less:.4g}) m2 x (1 - {framing_percent:g} / 100) = {net_m2:.4g} "
        "m2",
        f"foam = {_product(area_m2, depths_mm, net_m2, framing_percent)} = {foam_l:.4g} l = "
        f"{foam_l / BOARD_FOOT_L:.4g} board feet",
        f"to buy = {foam_l / BOARD_FOOT_L:.4g} x (1 + {loss:g} / 100) = "
        f"{buy_l / BOARD_FOOT_L:.4g} board feet",
    ]
    title = f"{buy_l / BOARD_FOOT_L:.4g} board feet to buy"
    if kit_l is not None:
        kits = ceil(buy_l / kit_l - 1e-9)
        figures.append(Figure("kits", kits, "", f"of {kit_l / BOARD_FOOT_L:.4g} board feet"))
        working.append(f"kits = {buy_l:.4g} l / {kit_l:.4g} l, rounded up = {kits}")
        title += f", {kits} kit{'s' if kits > 1 else ''}"
    figures += [
        Figure("lift_mm", lift, "mm", "thickest lift"),
        Figure("lifts", lifts, "", "one over the other"),
        Figure("waiting_h", waiting_h, "h", "between lifts, for one place"),
        Figure("mass_kg", mass_kg, "kg", "added to the vehicle"),
        Figure("resistance_m2k_w", r_low * inches * RSI, "m2K/W", "of the foam between ribs"),
    ]
    working += [
        f"lifts = {thickest_mm:.4g} mm / {lift:.4g} mm, rounded up = {lifts}",
        f"mass = {foam_l / 1000:.4g} m3 x {density:.4g} kg/m3 = {mass_kg:.4g} kg",
        f"R = {r_low:g} per inch x {inches:.4g} in x {RSI:.4g} = {r_low * inches * RSI:.4g} m2K/W",
    ]
    light_kg = foam_l / 1000 * rows["density"]["lb_per_ft3"][0] * KG_PER_M3
    others = [
        ("resistance by its design value", f"{r_design * inches * RSI:.3g} m2K/W"),
        ("resistance at the best of its range", f"{r_high * inches * RSI:.3g} m2K/W"),
        ("mass at the light end of its range", f"{light_kg:.3g} kg"),
    ]
    if kind == "closed" and wait_h is None:
        others.append(
            (
                "waiting at the short end",
                f"{(lifts - 1) * table('foam')['lift']['wait_min'][0]:g} min",
            )
        )
    others += _rules()
    sources = [
        source("foam", rows["source"]),
        source("foam", rows["density"]["source"]),
        source("foam", table("foam")["lift"]["source"]),
        source("foam", table("foam")["pass"]["source"]),
        source("foam", table("foam")["loss"]["source"]),
        *(source("foam", table("foam")[name]["source"]) for name in ("barrier", "burning", "mdi")),
    ]
    return Result(
        f"{title}; {lifts} lift{'s' if lifts > 1 else ''}, {mass_kg:.3g} kg",
        tuple(figures),
        f"{why_loss} of {loss:g} %, and lifts of at most {lift:.3g} mm",
        tuple(working),
        tuple(others),
        tuple(sources),
        tuple(_cautions(kind, lift, surface_c, lift_mm is None or wait_h is None)),
        version("foam"),
    )


def _match(area_m2: Sequence[float], depths_mm: Sequence[float], less_m2: Sequence[float]) -> None:
    """Refuse thicknesses of which nobody can say what they belong to."""
    if not depths_mm:
        raise BadInput("--thick is missing: say how thick, such as --thick 2in")
    if len(depths_mm) == 1:
        return
    if len(depths_mm) != len(area_m2):
        raise BadInput(
            f"--thick is given {len(depths_mm)} times for {len(area_m2)} areas: give one, or one "
            "for each --area"
        )
    if less_m2:
        raise BadInput("--less goes with one --thick; with several, take it off its --area")


def _product(
    area_m2: Sequence[float], depths_mm: Sequence[float], net_m2: float, framing_percent: float
) -> str:
    """What is multiplied for the foam, in words."""
    if len(depths_mm) == 1:
        return f"{net_m2:.4g} m2 x {depths_mm[0]:.4g} mm"
    pairs = zip(area_m2, depths_mm, strict=True)
    said = " + ".join(f"{area:.4g} m2 x {depth:.4g} mm" for area, depth in pairs)
    return f"({said}) x (1 - {framing_percent:g} / 100)"


def _rules() -> list[tuple[str, str]]:
    """What is asked of foam besides its amount."""
    rows = table("foam")
    barrier, burning = rows["barrier"], rows["burning"]
    return [
        (
            "over foam, dwellings ask (IRC)",
            f"{barrier['gypsum_in']:g} in of gypsum or {barrier['panel_in']:.5g} in of wood panel",
        ),
        (
            "facing the cabin, vehicles ask (FMVSS 302)",
            f"at most {burning['most_mm_min']:g} mm/min of burning within "
            f"{burning['within_mm']:g} mm of its air",
        ),
        ("in the air while spraying, at most (OSHA)", f"{rows['mdi']['ceiling_ppm']:g} ppm MDI"),
    ]


def _loss(given: float | None, rough: bool, surface_c: float | None) -> tuple[float, str]:
    """The loss (%) and what it is made up of."""
    if given is not None:
        return given, "loss as given"
    rows = table("foam")["loss"]
    loss, why = float(rows["plain_percent"]), "loss by trimming"
    if rough:
        loss, why = loss + rows["rough_percent"], f"{why}, rough surface"
    if surface_c is not None and is_cold(surface_c):
        loss, why = loss + rows["cold_percent"], f"{why}, cold surface"
    return float(loss), why


def is_cold(surface_c: float) -> bool:
    """Is a surface (C) so cold that it takes yield?"""
    below_f = float(table("foam")["cold"]["below_f"])
    return surface_c < (below_f - 32) * 5 / 9 - 1e-9


def _lifts(
    kind: str, thickness_mm: float, lift_mm: float | None, wait_h: float | None
) -> tuple[float, int, float]:
    """The thickest lift (mm), how many there are, and the waiting between them (h)."""
    rows = table("foam")["lift"]
    lift = lift_mm
    if lift is None:
        lift = rows["closed_in"] * INCH_MM if kind == "closed" else thickness_mm
    lifts = ceil(thickness_mm / lift - 1e-9)
    wait = wait_h if wait_h is not None else rows["wait_min"][1] / 60
    return float(lift), lifts, (lifts - 1) * float(wait)


def _cautions(kind: str, lift: float, surface_c: float | None, generic: bool) -> list[str]:
    said = [
        "Isocyanates: everyone not in supplied air and full cover stays out, and back in only "
        "after the time on the maker's sheet; the sheet gives 8 to 72 h, if it gives any.",
        "Foam on wires, exits or drain holes can't be reached again: release the hold point first.",
    ]
    if generic:
        said.insert(0, "Lift and wait are generic; the product's sheet governs.")
    if kind == "closed" and lift > table("foam")["pass"]["trouble_above_in"] * INCH_MM + 1e-6:
        said.insert(0, "A lift above 2 in can scorch inside, shrink or take fire: check the sheet.")
    if kind == "open":
        said.append("Open-cell foam lets vapour through to cold metal: check for condensation.")
    if surface_c is not None and is_cold(surface_c):
        said.append("The surface is below 60 F (15.6 C): foam rises less and may not stick.")
    return said


HELPER = Helper(
    "foam",
    "board feet, kits, lifts and mass of spray foam",
    INPUTS,
    foam,
    """\
  closein size foam --area 29m2 --less 3m2 --thick 2in --kit 600bdft
  closein size foam --area 12x16in*6ft --thick 2in --surface 50F --rough
  closein size foam --from-build --zone roof --kit 600bdft""",
    {"part": {"needed": "kits"}},
)
