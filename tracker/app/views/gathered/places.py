"""Where along and across the vehicle the weight of an item lies."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tracker.app.session import Session
from tracker.build.item import Item, as_list

WALLS = ("left", "right")


class Place(NamedTuple):
    """Where something's weight lies.

    Parameters
    ----------
    station_m: from the datum (m).
    side: left, right or centre; None where nobody said, which counts as the centre.
    """

    station_m: float
    side: str | None


def place_of(session: Session, item: Item) -> Place | None:
    """An item's place: as stated, else the middle of its bays; None where nobody knows.

    A zone lies in the middle of its bays.
    """
    bays = _bays(session, item)
    station_m = item.get("station_m") if item.kind != "bay" else None
    if station_m is None:
        station_m = _middle_m(bays)
    return None if station_m is None else Place(float(station_m), side_of(item, bays))


def side_of(item: Item, bays: Sequence[Item] = ()) -> str | None:
    """The side of the vehicle an item lies on, by its face, its side or its bays."""
    face, side = item.get("face"), item.get("side")
    if face in WALLS:
        return str(face)
    if side is not None:
        return str(side) if side in WALLS else "centre"
    if face is not None:
        return None
    faces = {bay.get("face") for bay in bays}
    return str(faces.pop()) if len(faces) == 1 and faces <= set(WALLS) else None


def _bays(session: Session, item: Item) -> list[Item]:
    items = session.build.items
    if item.kind == "zone":
        found = [str(bay) for bay in as_list(item.get("bay"))]
    else:
        found = session.cover.bays_of(item)
    return [items[bay] for bay in found if bay in items and items[bay].removed is None]


def _middle_m(bays: Sequence[Item]) -> float | None:
    """Midway between the ends of the bays (m)."""
    ends = [
        float(bay.fields[name])
        for bay in bays
        for name in ("station_m", "to_m")
        if bay.get(name) is not None
    ]
    return (min(ends) + max(ends)) / 2 if ends else None
