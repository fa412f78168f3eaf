"""``closein size HELPER --from-build``: inputs taken from the build, and what was not counted."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from tracker.cli.desk import Desk
from tracker.errors import BadInput

if TYPE_CHECKING:
    from tracker.app.session import Session
    from tracker.app.views.gathered import Gathered

OFFERED = {
    "weight": "take the vehicle, its weigh slips and what is aboard from the build",
    "energy": "take a load from each run with its current, volts and hours a day",
    "foam": "take areas and depths from the bays, less their openings",
}
"""The helpers that a build can feed, and what they take."""

MOST_NAMES = 12
"""Names said for one reason; ``--json`` gives all."""


def options(parser: argparse.ArgumentParser, helper: str) -> None:
    """Give a helper's parser its ``--from-build``, where a build can feed it."""
    if helper not in OFFERED:
        return
    parser.add_argument("--from-build", action="store_true", help=OFFERED[helper])
    if helper == "foam":
        parser.add_argument("--zone", metavar="Z", help="with --from-build: only this zone's bays")


def gathered(session: Session, helper: str, typed: Mapping[str, Any], zone: str | None) -> Gathered:
    """What a helper takes from the build and what was typed besides."""
    from tracker.app.views.gathered import gather

    return gather(session, helper, typed, zone=zone)


def refuse_zone(args: argparse.Namespace) -> None:
    """A zone says nothing where no bays are taken."""
    if getattr(args, "zone", None) and not args.from_build:
        raise BadInput("--zone goes with --from-build alone")


def show(desk: Desk, found: Gathered) -> None:
    """What was counted, what was not, and what else to know of it."""
    desk.say(f"  from the build: {len(found.counted)} counted, {len(found.uncounted)} not")
    desk.table([[f"    {name}", words] for name, words in found.counted])
    names_by_reason: dict[str, list[str]] = {}
    for name, why in found.uncounted:
        names_by_reason.setdefault(why, []).append(name)
    for why, names in names_by_reason.items():
        more = f" and {len(names) - MOST_NAMES} more" if len(names) > MOST_NAMES else ""
        said = f"{why}: {', '.join(names[:MOST_NAMES])}{more}"
        desk.wrapped(said, "      ", "    not counted, ")
    for note in found.notes:
        desk.wrapped(note, "      ", "    note: ")
