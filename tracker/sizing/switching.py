"""Conductors and travellers for a load switched from one, two or three places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.sizing.result import Figure, OutOfRange, Result
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, version

MOST_PLACES = 3
TRAVELLERS = 2
"""Between any two neighbouring switches of one load."""

OWN_RANGE = "what a vehicle needs"
INPUTS = (
    Input("places", "--places", "places the load is switched from", type="whole", low=1,
          high=MOST_PLACES, default=1, why="one, two or three places"),
    Input("segment", "--segment", "lengths in order: source to switch, switch to switch, to load",
          type="text", repeated=True),
    Input("return_path", "--return", "along the switches, straight from the load, or the chassis",
          type="choice", choices=("along", "straight", "chassis"), default="along"),
    Input("straight_m", "--straight", "length from the load straight back to the source", "m",
          low=0.05, high=200, why=OWN_RANGE),
    Input("spare", "--spare", "spare conductors in every segment", type="whole", low=0, high=10,
          default=0, why=OWN_RANGE),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Stretch:
    """One segment between two points of the circuit.

    Parameters
    ----------
    name: from where to where.
    switched: conductors that carry the feed or the switched line.
    travellers: conductors between two switches.
    back: conductors of the return.
    spare: conductors laid and not used.
    """

    name: str
    switched: int
    travellers: int
    back: int
    spare: int

    @property
    def conductors(self) -> int:
        """All of them."""
        return self.switched + self.travellers + self.back + self.spare


def stretches(places: int, along: bool, spare: int = 0) -> list[Stretch]:
    """The segments of a circuit, from the source to the load.

    Parameters
    ----------
    places: switches, 1 or more.
    along: does the return pass by the switches?
    spare: conductors more in each.
    """
    back = 1 if along else 0
    found = [Stretch("source to switch 1", 1, 0, back, spare)]
    for number in range(1, places):
        name = f"switch {number} to switch {number + 1}"
        found.append(Stretch(name, 0, TRAVELLERS, back, spare))
    found.append(Stretch(f"switch {places} to load", 1, 0, back, spare))
    return found


def switching(
    places: int = 1,
    segment: Sequence[str] = (),
    return_path: str = "along",
    straight_m: float | None = None,
    spare: int = 0,
) -> Result:
    """Conductors and travellers, segment by segment, and the metres of wire they take.

    Formula
    -------
    One place: 1 feed and 1 switched conductor. More: two travellers between each neighbouring
    pair of switches, 2 (n - 1) in all; the return is one conductor more wherever it passes. The
    switches have 2^n positions together.

    Parameters
    ----------
    places: places the load is switched from [-].
    segment: lengths with units in order, one more than places; may be left out [-].
    return_path: along the switches, straight from the load, or the chassis [-].
    straight_m: length from the load straight back to the source [m].
    spare: spare conductors in every segment [-].

    Returns
    -------
    Result with travellers, the conductors of each segment and, where lengths are known, wire_m.

    Valid
    -----
    places: 1..3
    straight_m: 0.05..200
    spare: 0..10

    Source
    ------
    A binary analysis of two-way and intermediate switches (exploringbinary.com); wiring guides.

    Example
    -------
    Three places: two travellers from switch 1 to 2 and two from 2 to 3, four in all, 8 positions.
    """
    guard(
        INPUTS,
        places=places,
        return_path=return_path,
        straight_m=straight_m,
        spare=spare,
    )
    parts = stretches(places, return_path == "along", spare)
    lengths = [_length(text) for text in segment]
    if lengths and len(lengths) != len(parts):
        names = ", ".join(part.name for part in parts)
        raise BadInput(f"{len(lengths)} lengths given, but there are {len(parts)}: {names}")
    if return_path == "straight" and lengths and straight_m is None:
        raise BadInput("a straight return needs its length: --straight")
    if return_path != "straight" and straight_m is not None:
        raise BadInput("--straight goes with '--return straight' alone")
    travellers = sum(part.travellers for part in parts)
    most = max(part.conductors for part in parts)
    figures = [
        Figure("travellers", travellers, "", "in all segments"),
        Figure("most_conductors", most, "", "in any one segment"),
        Figure("positions", 2**places, "", "of all switches together"),
        Figure("end_switches", 0 if places == 1 else 2, "", "two-way (SPDT), one at each end"),
        Figure("middle_switches", max(0, places - 2), "", "intermediate, between them"),
    ]
    figures += [
        Figure(f"conductors_{number}", part.conductors, "", part.name)
        for number, part in enumerate(parts, 1)
    ]
    working = [_said(part) for part in parts]
    if lengths:
        wire_m = sum(m * part.conductors for m, part in zip(lengths, parts, strict=True))
        traveller_m = sum(m * part.travellers for m, part in zip(lengths, parts, strict=True))
        back_m = straight_m or 0.0
        # The chassis and its bonds are no wire of this circuit.
        path_m = sum(lengths) + (0.0 if return_path == "chassis" else back_m or sum(lengths))
        figures += [
            Figure("wire_m", wire_m + back_m, "m", "single conductor to lay, without leads"),
            Figure("traveller_m", traveller_m, "m", "of it travellers"),
            Figure("loop_m", path_m, "m", "conductor the current passes through"),
        ]
        working.append(
            " + ".join(
                f"{m:g} m x {part.conductors}" for m, part in zip(lengths, parts, strict=True)
            )
            + (f" + {back_m:g} m straight back" if back_m else "")
            + f" = {wire_m + back_m:.4g} m of single conductor"
        )
    cautions = [
        "Leads, slack and the protective conductor of mains circuits are not in these figures.",
        "Switch the positive (or line) side, never the return; check each switch for the load's "
        "current at DC.",
    ]
    if return_path == "chassis":
        cautions.append("Check that the maker and the local code let the chassis carry current.")
    kinds = "one switch" if places == 1 else f"{places} switches, {travellers} travellers"
    return Result(
        f"{kinds}; at most {most} conductors in a segment",
        tuple(figures),
        "two travellers between neighbouring switches" if places > 1 else "one switched conductor",
        tuple(working),
        (),
        (
            source("switching", "binary"),
            source("switching", "guides"),
        ),
        tuple(cautions),
        version("switching"),
    )


def _said(part: Stretch) -> str:
    words = [
        f"{count} {name}"
        for count, name in (
            (part.switched, "feed" if part.name.startswith("source") else "switched"),
            (part.travellers, "travellers"),
            (part.back, "return"),
            (part.spare, "spare"),
        )
        if count
    ]
    return f"{part.name}: {' + '.join(words)} = {part.conductors}"


def _length(text: str) -> float:
    try:
        metres = parse(text, "m")
    except BadInput as error:
        raise BadInput(f"--segment: {error}") from None
    if not 0.05 <= metres <= 200:
        raise OutOfRange("--segment", metres, 0.05, 200, "m", OWN_RANGE)
    return metres


HELPER = Helper(
    "switching",
    "conductors and travellers for one to three switches",
    INPUTS,
    switching,
    """\
  closein size switching --places 2
  closein size switching --places 3 --segment 2m --segment 3m --segment 4m --segment 1.5m
  closein size switching --places 2 --segment 6ft --segment 9ft --segment 4ft --return chassis""",
    {"run": {"conductors": "most_conductors"}, "part": {"needed": "wire_m"}},
)
