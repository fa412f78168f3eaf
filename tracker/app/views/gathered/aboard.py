"""What is aboard and what is still to come, with its mass and place, from the items of a build."""

from __future__ import annotations

from dataclasses import dataclass, field

from tracker.app.session import Session
from tracker.app.views.gathered import plain
from tracker.app.views.gathered.places import Place, place_of
from tracker.build.item import Item
from tracker.build.stock import lots_of
from tracker.errors import BadInput
from tracker.sizing.mass import water_kg_per_l

WATER = ("fresh water", "waste water")


@dataclass(slots=True)
class Cargo:
    """What was found.

    Parameters
    ----------
    now, later: lines as ``--item`` takes them: what is aboard, and what is to come.
    counted: name and what was taken of it.
    uncounted: name and why it was not counted, or which part of it.
    middle: names of what counts in the middle, since nobody said on which side it lies.
    unplaced_used_kg, unplaced_later_kg: mass of parts without a station, used and to be used.
    """

    now: list[str] = field(default_factory=list)
    later: list[str] = field(default_factory=list)
    counted: list[tuple[str, str]] = field(default_factory=list)
    uncounted: list[tuple[str, str]] = field(default_factory=list)
    middle: list[str] = field(default_factory=list)
    unplaced_used_kg: float = 0.0
    unplaced_later_kg: float = 0.0

    def put(self, name: str, what: str, mass_kg: float, place: Place, *, aboard: bool) -> None:
        """Count a mass; ``what`` says of which part of the thing it is."""
        words = f"{plain(mass_kg)}kg {plain(place.station_m)}m {place.side or 'centre'}"
        (self.now if aboard else self.later).append(f"{name} {words}")
        self.counted.append((name, f"{what}, {words}, {'aboard' if aboard else 'to come'}"))
        if place.side is None and name not in self.middle:
            self.middle.append(name)

    def skip(self, name: str, why: str) -> None:
        """Say that something was not counted."""
        self.uncounted.append((name, why))


def cargo(session: Session) -> Cargo:
    """Appliances, tanks with what is in them, and parts, as far as mass and place are known."""
    found = Cargo()
    appliances = session.cover.by_kind.get("appliance", [])
    for appliance in appliances:
        _appliance(session, appliance, found)
    for tank in session.cover.by_kind.get("tank", []):
        _tank(session, tank, found)
    twins = {appliance.slug.casefold() for appliance in appliances}
    for part in session.cover.by_kind.get("part", []):
        if part.get("mass_kg") is None:
            found.skip(session.names.name(part.id), "mass of one unknown")
        elif part.slug.casefold() in twins:
            found.skip(f"part:{part.slug}", "it counts as the appliance of that name")
        else:
            _part(session, part, found)
    return found


def _appliance(session: Session, item: Item, found: Cargo) -> None:
    name, place = session.names.name(item.id), place_of(session, item)
    if why := _unknown(item.get("mass_kg"), place):
        found.skip(name, why)
    elif place is not None:
        stated, on_hand = item.get("aboard"), item.get("on_hand") is True
        aboard = stated is True or (stated is None and on_hand)
        what = "on hand" if stated is None and on_hand else "appliance"
        found.put(name, what, item.fields["mass_kg"], place, aboard=aboard)


def _tank(session: Session, item: Item, found: Cargo) -> None:
    """The empty tank, what is in it now, and as planned what fills it up."""
    name, place = session.names.name(item.id), place_of(session, item)
    if place is None:
        found.skip(name, "no station")
        return
    aboard = item.get("aboard") is True
    if item.get("mass_kg") is None:
        found.skip(name, "mass of the empty tank unknown")
    else:
        found.put(name, "empty", item.fields["mass_kg"], place, aboard=aboard)
    full_kg, kg_per_l = _contents(item)
    if full_kg is None:
        found.skip(name, "mass of what it holds unknown")
        return
    in_it_l = item.get("contents_l")
    if aboard and in_it_l is None:
        found.skip(name, "contents_l unknown, so counted as empty now and full as planned")
    if aboard and in_it_l and kg_per_l is None:
        found.skip(name, "capacity_l unknown, so what is in it now is not counted")
    now_kg = min(in_it_l * kg_per_l, full_kg) if aboard and in_it_l and kg_per_l else 0.0
    if now_kg:
        found.put(name, f"{plain(in_it_l)} l in it", now_kg, place, aboard=True)
    if full_kg > now_kg:
        found.put(name, "filled up", full_kg - now_kg, place, aboard=False)


def _contents(tank: Item) -> tuple[float | None, float | None]:
    """What a tank holds when full (kg) and what a litre of it weighs (kg), where known."""
    capacity_l, full_kg = tank.get("capacity_l"), tank.get("full_kg")
    if tank.get("holds") in WATER:
        litre_kg = water_kg_per_l()
        return (None if capacity_l is None else capacity_l * litre_kg), litre_kg
    return full_kg, (full_kg / capacity_l if full_kg is not None and capacity_l else None)


def _part(session: Session, part: Item, found: Cargo) -> None:
    """What is used of a part, what lies in the vehicle, and what the build needs besides."""
    name, build = session.names.name(part.id), session.build
    one_kg, home = float(part.fields["mass_kg"]), place_of(session, part)
    unit = str(part.get("unit", "each"))
    used, loose, elsewhere = build.used.get(part.id, 0.0), 0.0, 0.0
    for where, lot in lots_of(build, part).items():
        place = _place_called(session, where)
        if place is None:
            elsewhere += lot.quantity or 0.0
        elif lot.quantity is None:
            found.skip(name, f"how much lies at {where} is unknown")
        elif lot.quantity:
            loose += lot.quantity
            what = f"{plain(lot.quantity)} {unit} at {where}"
            found.put(name, what, lot.quantity * one_kg, place, aboard=True)
    needed = part.get("needed")
    to_come = max(0.0, needed - used - loose) if needed is not None else 0.0
    if home is None:
        if used or to_come:
            found.skip(name, "no station")
        found.unplaced_used_kg += used * one_kg
        found.unplaced_later_kg += to_come * one_kg
        return
    if used:
        found.put(name, f"{plain(used)} {unit} used", used * one_kg, home, aboard=True)
    if to_come:
        what = f"{plain(to_come)} {unit} to be used"
        found.put(name, what, to_come * one_kg, home, aboard=False)
    if needed is None and elsewhere:
        found.skip(name, f"{plain(elsewhere)} {unit} out of the vehicle, and needed is unknown")


def _place_called(session: Session, where: str) -> Place | None:
    """The place of the bay, zone or other item that a lot's place is called after."""
    try:
        return place_of(session, session.names.find(where))
    except BadInput:
        return None


def _unknown(mass_kg: float | None, place: Place | None) -> str:
    missing = [
        words
        for words, known in (("no mass", mass_kg is not None), ("no station", place is not None))
        if not known
    ]
    return ", ".join(missing)
