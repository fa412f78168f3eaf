"""Limits of measured checks: what number is good, and where that number comes from."""

from __future__ import annotations

from typing import Any, NamedTuple

from tracker.build.item import Item
from tracker.build.unsaid import default_of

TAIL_M = 0.31
"""Tail past the finished face where a run states none, metres: 12 in rounded up. Common practice,
no source; the house minimum of 6 in (NEC 300.14, from memory, unverified) is less."""


class Limit(NamedTuple):
    """The limit of a check for one subject, in ``unit``.

    Parameters
    ----------
    unit: unit of all three numbers and of the answer.
    low, high: a good value lies from low to high; None is no bound.
    sign_low: from here to ``low`` a value is good only when a second person signs a reason.
    missing: what must be known first, or None; then the limit can't be told.
    working: how the number came about, or ''.
    profile: the fields of the vehicle's profile that it rests on, on which sources disagree.
    """

    unit: str
    low: float | None = None
    high: float | None = None
    sign_low: float | None = None
    missing: str | None = None
    working: str = ""
    profile: tuple[str, ...] = ()

    @property
    def sources(self) -> tuple[str, ...]:
        """Where sources disagree on it, what each says."""
        return tuple(dict.fromkeys(each for name in self.profile for each in _sources_of(name)))

    def __str__(self) -> str:
        """What people read, such as 'at least 0.35 m'."""
        if self.missing:
            return f"unknown until {self.missing} is known"
        parts = []
        if self.low is not None:
            parts.append(f"at least {self.low:g} {self.unit}")
        if self.high is not None:
            parts.append(f"at most {self.high:g} {self.unit}")
        text = " and ".join(parts)
        if self.sign_low is not None:
            text += f" (from {self.sign_low:g} with a second name and a reason)"
        return text + (f" = {self.working}" if self.working else "")

    def seen(self) -> list[float | None]:
        """The numbers alone, as an answer remembers them."""
        return [self.low, self.high, self.sign_low]


def limit_of(check: Item, subject: Item, vehicle: Item | None) -> Limit | None:
    """The limit of a check for a subject; None for a check that asks for no number.

    A check's own fields ``limit_min`` and ``limit_max`` go before those of its template.
    """
    stated: dict[str, Any] | None = check.get("limit")
    if stated is None:
        return None
    if stated.get("function") == "lead_from_rib":
        low, working, missing = lead_from_rib(subject, vehicle)
        bounds = {"min": Bound(low, missing, working), "max": Bound()}
    else:
        bounds = {end: _bound(stated, end, subject, vehicle) for end in ("min", "max")}
    for end in bounds:
        if check.get(f"limit_{end}") is not None:
            bounds[end] = Bound(check.get(f"limit_{end}"))
    least, most = bounds["min"], bounds["max"]
    return Limit(
        str(stated.get("unit", "")),
        least.value,
        most.value,
        stated.get("sign_min"),
        least.missing or most.missing,
        " and ".join(filter(None, (least.working, most.working))),
        (*least.profile, *most.profile),
    )


class Bound(NamedTuple):
    """One end of a limit: its number, or what is missing; how it came about; on what it rests."""

    value: float | None = None
    missing: str | None = None
    working: str = ""
    profile: tuple[str, ...] = ()


def _bound(stated: dict[str, Any], end: str, subject: Item, vehicle: Item | None) -> Bound:
    """The end ``min`` or ``max`` of a limit as its template states it.

    It is a number, or the name of a field: of the subject, or of the vehicle's profile.
    """
    if f"{end}_field" in stated:
        return Bound(*_stated_by(subject, stated[f"{end}_field"]))
    if f"{end}_profile" in stated:
        name = stated[f"{end}_profile"]
        value = vehicle.get(name) if vehicle else None
        where = f"{name} of the vehicle"
        if value is None:
            return Bound(None, where, "", (name,))
        return Bound(float(value), None, where, (name,))
    return Bound(stated.get(end))


def _sources_of(name: str) -> tuple[str, ...]:
    from tracker.build.kinds import kinds  # a long table, read only where somebody asks

    field = kinds()["vehicle"].fields.get(name)
    return field.sources if field is not None else ()


def _stated_by(subject: Item, name: str) -> tuple[float | None, str | None]:
    """A number that the subject's own field gives, or its kind's default; else what is missing."""
    value = subject.get(name)
    if value is None:
        value = default_of(subject.kind, name)
    return (None, f"{name} of {subject.slug}") if value is None else (float(value), None)


def lead_from_rib(subject: Item, vehicle: Item | None) -> tuple[float | None, str, str | None]:
    """The lead a run needs, measured from the bare rib: (metres, working, what is missing).

    Formula: lead = furring + panel + cabinet + tail, all in metres. Source: common practice, no
    source; the number is shown from the bare rib because that is what can be measured before
    the furring, panel and cabinet are there.
    """
    depths = {
        "furring": vehicle.get("furring_m") if vehicle else None,
        "panel": vehicle.get("panel_m") if vehicle else None,
        "cabinet": subject.get("cabinet_m", 0.0),
        "tail": subject.get("tail_m", TAIL_M),
    }
    for name, depth in depths.items():
        if depth is None:
            return None, "", f"{name}_m of the vehicle"
    working = " + ".join(f"{name} {depth:g}" for name, depth in depths.items())
    return round(sum(depths.values()), 4), working, None


def judge(limit: Limit, value: float, second: str | None, why: str | None) -> str:
    """Is a measured value good? 'good', 'bad', or 'unknown' while the limit can't be told.

    Parameters
    ----------
    value: in the limit's unit.
    second, why: the second person and reason that a value in the sign-off band needs.
    """
    if limit.missing:
        return "unknown"
    if limit.high is not None and value > limit.high:
        return "bad"
    if limit.low is None or value >= limit.low:
        return "good"
    signed = bool((second or "").strip() and (why or "").strip())
    if limit.sign_low is not None and value >= limit.sign_low and signed:
        return "good"
    return "bad"
