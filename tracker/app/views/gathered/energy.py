"""The loads of a day, from the wire runs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tracker.app.session import Session
from tracker.app.views.gathered import Gathered, listed, plain
from tracker.build.item import Item
from tracker.errors import BadInput

NO_LOADS = {
    "solar": "it brings current",
    "data": "it carries signals",
    "sender": "it carries signals",
    "antenna": "it carries signals",
}
"""Systems whose runs feed no load, and why."""

NEEDED = {"load_a": "current", "volts_v": "voltage", "hours_h": "hours a day"}


def gather_energy(session: Session, typed: Mapping[str, Any]) -> Gathered:
    """A load for every run whose current, voltage and hours a day are known."""
    loads: list[str] = []
    counted: list[tuple[str, str]] = []
    uncounted: list[tuple[str, str]] = []
    for run in session.cover.by_kind.get("run", []):
        name = session.names.name(run.id)
        if why := _why_not(run):
            uncounted.append((name, why))
            continue
        watts = float(run.fields["load_a"]) * float(run.fields["volts_v"])
        words = f"{plain(watts)}W*{plain(run.fields['hours_h'])}h"
        if run.get("system") == "ac":
            words += " ac"
        loads.append(f"{name.replace(':', ' ')}: {words}")
        counted.append((name, words))
    loads += listed(typed.get("load"))
    if not loads:
        raise BadInput(
            "no run has its load_a, volts_v and hours_h known, so there is no load to count; "
            "'closein item change L1 load=0.8A volts=12V hours=5h' tells them, or give --load"
        )
    notes = ("a run's current is taken for all of its hours; what idles needs fewer hours",)
    return Gathered(
        {**typed, "load": loads}, tuple(counted), tuple(uncounted), notes if counted else ()
    )


def _why_not(run: Item) -> str:
    """Why a run is not counted; '' where it is."""
    if why := NO_LOADS.get(str(run.get("system"))):
        return why
    if run.get("hours_h") == 0:
        return "0 hours a day: it feeds other runs, or nothing"
    unknown = [words for name, words in NEEDED.items() if run.get(name) is None]
    if unknown:
        return f"{', '.join(unknown)} unknown"
    return "" if run.fields["load_a"] * run.fields["volts_v"] >= 0.01 else "it carries no current"
