"""The fuse or breaker for a conductor: its rating, what it must interrupt, where it must sit."""

from __future__ import annotations

from tracker.sizing.result import Source
from tracker.sizing.tables import source, table

INCH_MM = 25.4


def ratings_a(rules: str) -> list[float]:
    """The ratings there are, the smallest first."""
    tables = table("protection")
    if rules == "nec310":
        return [float(rating) for rating in tables["nec"]["rating_a"]]
    return [
        float(rating)
        for group in ("vehicle", "vehicle-large")
        for rating in tables[group]["rating_a"]
    ]


def rating_sources(rules: str, rating_a: float | None) -> list[Source]:
    """Where a rating is listed."""
    tables = table("protection")
    if rules == "nec310":
        return [source("protection", tables["nec"]["source"])]
    large = rating_a is not None and rating_a in tables["vehicle-large"]["rating_a"]
    group = "vehicle-large" if large else "vehicle"
    return [source("protection", tables[group]["source"])]


def continuous_factor() -> float:
    """How much more than a continuous load its device and conductor must carry."""
    return float(table("protection")["continuous"]["factor"])


def device_a(rules: str, at_least_a: float, at_most_a: float) -> float | None:
    """The smallest rating from one current to another; None when there is none."""
    for rating in ratings_a(rules):
        if rating >= at_least_a * (1 - 1e-9):
            return rating if rating <= at_most_a * (1 + 1e-9) else None
    return None


def most_below_50_v_a(ampacity_a: float) -> float:
    """The largest device 33 CFR 183.455(c)(1) lets pass below 50 V for a table ampacity (A)."""
    return float(table("protection")["low-voltage"]["most_share"]) * ampacity_a


def next_up_a(rules: str, ampacity_a: float) -> float | None:
    """The next rating up from an ampacity, where it is at most 150 % of it; None where not."""
    above = [rating for rating in ratings_a(rules) if rating >= ampacity_a]
    return above[0] if above and above[0] <= most_below_50_v_a(ampacity_a) else None


def within_mm(rules: str) -> float:
    """How near to the source, along the conductor, the device must sit (mm)."""
    tables = table("protection")
    if rules == "nec310":
        return float(tables["place-nec"]["within_in"]) * INCH_MM
    return float(tables["place"]["bare_in"]) * INCH_MM


def where_it_sits(rules: str) -> tuple[str, list[Source]]:
    """The rule on where the device must sit, in words, with its sources."""
    tables = table("protection")
    if rules == "nec310":
        inches = tables["place-nec"]["within_in"]
        words = f"within {inches:g} in ({inches * INCH_MM:.0f} mm) of where the supply connects"
        return words, [source("protection", tables["place-nec"]["source"])]
    near, far = tables["place"]["bare_in"], tables["place"]["sheathed_in"]
    battery = tables["place-battery"]["sheathed_in"]
    words = (
        f"at the source: within {near:g} in ({near * INCH_MM:.0f} mm) along the conductor, within "
        f"{far:g} in ({far * INCH_MM:.0f} mm) if it is in a sheath all the way where nearer can't "
        f"be done; from a battery post ABYC is said to let {battery:g} in pass in a sheath"
    )
    places = [tables["place"]["source"], tables["place-battery"]["source"]]
    return words, [source("protection", key) for key in places]


def interrupt_a(cranking_a: float) -> float:
    """What the device must interrupt, by the bank's total cold cranking amps (A)."""
    group = table("protection")["interrupt"]
    for to_a, breaks_a in zip(group["cranking_to_a"], group["interrupt_a"], strict=False):
        if cranking_a <= to_a:
            return float(breaks_a)
    return float(group["interrupt_a"][-1])


def blade_interrupt_a() -> float:
    """What a blade fuse interrupts (A)."""
    return float(table("protection")["blade-interrupt"]["interrupt_a"])


def bundling_from_v() -> float:
    """From this voltage on the regulation itself asks for the bundle factors (V)."""
    return float(table("protection")["low-voltage"]["below_v"])
