"""Axle loads by moments, side balance, and what is still free of the ratings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tracker.errors import BadInput
from tracker.sizing.axle import Loads, Slip, on_rear_kg
from tracker.sizing.mass import POUND_KG, Mass, mass_of
from tracker.sizing.result import Figure, Result, Source
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

OWN_RANGE = "two-axle vehicles"
INPUTS = (
    Input("wheelbase_m", "--wheelbase", "front axle to rear axle", "m", low=1, high=15,
          why=OWN_RANGE, required=True),
    Input("front_axle_m", "--front-axle", "station of the front axle", "m", low=-10, high=30,
          default=0.0, why=OWN_RANGE),
    Input("stations", "--stations", "which way stations grow", type="choice",
          choices=("rearward", "forward"), default="rearward"),
    Input("front_kg", "--front", "on the front axle as weighed empty", "kg", low=0, high=20000,
          why=OWN_RANGE, required=True),
    Input("rear_kg", "--rear", "on the rear axle as weighed empty", "kg", low=0, high=20000,
          why=OWN_RANGE, required=True),
    Input("left_kg", "--left", "on the left wheels as weighed empty", "kg", low=0, high=40000,
          why=OWN_RANGE),
    Input("item", "--item", "a thing aboard now: NAME MASS STATION [OFF-CENTRE] [SIDE]",
          type="text", repeated=True),
    Input("planned", "--planned", "a thing still to come, likewise", type="text", repeated=True),
    Input("track_m", "--track", "between the wheels of an axle", "m", low=0.8, high=3,
          why=OWN_RANGE),
    Input("front_rating_kg", "--front-rating", "GAWR of the front axle", "kg", low=100,
          high=20000, why=OWN_RANGE),
    Input("rear_rating_kg", "--rear-rating", "GAWR of the rear axle", "kg", low=100, high=40000,
          why=OWN_RANGE),
    Input("gross_rating_kg", "--gross-rating", "GVWR", "kg", low=200, high=60000,
          why=OWN_RANGE),
    Input("slip_front_kg", "--slip-front", "front axle by a weigh slip of today", "kg", low=0,
          high=20000, why=OWN_RANGE),
    Input("slip_rear_kg", "--slip-rear", "rear axle by that slip", "kg", low=0, high=40000,
          why=OWN_RANGE),
    Input("slip_total_kg", "--slip-total", "in all by that slip", "kg", low=0, high=60000,
          why=OWN_RANGE),
    Input("slip_left_kg", "--slip-left", "left wheels by that slip", "kg", low=0, high=40000,
          why=OWN_RANGE),
)  # fmt: skip

EVEN = "the left wheels were not weighed: half of the empty weight is taken for them"


def weight(
    wheelbase_m: float,
    front_axle_m: float = 0.0,
    stations: str = "rearward",
    front_kg: float = 0.0,
    rear_kg: float = 0.0,
    left_kg: float | None = None,
    item: Sequence[str] = (),
    planned: Sequence[str] = (),
    track_m: float | None = None,
    front_rating_kg: float | None = None,
    rear_rating_kg: float | None = None,
    gross_rating_kg: float | None = None,
    slip_front_kg: float | None = None,
    slip_rear_kg: float | None = None,
    slip_total_kg: float | None = None,
    slip_left_kg: float | None = None,
) -> Result:
    """Axle loads and side balance of a vehicle with its things, against its ratings.

    Formula
    -------
    rear = weighed rear + sum m (station - front axle) / wheelbase; front = total - rear; side by
    1/2 + off-centre / track, or all of it on its side.

    Parameters
    ----------
    wheelbase_m: front axle to rear axle [m].
    front_axle_m: station of the front axle [m].
    stations: which way stations grow, rearward or forward [-].
    front_kg: on the front axle as weighed empty [kg].
    rear_kg: on the rear axle as weighed empty [kg].
    left_kg: on the left wheels as weighed empty; half where not given [kg].
    item: things aboard now [-].
    planned: things still to come [-].
    track_m: between the wheels of an axle [m].
    front_rating_kg: GAWR of the front axle [kg].
    rear_rating_kg: GAWR of the rear axle [kg].
    gross_rating_kg: GVWR [kg].
    slip_front_kg: front axle by a weigh slip of today [kg].
    slip_rear_kg: rear axle by that slip [kg].
    slip_total_kg: in all by that slip, where axles were not weighed apart [kg].
    slip_left_kg: left wheels by that slip [kg].

    Returns
    -------
    Result with now_front_kg, now_rear_kg, now_total_kg, left_percent, the same as planned, the
    margins, passes, and how far the estimate is off the slip.

    Valid
    -----
    wheelbase_m: 1..15
    front_axle_m: -10..30
    front_kg: 0..20000
    rear_kg: 0..20000
    left_kg: 0..40000
    track_m: 0.8..3
    front_rating_kg: 100..20000
    rear_rating_kg: 100..40000
    gross_rating_kg: 200..60000
    slip_front_kg: 0..20000
    slip_rear_kg: 0..40000
    slip_total_kg: 0..60000
    slip_left_kg: 0..40000

    Source
    ------
    Statics; ratings are the maker's; 49 CFR 571.3 and 567.4(g)(3) by NHTSA interpretations.

    Example
    -------
    14,500 lb at 156 in of a wheelbase of 214 in: 10,570 lb rear, 3930 lb front (a truck maker).
    """
    guard(
        INPUTS,
        wheelbase_m=wheelbase_m,
        front_axle_m=front_axle_m,
        stations=stations,
        front_kg=front_kg,
        rear_kg=rear_kg,
        left_kg=left_kg,
        track_m=track_m,
        front_rating_kg=front_rating_kg,
        rear_rating_kg=rear_rating_kg,
        gross_rating_kg=gross_rating_kg,
        slip_front_kg=slip_front_kg,
        slip_rear_kg=slip_rear_kg,
        slip_total_kg=slip_total_kg,
        slip_left_kg=slip_left_kg,
    )
    if front_kg + rear_kg <= 0:
        raise BadInput("--front and --rear are both nothing: weigh the vehicle empty first")
    if left_kg is not None and left_kg > front_kg + rear_kg:
        raise BadInput(f"--left {left_kg:g} kg is more than the whole {front_kg + rear_kg:g} kg")
    aboard = [mass_of(text) for text in item]
    coming = [mass_of(text, "--planned") for text in planned]
    for each in (*aboard, *coming):
        if each.off_centre_m is not None and track_m is None:
            raise BadInput(f"{each.name}: a distance off the middle needs --track")
    if stations == "forward":
        aboard, coming = (_mirrored(things, front_axle_m) for things in (aboard, coming))
    half = (front_kg + rear_kg) / 2
    empty = Loads(front_kg, rear_kg, left_kg if left_kg is not None else half)
    now = empty.carrying(aboard, front_axle_m, wheelbase_m, track_m)
    full = now.carrying(coming, front_axle_m, wheelbase_m, track_m)
    figures = [*_figures("now", now), *_figures("planned", full)]
    ratings = {"front": front_rating_kg, "rear": rear_rating_kg, "gross": gross_rating_kg}
    loads = {"front": full.front_kg, "rear": full.rear_kg, "gross": full.total_kg}
    margins = {name: rating - loads[name] for name, rating in ratings.items() if rating is not None}
    for name, margin in margins.items():
        figures.append(Figure(f"{name}_margin_kg", margin, "kg", "still free as planned"))
    passes = min(margins.values()) >= -1e-9 if margins else None
    if min(full.front_kg, full.rear_kg) < 0:
        passes = False
    slip = Slip(slip_front_kg, slip_rear_kg, slip_total_kg, slip_left_kg)
    over = slip.over_kg(ratings)
    if over:  # what a scale showed outweighs what was reckoned
        passes = False
    figures.append(Figure("passes", passes, "", "are all ratings kept as planned?"))
    figures += slip.off(now)
    return Result(
        _title(full, margins, over),
        tuple(figures),
        _governs(full, margins),
        (
            *_working(aboard, coming, front_axle_m, wheelbase_m, empty, now, full),
            *(() if left_kg is not None else (EVEN,)),
        ),
        (*slip.said(now), *_others(full, front_rating_kg, rear_rating_kg, gross_rating_kg)),
        tuple(_sources(aboard + coming)),
        (*_by_slip(slip, over, now, margins), *_cautions(full, margins)),
        version("weight"),
    )


def _figures(when: str, loads: Loads) -> list[Figure]:
    left = 100 * loads.left_kg / loads.total_kg
    say = {"now": "as it stands", "planned": "with what is to come"}[when]
    return [
        Figure(f"{when}_front_kg", loads.front_kg, "kg", f"front axle, {say}"),
        Figure(f"{when}_rear_kg", loads.rear_kg, "kg", f"rear axle, {say}"),
        Figure(f"{when}_total_kg", loads.total_kg, "kg", f"in all, {say}"),
        Figure(f"{when}_left_percent", left, "%", "on the left wheels"),
    ]


def _mirrored(things: Sequence[Mass], front_axle_m: float) -> list[Mass]:
    """Things whose stations grow forward, as far behind the front axle by stations rearward."""
    return [replace(each, station_m=2 * front_axle_m - each.station_m) for each in things]


def _title(full: Loads, margins: dict[str, float], over: dict[str, float]) -> str:
    said = (
        f"front {full.front_kg:.4g} kg, rear {full.rear_kg:.4g} kg, in all {full.total_kg:.4g} kg"
    )
    if not margins:
        return f"{said}; give the ratings to check them"
    name, margin = min(margins.items(), key=lambda each: each[1])
    if margin < 0:
        return f"{said}; {name} is {-margin:.4g} kg over its rating"
    if over:
        name, more = max(over.items(), key=lambda each: each[1])
        return f"{said}; by the weigh slip {name} is {more:.4g} kg over its rating"
    return f"{said}; {margin:.4g} kg free, {name} is nearest its rating"


def _governs(full: Loads, margins: dict[str, float]) -> str:
    if min(full.front_kg, full.rear_kg) < 0:
        return "an axle is lifted off the ground"
    if not margins:
        return "no rating was given"
    name = min(margins, key=lambda each: margins[each])
    return {"front": "the front axle", "rear": "the rear axle", "gross": "the gross weight"}[name]


def _working(
    aboard: Sequence[Mass],
    coming: Sequence[Mass],
    front_axle_m: float,
    wheelbase_m: float,
    empty: Loads,
    now: Loads,
    full: Loads,
) -> list[str]:
    said = [f"weighed: {empty.front_kg:.4g} kg front, {empty.rear_kg:.4g} kg rear"]
    for each in (*aboard, *coming):
        behind = each.station_m - front_axle_m
        rear = on_rear_kg(each.mass_kg, behind, wheelbase_m)
        said.append(
            f"{each.name}: {each.mass_kg:.4g} kg x {behind:.4g} m / {wheelbase_m:.4g} m = "
            f"{rear:.4g} kg rear, {each.mass_kg - rear:.4g} kg front"
        )
    said.append(f"as it stands: {now.front_kg:.4g} kg front, {now.rear_kg:.4g} kg rear")
    if coming:
        said.append(f"as planned: {full.front_kg:.4g} kg front, {full.rear_kg:.4g} kg rear")
    return said


def _others(
    full: Loads,
    front_rating_kg: float | None,
    rear_rating_kg: float | None,
    gross_rating_kg: float | None,
) -> list[tuple[str, str]]:
    limit = table("weight")["axle"]["single_lb"] * POUND_KG
    heavier = max(full.front_kg, full.rear_kg)
    said = [
        (
            f"against the federal limit of a single axle, {limit:.4g} kg",
            "above it" if heavier > limit else "below it",
        )
    ]
    if None not in (front_rating_kg, rear_rating_kg, gross_rating_kg):
        both = (front_rating_kg or 0) + (rear_rating_kg or 0)
        more = (gross_rating_kg or 0) > both
        said.append(
            ("GVWR against both GAWRs", "above their sum: check the plate" if more else "not above")
        )
    seat = table("weight")["seat"]["person_lb"] * POUND_KG
    said.append(("a person in a seat, as ratings count one", f"{seat:.4g} kg"))
    return said


def is_front_light(loads: Loads) -> bool:
    """Is there too little on the front axle to steer well?"""
    least = float(table("weight")["light"]["front_least_percent"])
    return 100 * loads.front_kg < least * loads.total_kg


def is_lopsided(loads: Loads) -> bool:
    """Is one side much heavier than the other?"""
    most = float(table("weight")["light"]["side_most_percent"])
    left = 100 * loads.left_kg / loads.total_kg
    return max(left, 100 - left) > most


def _sources(things: Sequence[Mass]) -> list[Source]:
    rows = table("weight")
    keys = [rows["seat"]["source"], rows["axle"]["source"], rows["light"]["source"]]
    if things:
        keys.append(rows["water"]["source"])
    return [source("weight", key) for key in keys]


def _by_slip(
    slip: Slip, over: dict[str, float], now: Loads, margins: dict[str, float]
) -> list[str]:
    """What a scale showed above a rating, or above the estimate that the margins rest on."""
    said = [
        f"The weigh slip shows {more:.4g} kg more than the {name} rating: that is over, whatever "
        "was reckoned."
        for name, more in over.items()
    ]
    reckoned = {"front": now.front_kg, "rear": now.rear_kg, "gross": now.total_kg}
    for name in margins:
        weighed = slip.weighed(name)
        if name not in over and weighed is not None and weighed - reckoned[name] >= 0.5:
            said.append(
                f"The scale showed {weighed - reckoned[name]:.4g} kg more ({name}) than was "
                "reckoned: that much less is free."
            )
    return said


def _cautions(full: Loads, margins: dict[str, float]) -> list[str]:
    said = []
    if any(margin < 0 for margin in margins.values()):
        said.append("Over a rating brakes, tyres and springs are outside what they were made for.")
    if is_front_light(full):
        said.append("Little weight on the front axle: it steers and brakes badly.")
    if is_lopsided(full):
        said.append("One side is much heavier: check each wheel against its tyre.")
    said.append(
        "An estimate: weigh each axle and each side on a scale, with water, fuel and people, "
        "before driving."
    )
    said.append("Tyres and wheels may carry less than the axle's rating; check theirs too.")
    return said


HELPER = Helper(
    "weight",
    "axle loads, side balance and margins to the ratings",
    INPUTS,
    weight,
    """\
  closein size weight --wheelbase 4.3m --front 1900kg --rear 2400kg --item "stove 18kg 3.2m left"
  closein size weight --wheelbase 14ft --front 4200lb --rear 5300lb --planned "water 40gal 12ft"
  closein size weight --wheelbase 4.3m --front 1900kg --rear 2400kg --rear-rating 5000kg
  closein size weight --wheelbase 4.3m --front 1900kg --rear 2400kg --slip-front 2010kg
  closein size weight --planned "people 150kg 1.2m" --from-build""",
)
