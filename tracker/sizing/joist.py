"""A joist or deck beam on two supports: strength, sag, the longest span, what the ribs carry."""

from __future__ import annotations

from collections.abc import Callable

from tracker.errors import BadInput
from tracker.sizing.beam import Section, uniform_deflection_m, uniform_moment_nm
from tracker.sizing.result import Figure, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version
from tracker.sizing.timber import LUMBER, METAL, PSI_PA, Strength, section_of, strength_of

PSF_PA = PSI_PA / 144
N_PER_M_TO_LB_PER_FT = 0.3048 / (0.45359237 * 9.80665)
OWN_RANGE = "joists of a vehicle"
INPUTS = (
    Input("span_m", "--span", "between the supports", "m", low=0.2, high=8, why=OWN_RANGE,
          required=True),
    Input("spacing_m", "--spacing", "between joists, centre to centre", "m", low=0.05, high=1.5,
          default=0.4064, why=OWN_RANGE),
    Input("section", "--section", "2x6, 38x140mm or a tube 50x50x3mm; without it, the smallest "
          "lumber that does", type="text"),
    Input("material", "--material", "lumber (No. 2) or metal", type="choice",
          choices=(*LUMBER, *METAL), default="spf"),
    Input("live_pa", "--live", "live load; 40 psf where not given", "Pa", low=100, high=20000,
          why=OWN_RANGE),
    Input("dead_pa", "--dead", "dead load, joist included; 10 psf where not given", "Pa", low=0,
          high=20000, why=OWN_RANGE),
    Input("limit", "--limit", "most sag under live load, as a part of the span", type="choice",
          choices=("180", "240", "360", "480"), default="360"),
    Input("alone", "--alone", "a single beam, without neighbours to share", type="yesno",
          default=False),
    Input("wet", "--wet", "lumber out in the weather", type="yesno", default=False),
    Input("incised", "--incised", "lumber with the cuts of pressure treatment", type="yesno",
          default=False),
    Input("welded", "--welded", "metal with welds along the span", type="yesno", default=False),
    Input("unbraced_m", "--unbraced", "between points that hold the top edge sideways, if not the "
          "deck", "m", low=0.1, high=8, why=OWN_RANGE),
)  # fmt: skip


def joist(
    span_m: float,
    spacing_m: float = 0.4064,
    section: str | None = None,
    material: str = "spf",
    live_pa: float | None = None,
    dead_pa: float | None = None,
    limit: str = "360",
    alone: bool = False,
    wet: bool = False,
    incised: bool = False,
    welded: bool = False,
    unbraced_m: float | None = None,
) -> Result:
    """Bending, shear and sag of a joist on two supports, and the longest span it may have.

    Formula
    -------
    w = (live + dead) spacing; M = w L^2 / 8 <= Fb' S; V = w L / 2 <= Fv' A / 1.5 (lumber) or on
    the webs (tube); 5 w_live L^4 / (384 E I) <= L / limit; Fb' = Fb times size, neighbour, wet,
    incising and tipping factors.

    Parameters
    ----------
    span_m: between the supports [m].
    spacing_m: between joists, centre to centre [m].
    section: 2x6, 38x140mm or 50x50x3mm; without it the smallest lumber that does [-].
    material: spf, df, hf, sp (all No. 2), steel or aluminium [-].
    live_pa: live load [Pa].
    dead_pa: dead load, joist included [Pa].
    limit: most sag under live load is the span divided by this [-].
    alone: a single beam, without neighbours to share [-].
    wet: lumber out in the weather [-].
    incised: lumber with the cuts of pressure treatment [-].
    welded: metal with welds along the span [-].
    unbraced_m: between points that hold the top edge sideways, if not the deck [m].

    Returns
    -------
    Result with section, passes, use_percent, longest_span_m, bending_mpa, shear_mpa,
    deflection_mm, each with what is allowed, support_n and rib_n_m.

    Valid
    -----
    span_m: 0.2..8
    spacing_m: 0.05..1.5
    live_pa: 100..20000
    dead_pa: 0..20000
    unbraced_m: 0.1..8

    Source
    ------
    IRC R301 for loads and limits; NDS Supplement table 4A and factors, as AWC DCA 6 table 2
    confirms them; ASTM A500 and 6061-T6 for tubes. Allowable stresses of metal: from memory,
    unverified.

    Example
    -------
    2x6 spruce-pine-fir at 16 in, 8 ft, 40 + 10 psf: 846.3 psi, 0.1688 in (own check by hand).
    """
    guard(
        INPUTS,
        span_m=span_m,
        spacing_m=spacing_m,
        material=material,
        live_pa=live_pa,
        dead_pa=dead_pa,
        limit=limit,
        unbraced_m=unbraced_m,
    )
    live = live_pa if live_pa is not None else table("joist")["load"]["live_psf"] * PSF_PA
    dead = dead_pa if dead_pa is not None else table("joist")["dead"]["dead_psf"] * PSF_PA
    live_n_m, all_n_m = live * spacing_m, (live + dead) * spacing_m
    sag = float(limit)

    def longest(one: Section) -> tuple[float, str, Strength]:
        strength = strength_of(
            one,
            material,
            alone=alone or spacing_m > 0.61,
            wet=wet,
            incised=incised,
            welded=welded,
            unbraced_m=unbraced_m,
        )
        return *longest_span_m(one, strength, all_n_m, live_n_m, sag), strength

    if section is None:
        chosen = _smallest(material, span_m, longest)
    else:
        chosen = section_of(section, material)
    longest_m, governs, strength = longest(chosen)
    moment = uniform_moment_nm(all_n_m, span_m)
    bending = moment / chosen.modulus_m3
    support = all_n_m * span_m / 2
    shear = support / chosen.shear_m2
    stiff = strength.modulus_pa
    deflection = uniform_deflection_m(live_n_m, span_m, stiff, chosen.inertia_m4)
    uses = (bending / strength.bending_pa, shear / strength.shear_pa, deflection / (span_m / sag))
    passes = max(uses) <= 1 + 1e-9
    rib = (live + dead) * span_m / 2
    figures = (
        Figure("section", chosen.label, "", strength.name),
        Figure("passes", passes, "", "are strength and sag within what is allowed?"),
        Figure("use_percent", 100 * max(uses), "%", f"of what {governs} allows"),
        Figure("longest_span_m", longest_m, "m", "this section may have"),
        Figure("moment_nm", moment, "N m", "greatest, at the middle"),
        Figure("bending_mpa", bending / 1e6, "MPa", "stress in bending"),
        Figure("bending_allowed_mpa", strength.bending_pa / 1e6, "MPa", "allowed"),
        Figure("shear_mpa", shear / 1e6, "MPa", "stress in shear"),
        Figure("shear_allowed_mpa", strength.shear_pa / 1e6, "MPa", "allowed"),
        Figure("deflection_mm", 1000 * deflection, "mm", "sag under live load"),
        Figure("deflection_allowed_mm", 1000 * span_m / sag, "mm", f"span / {limit}"),
        Figure("modulus_mpa", stiff / 1e6, "MPa", "of elasticity, for sag"),
        Figure("support_n", support, "N", "on each support of each joist"),
        Figure("rib_n_m", rib, "N/m", f"along each rib or wall, {_lb_ft(rib)} lb/ft"),
    )
    working = (
        f"w = ({live:.4g} + {dead:.4g}) Pa x {spacing_m:.4g} m = {all_n_m:.4g} N/m",
        *strength.working,
        f"M = {all_n_m:.4g} x {span_m:.4g}^2 / 8 = {moment:.4g} N m; M / S = "
        f"{bending / 1e6:.4g} MPa",
        f"V = {support:.4g} N; {support:.4g} / {1e6 * chosen.shear_m2:.4g} mm2 = "
        f"{shear / 1e6:.4g} MPa",
        f"sag = 5 x {live_n_m:.4g} x {span_m:.4g}^4 / (384 x {stiff:.4g} x "
        f"{chosen.inertia_m4:.4g}) = {1000 * deflection:.4g} mm",
    )
    others_limit = table("joist")["load"]["others_limit"]
    whole = uniform_deflection_m(all_n_m, span_m, stiff, chosen.inertia_m4)
    others = [
        (
            f"sag under all load against span / {others_limit:g}",
            f"{1000 * whole:.3g} of {1000 * span_m / others_limit:.3g} mm",
        )
    ]
    if welded and material == "aluminium":
        typical = table("joist")["welded-typical"]["yield_psi"]
        others.append(("typical yield of welded 6061-T6 (MMPDS)", f"{typical:g} psi"))
    sources = (
        source("joist", table("joist")["load"]["source"]),
        source("joist", table("joist")["dead"]["source"]),
        *strength.sources,
    )
    return Result(
        f"{chosen.label} {strength.name}, {span_m:.3g} m: "
        f"{'carries it' if passes else 'does not carry it'}; at most {longest_m:.3g} m",
        figures,
        f"{governs} sets the longest span, {longest_m:.4g} m",
        working,
        tuple(others),
        sources,
        tuple(_cautions(material, welded, spacing_m, alone)),
        version("joist"),
    )


def longest_span_m(
    section: Section, strength: Strength, all_n_m: float, live_n_m: float, limit: float
) -> tuple[float, str]:
    """The longest span (m) and what sets it.

    Parameters
    ----------
    all_n_m, live_n_m: all load and the live load alone on the joist (N/m).
    limit: most sag is the span divided by this.
    """
    bending = (8 * strength.bending_pa * section.modulus_m3 / all_n_m) ** 0.5
    shear = 2 * strength.shear_pa * section.shear_m2 / all_n_m
    stiff = 384 * strength.modulus_pa * section.inertia_m4
    sag = (stiff / (5 * live_n_m * limit)) ** (1 / 3)
    return min((bending, "bending"), (shear, "shear"), (sag, f"sag of span / {limit:g}"))


def _smallest(
    material: str, span_m: float, longest: Callable[[Section], tuple[float, str, Strength]]
) -> Section:
    """The smallest lumber that spans far enough."""
    if material in METAL:
        raise BadInput("--section is missing: write the tube, such as 50x50x3mm")
    sections = [section_of(label, material) for label in table("joist")["size"]["depth_in"]]
    for section in sections:
        if longest(section)[0] >= span_m - 1e-9:
            return section
    last = sections[-1]
    raise BadInput(
        f"no lumber to {last.label} spans {span_m:.3g} m under that load; {last.label} reaches "
        f"{longest(last)[0]:.3g} m: space them closer, add a support, or take a tube with --section"
    )


def _lb_ft(n_per_m: float) -> str:
    return f"{n_per_m * N_PER_M_TO_LB_PER_FT:.3g}"


def _cautions(material: str, welded: bool, spacing_m: float, alone: bool) -> list[str]:
    said = [
        "A vehicle's roof and ribs were not built for a deck: what they carry needs an engineer.",
        "Wind, braking and a jolting road act too; these are rules for buildings standing still.",
    ]
    if material == "aluminium" and not welded:
        said.append("A weld takes over half of the strength of 6061-T6: use --welded near one.")
    if material in METAL:
        said.append("Thin walls can buckle before they yield; that is not checked here.")
    if material in LUMBER and spacing_m > 0.61 and not alone:
        said.append("Over 24 in apart joists don't share: each is taken alone.")
    return said


HELPER = Helper(
    "joist",
    "joist or deck beam: strength, sag, longest span",
    INPUTS,
    joist,
    """\
  closein size joist --span 8ft --spacing 16in --section 2x6 --live 40psf --dead 10psf
  closein size joist --span 2.3m --material df --wet
  closein size joist --span 2.3m --section 50x50x3mm --material steel --spacing 600mm""",
)
