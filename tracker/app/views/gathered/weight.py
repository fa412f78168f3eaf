"""Axles, ratings, weigh slips and everything aboard, for the axle loads."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.app.session import Session
from tracker.app.views.gathered import Gathered, listed, plain
from tracker.app.views.gathered.aboard import cargo
from tracker.build.item import Item
from tracker.errors import BadInput

OF_THE_VEHICLE = {
    "track_m": "m", "front_rating_kg": "kg", "rear_rating_kg": "kg", "gross_rating_kg": "kg"
}  # fmt: skip
"""Fields of the vehicle that are inputs as they stand, and their units."""

RATINGS = ("front_rating_kg", "rear_rating_kg", "gross_rating_kg")


def gather_weight(session: Session, typed: Mapping[str, Any]) -> Gathered:
    """The vehicle as first weighed stripped, what came aboard since, and what is to come.

    The estimate stands on the last slip of the stripped vehicle that gives both axles; the last
    slip of another weighing is what it is held against.
    """
    notes: list[str] = []
    base, last = _slips(session)
    found: dict[str, Any] = {**_axles(session, typed), **_ratings(session)}
    if "front_kg" not in typed or "rear_kg" not in typed:
        found |= _stripped(session, base, notes)
    if not any(name.startswith("slip_") for name in typed):
        found |= _last(session, last, notes)
    notes += [*_at_odds(session, base), *_at_odds(session, last)]
    aboard = cargo(session)
    if aboard.middle:
        names = ", ".join(aboard.middle)
        notes.append(f"counted in the middle, since no side is known: {names}")
    if aboard.unplaced_used_kg or aboard.unplaced_later_kg:
        notes.append(
            f"parts without a station: {aboard.unplaced_used_kg:.4g} kg used and "
            f"{aboard.unplaced_later_kg:.4g} kg to be used are on no axle here, nor in the total; "
            "'closein item change NAME station=3m side=left' places one"
        )
    missing = [name for name in RATINGS if name not in found and name not in typed]
    if missing:
        notes.append(f"unknown of the vehicle, so not held against: {', '.join(missing)}")
    notes.append("people and their things are in no record; add each with --planned")
    joined = {
        **found,
        **typed,
        "item": [*aboard.now, *listed(typed.get("item"))],
        "planned": [*aboard.later, *listed(typed.get("planned"))],
    }
    return Gathered(joined, tuple(aboard.counted), tuple(aboard.uncounted), tuple(notes))


def _axles(session: Session, typed: Mapping[str, Any]) -> dict[str, Any]:
    """Where the axles are and which way stations run; what is typed goes before it."""
    vehicle = session.cover.vehicle
    front = vehicle.get("front_axle_station_m") if vehicle else None
    rear = vehicle.get("rear_axle_station_m") if vehicle else None
    if front is None or rear is None or front == rear:
        if "wheelbase_m" in typed and ("front_axle_m" in typed or front is not None):
            return {} if front is None else {"front_axle_m": f"{plain(front)}m"}
        raise BadInput(
            "where the axles are is unknown; 'closein item change vehicle front_axle_station=0.9m "
            "rear_axle_station=5.2m' tells it, or give --wheelbase and --front-axle"
        )
    return {
        "wheelbase_m": f"{plain(abs(rear - front))}m",
        "front_axle_m": f"{plain(front)}m",
        "stations": "rearward" if rear > front else "forward",
    }


def _ratings(session: Session) -> dict[str, Any]:
    vehicle = session.cover.vehicle
    return {
        name: f"{plain(value)}{unit}"
        for name, unit in OF_THE_VEHICLE.items()
        if vehicle and (value := vehicle.get(name)) is not None
    }


def _slips(session: Session) -> tuple[Item | None, Item | None]:
    """The last slip of the stripped vehicle with both axles, and the last that came after it."""
    recorded = {act.id: act.happened[:10] for act in session.build.acts}
    slips = [
        (str(slip.get("weighed") or recorded.get(slip.born.rpartition("/")[0], "")), slip)
        for slip in session.cover.by_kind.get("weigh-slip", [])
    ]
    slips.sort(key=lambda each: each[0])
    since, base = "", None
    for day, slip in slips:
        if slip.get("state") == "stripped" and {"front_kg", "rear_kg"} <= _weighed(slip).keys():
            since, base = day, slip
    later = [slip for day, slip in slips if day >= since and slip is not base and _weighed(slip)]
    return base, later[-1] if later else None


def _weighed(slip: Item, start: str = "") -> dict[str, float]:
    """What a slip says (kg), the other axle or side told from the whole where it can be."""
    known = {name: slip.get(f"{name}_kg") for name in ("front", "rear", "total", "left", "right")}
    front, rear, total = known["front"], known["rear"], known["total"]
    if total is None and front is not None and rear is not None:
        total = front + rear
    if total is not None:
        front = total - rear if front is None and rear is not None else front
        rear = total - front if rear is None and front is not None else rear
        if known["left"] is None and known["right"] is not None:
            known["left"] = total - known["right"]
    told = {"front": front, "rear": rear, "total": known["total"], "left": known["left"]}
    return {f"{start}{name}_kg": value for name, value in told.items() if value is not None}


def _stripped(session: Session, base: Item | None, notes: list[str]) -> dict[str, Any]:
    if base is None:
        raise BadInput(
            "no weigh slip gives both axles of the stripped vehicle; 'closein item add weigh-slip "
            "state=stripped front=1900kg rear=2400kg' records one, or give --front and --rear"
        )
    notes.append(f"begun from {_called(session, base)}")
    weighed = _weighed(base)
    return {name: f"{plain(weighed[name])}kg" for name in ("front_kg", "rear_kg", "left_kg")
            if name in weighed}  # fmt: skip


def _at_odds(session: Session, slip: Item | None) -> list[str]:
    """A slip whose axles make another weight than its total, by more than scales round."""
    known = [slip.get(f"{name}_kg") for name in ("front", "rear", "total")] if slip else []
    if slip is None or None in known:
        return []
    front, rear, total = known
    if abs(front + rear - total) <= 0.01 * total:
        return []
    return [
        f"the axles of weigh slip {session.names.name(slip.id)} make {front + rear:.4g} kg, but "
        f"its total is {total:.4g} kg: look at the slip again"
    ]


def _last(session: Session, last: Item | None, notes: list[str]) -> dict[str, Any]:
    if last is None:
        notes.append("no later weigh slip, so nobody knows how far off the estimate is")
        return {}
    notes.append(f"held against {_called(session, last)}")
    return {name: f"{plain(value)}kg" for name, value in _weighed(last, "slip_").items()}


def _called(session: Session, slip: Item) -> str:
    """A slip in words, with what was aboard, which the reader has to allow for."""
    told = [str(slip.get(name)) for name in ("weighed", "state") if slip.get(name) is not None]
    words = f"weigh slip {session.names.name(slip.id)}"
    if told:
        words += f" ({', '.join(told)})"
    if slip.get("aboard"):
        words += f"; aboard then: {slip.get('aboard')}"
    return words
