"""Areas of bays, what openings take off them, and the foam they take by their depth.

A side wall is length by height, a floor or ceiling length by width, a front or rear width by
height; where a bay states no width, it is the vehicle's.
"""

from __future__ import annotations

from collections.abc import Collection

from tracker.build.coverage import Coverage
from tracker.build.item import Item

ACROSS = ("front", "rear")
LYING = ("floor", "ceiling", "roof", "under")
TAKING = ("opening", "no-fill")
"""Kinds of item that take their area off the bays they lie in."""


def sides_of(bay: Item, width_m: float | None) -> tuple[tuple[float, float], list[str]]:
    """The two sides of a bay [m], and which fields are unknown that would tell them.

    Parameters
    ----------
    width_m: of the vehicle inside, or None.
    """
    face = bay.get("face")
    if face is None:
        return (0.0, 0.0), ["face"]
    length_m = None
    if bay.get("station_m") is not None and bay.get("to_m") is not None:
        length_m = abs(bay.fields["to_m"] - bay.fields["station_m"])
    told = {
        "station_m and to_m": length_m,
        "width_m": bay.get("width_m", width_m),
        "height_m": bay.get("height_m"),
    }
    if face in ACROSS:
        del told["station_m and to_m"]
    else:
        del told["height_m" if face in LYING else "width_m"]
    unknown = [name for name, value in told.items() if value is None]
    if unknown:
        return (0.0, 0.0), unknown
    one, other = (float(value) for value in told.values() if value is not None)
    return (one, other), []


def taken_off(
    cover: Coverage, bays: Collection[str]
) -> tuple[dict[str, float], list[tuple[str, str]]]:
    """What openings take off each bay [m2], shared among its bays; and (id, why) of what does not.

    Parameters
    ----------
    bays: ids of the bays that count.
    """
    taken: dict[str, float] = {}
    left_out = []
    for kind in TAKING:
        for item in cover.by_kind.get(kind, []):
            own = cover.bays_of(item)
            if own and not set(bays) & set(own):
                continue
            width_mm, height_mm = item.get("width_mm"), item.get("height_mm")
            if not own or width_mm is None or height_mm is None:
                left_out.append((item.id, "in no bay" if not own else "of unknown size"))
                continue
            for bay in own:
                taken[bay] = taken.get(bay, 0.0) + width_mm * height_mm / 1e6 / len(own)
    return taken, left_out


def foam_m3(cover: Coverage) -> float | None:
    """The foam that all bays take by their area and depth [m3], or None while one is unknown."""
    vehicle = cover.vehicle
    width_m = vehicle.get("width_m") if vehicle else None
    usual_m = vehicle.get("foam_m") if vehicle else None
    taken, _ = taken_off(cover, [bay.id for bay in cover.bays])
    total = 0.0
    for bay in cover.bays:
        depth_m = bay.get("foam_m", usual_m)
        if depth_m == 0:
            continue
        sides, unknown = sides_of(bay, width_m)
        if unknown or depth_m is None:
            return None
        total += max(0.0, sides[0] * sides[1] - taken.get(bay.id, 0.0)) * float(depth_m)
    return total or None
