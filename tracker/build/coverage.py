"""What a hold point covers: which checks of which subjects, in which zone."""

from __future__ import annotations

from tracker.build.item import VEHICLE, Item, as_list
from tracker.build.state import Build, PointKey

WHOLE = ""
"""The zone of a hold point that is released for the whole vehicle at once."""


class Coverage:
    """The layout of one state of a build: bays, zones, hold points in order. Made once a view."""

    def __init__(self, build: Build) -> None:
        self.build = build
        items = build.items.values()
        self.vehicle = build.items.get(VEHICLE)
        self.by_kind: dict[str, list[Item]] = {}
        for item in items:
            if item.removed is None and self.fits_vehicle(item):
                self.by_kind.setdefault(item.kind, []).append(item)
        self.bays = self.by_kind.get("bay", [])
        self.zones = self.by_kind.get("zone", [])
        self.bay_order = {bay.id: index for index, bay in enumerate(self.bays)}
        self.zone_bays = {zone.id: set(as_list(zone.get("bay"))) for zone in self.zones}
        self.zoned = set().union(*self.zone_bays.values())
        phases = {item.id: item.get("order", 99) for item in self.by_kind.get("phase", [])}
        holds = self.by_kind.get("holdpoint", [])
        self.holds = sorted(holds, key=lambda hold: phases.get(hold.get("phase"), 99))
        self.hold_rank = {hold.id: rank for rank, hold in enumerate(self.holds)}
        self._bays: dict[str, list[str]] = {}
        self._zones: dict[str, set[str]] = {}
        self._users: dict[str, list[Item]] | None = None
        self._subjects: dict[str, list[Item]] = {}
        self.buried_by: dict[str, str] = {}
        for hold in self.holds:
            for kind in hold.get("buries", ()):
                self.buried_by.setdefault(kind, hold.id)

    def fits_vehicle(self, item: Item) -> bool:
        """Is a check or task meant for this vehicle? Where the vehicle does not say, it is.

        A template states it as ``vehicle = {body = [...]}``: a body without ribs, or a trailer
        without an engine, is not asked about them.
        """
        asked = item.get("vehicle") if item.kind in ("check", "task") else None
        if not isinstance(asked, dict) or self.vehicle is None:
            return True
        return all(
            (stated := self.vehicle.get(name)) is None
            or stated in (wanted if isinstance(wanted, list) else [wanted])
            for name, wanted in asked.items()
        )

    def needs(self, task: Item) -> list[str]:
        """The ids of what comes before a task on this vehicle.

        In place of a task that is not meant for it stands what would have come before that one.
        """
        found: dict[str, None] = {}
        seen: set[str] = set()
        queue = list(reversed(as_list(task.get("needs"))))
        while queue:
            identifier = queue.pop()
            need = self.build.items.get(identifier)
            if need is None or self.fits_vehicle(need):
                found[identifier] = None
            elif identifier not in seen:
                seen.add(identifier)
                queue += reversed(as_list(need.get("needs")))
        return list(found)

    def bays_of(self, item: Item) -> list[str]:
        """The ids of the bays an item lies in, in walking order; empty where nobody knows."""
        known = self._bays.get(item.id)
        if known is None:
            known = self._bays[item.id] = self._find_bays(item)
        return known

    def _find_bays(self, item: Item) -> list[str]:
        if item.kind == "bay":
            return [item.id]
        stated = [bay for bay in as_list(item.get("bay")) if bay in self.bay_order]
        if stated:
            return sorted(stated, key=self.bay_order.__getitem__)
        face, station = item.get("face"), item.get("station_m")
        if face is None or station is None:
            return []
        return [
            bay.id
            for bay in self.bays
            if bay.get("face") == face
            and bay.get("station_m") is not None
            and bay.get("to_m") is not None
            and bay.fields["station_m"] <= station < bay.fields["to_m"]
        ]

    def in_zone(self, item: Item, zone: str) -> bool:
        """Does an item lie in a zone? One that nobody has placed lies in all of them.

        So does one in a bay that belongs to no zone: nothing is covered by no zone at all.
        """
        if zone == WHOLE:
            return True
        if item.kind == "zone":
            return item.id == zone
        known = self._zones.get(item.id)
        if known is None:
            bays = self.bays_of(item)
            anywhere = not bays or any(bay not in self.zoned for bay in bays)
            known = self._zones[item.id] = {
                each
                for each, own in self.zone_bays.items()
                if anywhere or any(bay in own for bay in bays)
            }
        return zone in known

    def users_of(self, part: str) -> list[Item]:
        """The tasks and checks whose templates name a part, by the part's short name."""
        if self._users is None:
            self._users = {}
            for kind in ("task", "check"):
                for item in self.by_kind.get(kind, []):
                    for name in {row["part"] for row in item.get("parts", ())}:
                        self._users.setdefault(name, []).append(item)
        return self._users.get(part, [])

    def zone_keys(self, hold: Item) -> list[str]:
        """The zones a hold point is released in: the named zones, or the whole vehicle."""
        if hold.get("buries") and self.zones:
            return [zone.id for zone in self.zones]
        return [WHOLE]

    def buried_at(self, item: Item) -> str | None:
        """The id of the hold point that buries an item, 'none' where it stays in reach."""
        stated = item.get("covered_by")
        if stated:
            return str(stated)
        return self.buried_by.get(item.kind)

    def applies(self, check: Item, subject: Item) -> bool:
        """Is this check due on this subject before the check's hold point?

        An item of which somebody said that a later hold point buries it, or none, is not due
        before the earlier ones.
        """
        if not self.fits_vehicle(check):
            return False
        where = check.get("where")
        if where and not all(
            subject.get(name, "unknown") in (value if isinstance(value, list) else [value])
            for name, value in where.items()
        ):
            return False
        stated = subject.get("covered_by")
        if not stated:
            return True
        rank = self.hold_rank.get(str(stated))
        return rank is not None and rank <= self.hold_rank.get(check.get("before"), 99)

    def subjects(self, check: Item) -> list[Item]:
        """The subjects of a check, in the order they were added."""
        known = self._subjects.get(check.id)
        if known is None:
            known = self._subjects[check.id] = self._find_subjects(check)
        return known

    def _find_subjects(self, check: Item) -> list[Item]:
        each = check.get("each", "once")
        if not self.fits_vehicle(check):
            return []
        if each == "once" or (each == "zone" and not self.zones):
            return [self.vehicle] if self.vehicle else []
        return [item for item in self.by_kind.get(each, []) if self.applies(check, item)]

    def checks(self, hold: Item) -> list[Item]:
        """The checks that come before a hold point."""
        return [check for check in self.by_kind.get("check", []) if check.get("before") == hold.id]

    def points(self, hold: Item, zone: str = WHOLE) -> list[tuple[Item, Item]]:
        """Every (check, subject) that a hold point covers in a zone."""
        return [
            (check, subject)
            for check in self.checks(hold)
            for subject in self.subjects(check)
            if self.in_zone(subject, zone)
        ]

    def keys(self, hold: Item, zone: str = WHOLE) -> list[PointKey]:
        """The names of the points that a hold point covers in a zone."""
        return [(check.id, subject.id) for check, subject in self.points(hold, zone)]

    def covered_items(self, hold: Item, zone: str) -> list[Item]:
        """The items that are buried when a hold point is closed in a zone, kind by kind."""
        return [
            item
            for items in self.by_kind.values()
            for item in items
            if self.buried_at(item) == hold.id and self.in_zone(item, zone)
        ]
