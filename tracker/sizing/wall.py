"""Heat through a wall of layers and ribs, the temperature at each face, and where it gets wet."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.errors import BadInput
from tracker.sizing import wall_words
from tracker.sizing.dewpoint import dew_point_c
from tracker.sizing.layer import Paths, conductivities, layer_of, paths
from tracker.sizing.layers import METAL, Wall, least_thickness_mm, place_of, rib_face_c
from tracker.sizing.result import Figure, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import table, version

OWN_RANGE = "shells of vehicles"
RIBS = (*METAL, "softwood")
INPUTS = (
    Input("layer", "--layer", "a layer, outermost first: 'foam 50mm', 'foam 50mm 0.024' or "
          "'cavity R0.18'", type="text", repeated=True, required=True),
    Input("outside_c", "--outside", "temperature outside", "C", low=-40, high=40, why=OWN_RANGE,
          required=True),
    Input("inside_c", "--inside", "temperature inside", "C", low=-10, high=45, default=20.0,
          why=OWN_RANGE),
    Input("humidity_percent", "--humidity", "relative humidity inside", "%", low=1, high=100,
          default=60.0, why="relative humidity"),
    Input("flow", "--flow", "which way the heat goes", type="choice",
          choices=("up", "horizontal", "down"), default="horizontal"),
    Input("area_m2", "--area", "area of the shell", "m2", low=0.01, high=1000, default=1.0,
          why=OWN_RANGE),
    Input("rib", "--rib", "what the ribs are of", type="choice", choices=RIBS),
    Input("rib_mm", "--rib-thick", "thickness of a rib's web", "mm", low=0.3, high=150,
          why=OWN_RANGE),
    Input("rib_spacing_mm", "--rib-spacing", "between ribs", "mm", low=50, high=3000,
          why=OWN_RANGE),
    Input("through", "--rib-in", "the layer that ribs go through; the most resistant where not "
          "given", type="text"),
    Input("tape_mm", "--tape", "thickness of thermal-break tape on the ribs", "mm", low=0.5,
          high=50, why=OWN_RANGE),
    Input("tape_w_mk", "--tape-k", "conductivity of that tape (W/mK, without a unit)", low=0.01,
          high=1, default=0.05, why=OWN_RANGE),
    Input("keep", "--keep-dry", "the layer whose inner face is to stay dry; the most resistant "
          "where not given", type="text"),
)  # fmt: skip


def wall(
    layer: Sequence[str],
    outside_c: float,
    inside_c: float = 20.0,
    humidity_percent: float = 60.0,
    flow: str = "horizontal",
    area_m2: float = 1.0,
    rib: str | None = None,
    rib_mm: float | None = None,
    rib_spacing_mm: float | None = None,
    through: str | None = None,
    tape_mm: float | None = None,
    tape_w_mk: float = 0.05,
    keep: str | None = None,
) -> Result:
    """U-value of a wall with its ribs, heat loss, the temperature at each face, and condensation.

    Formula
    -------
    R = Rsi + sum thickness / conductivity + Rse; with ribs between 1 / (f / R_rib + (1 - f) /
    R_clear) and the isothermal planes, their mean for wood, the lower for metal; T = To +
    (Ti - To) R_to there / R; a face is wet below the dew point of the air inside; least R = (Rsi +
    R inside) (Td - To) / (Ti - Td) - R outside.

    Parameters
    ----------
    layer: layers, outermost first [-].
    outside_c: temperature outside [C].
    inside_c: temperature inside [C].
    humidity_percent: relative humidity inside [%].
    flow: up, horizontal or down, the way the heat goes [-].
    area_m2: area of the shell [m2].
    rib: what the ribs are of [-].
    rib_mm: thickness of a rib's web [mm].
    rib_spacing_mm: between ribs [mm].
    through: the layer that ribs go through [-].
    tape_mm: thickness of thermal-break tape on the ribs [mm].
    tape_w_mk: conductivity of that tape [W/mK].
    keep: the layer whose inner face is to stay dry [-].

    Returns
    -------
    Result with u_w_m2k, heat_loss_w, rib_penalty_percent, dew_point_c, keep_c, passes, least_mm
    and the temperature of every face.

    Valid
    -----
    outside_c: -40..40
    inside_c: -10..45
    humidity_percent: 1..100
    area_m2: 0.01..1000
    rib_mm: 0.3..150
    rib_spacing_mm: 50..3000
    tape_mm: 0.5..50
    tape_w_mk: 0.01..1

    Source
    ------
    ISO 6946 (surface resistances, combined method; metal ribs are outside its scope); ISO 13788
    (steady state at the dew point); conductivities as each row says.

    Example
    -------
    20 C and 50 % inside, -10 C outside, foam of 0.024 on bare skin: dry from 4.65 mm on (own
    check by hand with a dew point of 9.272 C).
    """
    guard(
        INPUTS,
        outside_c=outside_c,
        inside_c=inside_c,
        humidity_percent=humidity_percent,
        flow=flow,
        area_m2=area_m2,
        rib=rib,
        rib_mm=rib_mm,
        rib_spacing_mm=rib_spacing_mm,
        tape_mm=tape_mm,
        tape_w_mk=tape_w_mk,
    )
    if not layer:
        raise BadInput("--layer is missing: say what the wall is of, such as --layer 'foam 50mm'")
    if outside_c >= inside_c:
        raise BadInput(
            f"it is {outside_c:g} C outside and {inside_c:g} C inside; this is a check for winter, "
            "so outside must be colder"
        )
    surface = table("wall")["surface"]
    built = Wall(
        tuple(layer_of(text) for text in layer),
        float(surface["inside_m2k_w"][flow]),
        float(surface["outside_m2k_w"]),
    )
    if sum(built.resistances) <= 0:
        raise BadInput("the layers resist nothing; give each a thickness or a resistance")
    kept = place_of(built, keep, "--keep-dry")
    found = _with_ribs(built, rib, rib_mm, rib_spacing_mm, through, tape_mm, tape_w_mk)
    resistance = found.lower if rib in METAL else found.mean
    u = 1 / resistance
    loss_w = u * area_m2 * (inside_c - outside_c)
    dew_c = dew_point_c(inside_c, humidity_percent)
    faces = built.faces_c(inside_c, outside_c)
    keep_c = faces[kept + 1]
    passes = min(faces[kept + 1 :]) >= dew_c - 1e-9
    least = least_thickness_mm(built, kept, inside_c, outside_c, dew_c, built.inside_m2k_w)
    factor = (faces[-1] - outside_c) / (inside_c - outside_c)
    name = built.layers[kept].name
    figures = [
        Figure("u_w_m2k", u, "W/m2K", "of the whole wall, ribs included"),
        Figure("resistance_m2k_w", resistance, "m2K/W", "from air to air, ribs included"),
        Figure("clear_m2k_w", found.clear, "m2K/W", "from air to air, between ribs"),
        Figure("heat_loss_w", loss_w, "W", f"through {area_m2:g} m2"),
    ]
    over_rib_c = None if rib is None else rib_face_c(built, found, inside_c, outside_c)
    if rib is not None:
        penalty = 100 * (found.clear / resistance - 1)
        figures += [
            Figure("rib_penalty_percent", penalty, "%", "more heat lost through ribs"),
            Figure("upper_m2k_w", found.upper, "m2K/W", "heat keeps to its path"),
            Figure("lower_m2k_w", found.lower, "m2K/W", "heat spreads in each layer"),
            Figure("rib_face_c", over_rib_c, "C",
                   "inner surface over a rib, at worst"),
        ]  # fmt: skip
    figures += [
        Figure("dew_point_c", dew_c, "C", "of the air inside"),
        Figure("keep_c", keep_c, "C", f"inner face of {name}"),
        Figure("passes", passes, "", "is it dry there and further in?"),
        Figure("least_mm", least, "mm", f"of {name} for that, with no margin"),
        Figure("surface_factor", factor, "", "inner surface, 0 outside to 1 inside"),
        Figure("face_0_c", faces[0], "C", "outer surface"),
    ]
    for number, (each, face) in enumerate(zip(built.layers, faces[1:], strict=True), 1):
        figures.append(Figure(f"face_{number}_c", face, "C", f"inner face of {each.name}"))
    title = (
        f"U {u:.3g} W/m2K, {loss_w:.4g} W lost; inside of {name} at {keep_c:.1f} C is "
        f"{'above' if passes else 'below'} the dew point of {dew_c:.1f} C"
    )
    if passes and over_rib_c is not None and over_rib_c < dew_c:
        title += f", but over a rib it may be {over_rib_c:.1f} C, below it"
    return Result(
        title,
        tuple(figures),
        wall_words.governs(rib, passes, name),
        tuple(wall_words.working(built, found, rib, u, dew_c, kept, least)),
        tuple(
            wall_words.others(built, found, rib, flow, kept, inside_c, outside_c, dew_c, through)
        ),
        tuple(wall_words.sources(built, rib)),
        tuple(wall_words.cautions(built, found, rib, faces, kept, dew_c, inside_c, outside_c)),
        version("wall", "dewpoint"),
    )


def _with_ribs(
    built: Wall,
    rib: str | None,
    rib_mm: float | None,
    spacing_mm: float | None,
    through: str | None,
    tape_mm: float | None,
    tape_w_mk: float,
) -> Paths:
    bridged = place_of(built, through, "--rib-in")
    if rib is None:
        if rib_mm is not None or spacing_mm is not None or tape_mm is not None:
            raise BadInput("say with --rib what the ribs are of")
        total = built.total_m2k_w
        return Paths(total, total, total, total)
    if rib_mm is None or spacing_mm is None:
        raise BadInput("ribs need --rib-thick and --rib-spacing")
    if rib_mm >= spacing_mm:
        raise BadInput(f"ribs of {rib_mm:g} mm don't fit {spacing_mm:g} mm apart")
    depth_m = built.layers[bridged].thickness_m
    if depth_m is None:
        raise BadInput(
            f"ribs go through {built.layers[bridged].name}: give its thickness and conductivity, "
            "or name another layer with --rib-in"
        )
    through_m2k_w = depth_m / conductivities()[rib][0]
    through_m2k_w += tape_mm / 1000 / tape_w_mk if tape_mm is not None else 0.0
    return paths(
        built.resistances,
        bridged,
        through_m2k_w,
        rib_mm / spacing_mm,
        built.inside_m2k_w,
        built.outside_m2k_w,
    )


HELPER = Helper(
    "wall",
    "heat loss of a wall with ribs, and where it gets wet",
    INPUTS,
    wall,
    """\
  closein size wall --outside -10C --layer "steel 1mm" --layer "foam 50mm" --layer "plywood 6mm"
  closein size wall --outside 14F --layer "foam 50mm 0.024" --layer "sheep-wool 50mm" --area 29m2
  closein size wall --outside 0C --layer "foam 2in" --rib steel --rib-thick 1.2mm --rib-spacing 16in
  closein size wall --outside 0C --layer "foam 50mm" --layer "sheep-wool 50mm" --keep-dry foam""",
)
