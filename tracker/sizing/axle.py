"""What the axles and the left wheels carry, and how far a weigh slip is from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tracker.sizing.mass import Mass
from tracker.sizing.result import Figure


@dataclass(frozen=True, slots=True)
class Loads:
    """What the axles and the left wheels carry.

    Parameters
    ----------
    front_kg, rear_kg: on each axle; an item far out can lighten one below nothing.
    left_kg: on the left wheels.
    """

    front_kg: float
    rear_kg: float
    left_kg: float

    @property
    def total_kg(self) -> float:
        """In all (kg)."""
        return self.front_kg + self.rear_kg

    def carrying(
        self,
        things: Sequence[Mass],
        front_axle_m: float,
        wheelbase_m: float,
        track_m: float | None,
    ) -> Loads:
        """These loads with more things aboard, by moments about the front axle."""
        more = sum(each.mass_kg for each in things)
        rear = sum(
            on_rear_kg(each.mass_kg, each.station_m - front_axle_m, wheelbase_m) for each in things
        )
        left = sum(each.left_kg(track_m) for each in things)
        return Loads(self.front_kg + more - rear, self.rear_kg + rear, self.left_kg + left)


def on_rear_kg(mass_kg: float, behind_front_m: float, wheelbase_m: float) -> float:
    """What the rear axle carries (kg) of a mass so far behind the front axle: m x / wheelbase."""
    return mass_kg * behind_front_m / wheelbase_m


@dataclass(frozen=True, slots=True)
class Slip:
    """What a scale showed (kg); None for what was not weighed."""

    front_kg: float | None = None
    rear_kg: float | None = None
    total_kg: float | None = None
    left_kg: float | None = None

    @property
    def whole_kg(self) -> float | None:
        """In all, by both axles where that was not weighed by itself."""
        if self.total_kg is None and self.front_kg is not None and self.rear_kg is not None:
            return self.front_kg + self.rear_kg
        return self.total_kg

    def weighed(self, name: str) -> float | None:
        """What the scale showed (kg) where a rating is: front, rear or gross."""
        return {"front": self.front_kg, "rear": self.rear_kg, "gross": self.whole_kg}[name]

    def over_kg(self, ratings: Mapping[str, float | None]) -> dict[str, float]:
        """By how much (kg) the scale showed more than a rating, for each that it did."""
        over = {}
        for name, rating in ratings.items():
            weighed = self.weighed(name)
            if rating is not None and weighed is not None and weighed > rating:
                over[name] = weighed - rating
        return over

    def off(self, now: Loads) -> list[Figure]:
        """How far the slip is from the estimate, by what was weighed."""
        found = []
        for name, slip, estimate in (
            ("front", self.front_kg, now.front_kg),
            ("rear", self.rear_kg, now.rear_kg),
            ("total", self.whole_kg, now.total_kg),
            ("left", self.left_kg, now.left_kg),
        ):
            if slip is not None:
                meaning = f"{name}: slip less the estimate"
                found.append(Figure(f"slip_{name}_off_kg", slip - estimate, "kg", meaning))
        if self.whole_kg is not None:
            off = 100 * (self.whole_kg - now.total_kg) / now.total_kg
            found.append(Figure("slip_off_percent", off, "%", "slip against the estimate, in all"))
        return found

    def said(self, now: Loads) -> list[tuple[str, str]]:
        """The same in words, in all or where only a part was weighed by that; [] for no slip."""
        if self.whole_kg is not None:
            off = self.whole_kg - now.total_kg
            words = f"{_more(off)} in all, {abs(100 * off / now.total_kg):.2g} %"
            return [("the weigh slip, against the estimate", words)]
        parts = [
            f"{_more(slip - estimate)} {where}"
            for slip, estimate, where in (
                (self.front_kg, now.front_kg, "on the front axle"),
                (self.rear_kg, now.rear_kg, "on the rear axle"),
                (self.left_kg, now.left_kg, "on the left"),
            )
            if slip is not None
        ]
        return [("the weigh slip, against the estimate", ", ".join(parts))] if parts else []


def _more(off_kg: float) -> str:
    return f"{abs(off_kg):.4g} kg {'more' if off_kg >= 0 else 'less'}"
