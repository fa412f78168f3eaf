"""Overall height from what is built up, against a limit; and openings of exits."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.sizing.result import Figure, OutOfRange, Result, Source
from tracker.sizing.spec import Helper, Input, guard
from tracker.sizing.tables import source, table, version

FOOT_M = 0.3048
OWN_RANGE = "road vehicles"
WHERE = (
    "us-east", "us-west", "nebraska-colorado", "alaska", "california", "eu", "canada", "australia",
    "uk",
)  # fmt: skip
EXITS = ("roof", "roof-bus", "window", "rear-door", "bedroom")
INPUTS = (
    Input("part", "--part", "a part of the height, from the road up: 'bus 3.1m', 'deck 95mm'",
          type="text", repeated=True),
    Input("limit_m", "--limit", "height limit of the route", "m", low=1.5, high=6, why=OWN_RANGE),
    Input("where", "--where", "a known limit, where none is given", type="choice", choices=WHERE,
          default="us-east"),
    Input("spare_mm", "--spare", "room to keep under the limit", "mm", low=0, high=500,
          why=OWN_RANGE),
    Input("width_m", "--width", "width over all, mirrors not counted", "m", low=0.5, high=5,
          why=OWN_RANGE),
    Input("exit", "--exit", "an exit: KIND WIDE x HIGH, kinds are " + ", ".join(EXITS),
          type="text", repeated=True),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Opening:
    """An exit's clear opening.

    Parameters
    ----------
    kind: a row of the table.
    wide_mm, high_mm: the clear opening (mm).
    """

    kind: str
    wide_mm: float
    high_mm: float

    def passes(self) -> bool:
        """Is it as large as its row asks? Flat openings may be turned, doors and windows not."""
        row = table("height")["exit"][self.kind]
        wide, high = float(row["wide_mm"]), float(row["high_mm"])
        fits = self.wide_mm >= wide - 1e-6 and self.high_mm >= high - 1e-6
        if self.kind in ("roof", "roof-bus", "window"):
            fits = fits or (self.high_mm >= wide - 1e-6 and self.wide_mm >= high - 1e-6)
        area_ft2 = self.wide_mm * self.high_mm / 1e6 / FOOT_M**2
        return fits and area_ft2 >= row.get("area_ft2", 0.0) - 1e-9


def height(
    part: Sequence[str] = (),
    limit_m: float | None = None,
    where: str = "us-east",
    spare_mm: float | None = None,
    width_m: float | None = None,
    exit: Sequence[str] = (),
) -> Result:
    """Overall height of a build-up and width against limits, exits against openings asked.

    Formula
    -------
    height = sum of parts; margin = limit - height, at least the room to spare.

    Parameters
    ----------
    part: parts of the height from the road up, with their heights [-].
    limit_m: height limit of the route [m].
    where: a known limit, where none is given [-].
    spare_mm: room to keep under the limit [mm].
    width_m: width over all, mirrors not counted [m].
    exit: exits, with kind and clear opening [-].

    Returns
    -------
    Result with height_m, limit_m, margin_mm, width_m and passes, and for each exit whether it
    does.

    Valid
    -----
    limit_m: 1.5..6
    spare_mm: 0..500
    width_m: 0.5..5

    Source
    ------
    Limits as each row says (secondary lists among them); FMVSS 217 and 49 CFR 393.62 for exits of
    buses, IRC R310 for bedrooms of houses; room to spare is common practice, no source.

    Example
    -------
    A bus of 3.10 m with a deck of 0.95 m is 4.05 m: under 13 ft 6 in (4.1148 m) by 65 mm (own
    check by hand).
    """
    guard(INPUTS, limit_m=limit_m, where=where, spare_mm=spare_mm, width_m=width_m)
    if not part and not exit and width_m is None:
        raise BadInput("say what there is: --part 'bus 3.1m', or --exit 'roof 500mm x 500mm'")
    figures: list[Figure] = []
    working: list[str] = []
    others: list[tuple[str, str]] = []
    sources: list[Source] = []
    said: list[str] = []
    passes = True
    governs = "the openings of the exits"
    if part:
        parts = [_part(text) for text in part]
        overall_m = sum(high for _, high in parts)
        if not 0.5 <= overall_m <= 8:
            raise OutOfRange("the height in all", overall_m, 0.5, 8, "m", OWN_RANGE)
        limit, says = (limit_m, "the limit given") if limit_m is not None else known_limit(where)
        spare = spare_mm if spare_mm is not None else float(table("height")["spare"]["mm"])
        margin_mm = 1000 * (limit - overall_m)
        passes = margin_mm >= spare - 1e-6
        figures += [
            Figure("height_m", overall_m, "m", "from the road up"),
            Figure("limit_m", limit, "m", says),
            Figure("margin_mm", margin_mm, "mm", "under the limit"),
            Figure("spare_mm", spare, "mm", "to keep free"),
        ]
        working.append(
            " + ".join(f"{high:.4g} ({name})" for name, high in parts) + f" = {overall_m:.4g} m"
        )
        working.append(f"margin = {limit:.5g} m - {overall_m:.4g} m = {margin_mm:.4g} mm")
        governs = says
        said.append(f"{overall_m:.3f} m, {abs(margin_mm):.3g} mm "
                    f"{'under' if margin_mm >= 0 else 'over'} {limit:.4g} m")  # fmt: skip
        others += [(name, f"{1000 * (m - overall_m):.4g} mm") for name, m in _all_limits()]
        if limit_m is None:
            sources.append(source("height", table("height")["limit"][where]["source"]))
        sources.append(source("height", table("height")["spare"]["source"]))
    if width_m is not None:
        known_m, says, origin = width_limit(where)
        fits = width_m <= known_m + 1e-9
        passes = passes and fits
        figures += [
            Figure("width_m", width_m, "m", "over all"),
            Figure("width_limit_m", known_m, "m", says),
        ]
        working.append(f"width: {known_m:.4g} m - {width_m:.4g} m = "
                       f"{1000 * (known_m - width_m):.4g} mm")  # fmt: skip
        rows = table("height")["width"].values()
        others += [(f"width against {row['says']}", "within" if width_m <= row["m"] + 1e-9 else
                    "wider") for row in rows]  # fmt: skip
        governs = governs if part else says
        said.append(f"{width_m:.3g} m wide, {'within' if fits else 'over'} {known_m:.4g} m")
        sources.append(source("height", origin))
    for number, text in enumerate(exit, 1):
        opening = _opening(text)
        row = table("height")["exit"][opening.kind]
        fits = opening.passes()
        passes = passes and fits
        figures += [
            Figure(f"exit_{number}", opening.kind, "", row["says"]),
            Figure(f"exit_{number}_area_cm2", opening.wide_mm * opening.high_mm / 100, "cm2",
                   "clear opening"),
            Figure(f"exit_{number}_passes", fits, "", "is it as large as asked?"),
        ]  # fmt: skip
        working.append(
            f"{opening.kind}: {opening.wide_mm:.4g} x {opening.high_mm:.4g} mm against "
            f"{row['wide_mm']:g} x {row['high_mm']:g} mm"
            + (f" and {row['area_ft2']:g} ft2" if "area_ft2" in row else "")
        )
        if opening.kind == "bedroom":
            others.append(("its sill at most", f"{row['sill_mm']:.5g} mm"))
            others.append(("at grade a house asks", f"{row['grade_ft2']:g} ft2"))
        said.append(f"{opening.kind} exit {'large enough' if fits else 'too small'}")
        sources.append(source("height", row["source"]))
    figures.append(Figure("passes", passes, "", "are the limit and the exits kept?"))
    return Result(
        "; ".join(said),
        tuple(figures),
        governs,
        tuple(working),
        tuple(others),
        tuple(dict.fromkeys(sources)),
        tuple(_cautions(bool(part), bool(exit), where if limit_m is None else "")),
        version("height"),
    )


def known_limit(where: str) -> tuple[float, str]:
    """A known limit (m) and what it is; the stricter where a place has two."""
    row = table("height")["limit"][where]
    return (float(row["m"]) if "m" in row else float(row["ft"]) * FOOT_M), str(row["says"])


def width_limit(where: str) -> tuple[float, str, str]:
    """The width (m) allowed where the height limit is, what it is, and its source's key.

    Where none was seen the narrowest of those known stands in.
    """
    rows = table("height")["width"]
    group = {"eu": "eu", "canada": "canada", "australia": "", "uk": ""}.get(where, "us")
    row = rows[group] if group else min(rows.values(), key=lambda each: float(each["m"]))
    return float(row["m"]), str(row["says"]), str(row["source"])


def _all_limits() -> list[tuple[str, float]]:
    found = [(f"under {known_limit(where)[1]}", known_limit(where)[0]) for where in WHERE]
    most = table("height")["limit"]["california"]["most_ft"] * FOOT_M
    return [*found, ("under California's 14 ft on suitable highways", most)]


def _part(text: str) -> tuple[str, float]:
    found = re.fullmatch(r"\s*(.*?)\s*(?<!\S)((?:[0-9]|\.[0-9]).*)", text, re.S)
    if found is None:
        raise BadInput(f"--part '{text[:40]}' has no height; write it like 'deck 95mm'")
    try:
        high_m = parse(found[2], "m")
    except BadInput as error:
        raise BadInput(f"--part '{text[:40]}': {error}") from None
    if not 0.0 <= high_m <= 6:
        raise OutOfRange(f"--part: {found[1][:20] or 'the height'}", high_m, 0, 6, "m", OWN_RANGE)
    return " ".join(found[1].split()).rstrip(":") or "part", high_m


def _opening(text: str) -> Opening:
    found = re.fullmatch(r"\s*([a-z-]+)\s+(.+?)\s*[x×*]\s*(.+?)\s*", text.casefold(), re.S)
    if found is None or found[1] not in EXITS:
        raise BadInput(
            f"--exit '{text[:40]}' can't be read; write 'roof 500mm x 500mm', the kind being one "
            f"of {', '.join(EXITS)}"
        )
    sides = []
    for side in (found[2], found[3]):
        unit = re.search(r"[a-z'\"]+\s*$", found[3])
        whole = side if re.search(r"[a-z'\"]\s*$", side) else f"{side} {unit[0] if unit else ''}"
        try:
            sides.append(parse(whole, "mm"))
        except BadInput as error:
            raise BadInput(f"--exit '{text[:40]}': {error}") from None
    for side_mm in sides:
        if not 50 <= side_mm <= 5000:
            raise OutOfRange("--exit: a side of the opening", side_mm, 50, 5000, "mm", OWN_RANGE)
    return Opening(found[1], sides[0], sides[1])


def _cautions(parts: bool, exits: bool, where: str) -> list[str]:
    said = []
    if parts:
        said.append("Measure the finished vehicle, aerials and vents too, tyres hard and empty.")
        said.append(
            "A legal height passes under no low bridge: the signs of your route govern, and fuel "
            "roofs, trees and gates are lower."
        )
        if where == "eu":
            said.append("4.00 m is not written for every van: check the class on your papers.")
    if exits:
        said.append(
            "Two ways out that open from inside in the dark without a tool, never built over; "
            "local rules may ask for larger ones."
        )
    return said


HELPER = Helper(
    "height",
    "overall height and exits, against limits",
    INPUTS,
    height,
    """\
  closein size height --part "bus 3.1m" --part "deck 95mm" --part "panels 45mm" --where eu
  closein size height --part "bus 10ft 6in" --limit "12ft 6in" --exit "roof 20in x 20in" """,
)
