"""Writing down as it happens: notes, conditions, what becomes of a line in the inbox."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Fact, short_id
from tracker.app.session import Intent
from tracker.build import log
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.errors import BadInput, UnknownName
from tracker.quantity import parse


def note(text: str, on: Sequence[str] = ()) -> Intent:
    """Write a note, about the items named perhaps."""

    def intent(build: Build) -> Sequence[Fact]:
        about = Names(build).expand(on) if on else []
        return [log.note(clean(text), tuple(item.id for item in about))]

    return intent


def condition(
    *,
    zone: str | None = None,
    surface: str | None = None,
    air: str | None = None,
    humidity: str | None = None,
    margin: str | None = None,
    rain: bool | None = None,
) -> Intent:
    """Record conditions; the dew-point margin follows from the other three where it is not given.

    Parameters
    ----------
    zone: the zone they were read in, or None for the whole vehicle.
    surface, air: temperatures as typed, such as ``8C`` or ``46F``.
    humidity: such as ``70%``.
    margin: surface minus dew point, such as ``2.5K``.
    rain: was it raining?
    """

    def intent(build: Build) -> Sequence[Fact]:
        where = Names(build).find(zone, ("zone",), "zone").id if zone else ""
        surface_c = _reading("surface", surface, "C")
        air_c = _reading("air", air, "C")
        humidity_pct = _reading("humidity", humidity, "%")
        over_k = _reading("margin", margin, "K")
        if over_k is None and None not in (surface_c, air_c, humidity_pct):
            from tracker.sizing.dewpoint import margin_k

            over_k = margin_k(float(surface_c or 0), float(air_c or 0), float(humidity_pct or 0))
        return [log.condition(where, surface_c, air_c, humidity_pct, over_k, rain)]

    return intent


def _reading(name: str, text: str | None, unit: str) -> float | None:
    if text is None:
        return None
    try:
        return parse(text, unit)
    except BadInput as error:
        raise BadInput(f"{name}: {error}") from None


def short_ref(ref: str) -> str:
    """What people call an inbox line: the short form of its act, and its place in it if not 0."""
    act, _, index = ref.rpartition("/")
    return short_id(act) if index == "0" else f"{short_id(act)}/{index}"


def find_line(build: Build, ref: str) -> str:
    """The waiting inbox line that ``ref`` means, by its short or its whole name."""
    waiting = {short_ref(line.ref): line for line in build.inbox.values() if line.sorted is None}
    wanted = ref.strip().casefold()
    for short, line in waiting.items():
        if wanted in (short, line.ref):
            return line.ref
    raise UnknownName("waiting line", clean(ref), waiting)


def keep_as_note(ref: str) -> Intent:
    """A line of the inbox becomes a note."""

    def intent(build: Build) -> Sequence[Fact]:
        line = build.inbox[find_line(build, ref)]
        return [log.note(line.text), log.sort_inbox(build, line.ref, "a note")]

    return intent


def drop(ref: str) -> Intent:
    """A line of the inbox means nothing after all; its record stays."""
    return lambda build: [log.sort_inbox(build, find_line(build, ref), "dropped")]
