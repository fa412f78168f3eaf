"""Areas to foam and how deep, from the bays."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.app.session import Session
from tracker.app.views.gathered import Gathered, listed, plain
from tracker.build.item import as_list
from tracker.errors import BadInput
from tracker.plan.bay_area import sides_of, taken_off
from tracker.quantity import parse


def gather_foam(session: Session, typed: Mapping[str, Any], zone: str | None) -> Gathered:
    """Area and depth of every bay of which both are known, less the openings in it.

    Bays of one depth make one area. A side wall is length by height, a floor or ceiling length by
    width, a front or rear width by height; where a bay states no width, it is the vehicle's.
    """
    names, cover = session.names, session.cover
    bays = cover.bays
    if zone:
        own = set(as_list(names.find(zone, ("zone",), "zone").get("bay")))
        bays = [bay for bay in bays if bay.id in own]
    taken, left_out = taken_off(cover, {bay.id for bay in bays})
    notes = [f"{names.name(item)} is {why}, so it is not taken off" for item, why in left_out]
    given_m, usual_m = _given_depth_m(typed), _of_vehicle(session, "foam_m")
    areas: dict[float, float] = {}
    counted: list[tuple[str, str]] = []
    uncounted: list[tuple[str, str]] = []
    for bay in bays:
        name = names.name(bay.id)
        depth_m = given_m if given_m is not None else bay.get("foam_m", usual_m)
        sides, unknown = sides_of(bay, _of_vehicle(session, "width_m"))
        if depth_m is None:
            unknown = [*unknown, "foam_m"]
        if unknown:
            uncounted.append((name, f"{', '.join(unknown)} unknown"))
            continue
        area_m2 = sides[0] * sides[1] - taken.get(bay.id, 0.0)
        if depth_m == 0 or area_m2 < 0.01:
            uncounted.append((name, "no foam in it" if depth_m == 0 else "openings take it all"))
            continue
        depth_mm = round(float(depth_m) * 1000, 3)
        areas[depth_mm] = areas.get(depth_mm, 0.0) + area_m2
        counted.append((name, _words(sides, taken.get(bay.id, 0.0), depth_mm)))
    found: dict[str, Any] = {}
    if areas:
        found["area_m2"] = [f"{plain(area)}m2" for area in areas.values()]
        found["thickness_mm"] = [f"{plain(depth)}mm" for depth in areas]
    elif "area_m2" not in typed:
        raise BadInput(
            "no bay has its size and foam_m known, so there is no area to foam; 'closein item "
            "change B1 face=left station=0m to=1.5m height=2m foam=50mm' tells them, or give --area"
        )
    if (lift := _of_vehicle(session, "lift_mm")) is not None:
        found["lift_mm"] = f"{plain(lift)}mm"
    return Gathered(_joined(found, typed), tuple(counted), tuple(uncounted), tuple(notes))


def _given_depth_m(typed: Mapping[str, Any]) -> float | None:
    """A depth typed for all bays; one typed beside an area is that area's."""
    depths = listed(typed.get("thickness_mm"))
    if len(depths) != 1 or listed(typed.get("area_m2")):
        return None
    return parse(str(depths[0]), "mm") / 1000


def _of_vehicle(session: Session, name: str) -> Any:
    vehicle = session.cover.vehicle
    return vehicle.get(name) if vehicle else None


def _words(sides: tuple[float, float], less_m2: float, depth_mm: float) -> str:
    less = f" less {less_m2:.3g} m2" if less_m2 else ""
    return f"{sides[0]:.4g} x {sides[1]:.4g} m{less}, {depth_mm:g} mm"


def _joined(found: dict[str, Any], typed: Mapping[str, Any]) -> dict[str, Any]:
    """What was typed goes before what the bays say; areas are added, with their depths."""
    joined = {**found, **typed}
    areas, depths = listed(typed.get("area_m2")), listed(typed.get("thickness_mm"))
    if "area_m2" not in found or not areas:
        return joined
    if len(depths) == 1:
        depths *= len(areas)
    if len(depths) != len(areas):
        raise BadInput("--area beside --from-build needs its --thick: one, or one for each area")
    joined["area_m2"] = [*found["area_m2"], *areas]
    joined["thickness_mm"] = [*found["thickness_mm"], *depths]
    return joined
