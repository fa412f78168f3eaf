"""What a sizing helper takes from a build: its inputs, and what could not be counted and why.

The helpers know no build, so what they take from one is put together here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from tracker.app.session import Session
from tracker.errors import BadInput

GATHERED = ("weight", "energy", "foam")
"""The helpers whose inputs a build can give."""


@dataclass(frozen=True, slots=True)
class Gathered:
    """Inputs for a helper.

    Parameters
    ----------
    typed: input's name -> text, as people would type it; with what they did type, which goes
        before what the build says, or is added to it where an input may be repeated.
    counted: name and what was taken of it.
    uncounted: name and why it was not counted.
    notes: what else to know of it, a sentence each.
    """

    typed: dict[str, Any]
    counted: tuple[tuple[str, str], ...]
    uncounted: tuple[tuple[str, str], ...]
    notes: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The same for programs, but for the inputs."""
        return {
            "counted": [{"name": name, "as": words} for name, words in self.counted],
            "not_counted": [{"name": name, "why": why} for name, why in self.uncounted],
            "notes": list(self.notes),
        }


def gather(
    session: Session, helper: str, typed: Mapping[str, Any], *, zone: str | None = None
) -> Gathered:
    """The inputs of a helper, from the build.

    Parameters
    ----------
    helper: one of ``GATHERED``.
    typed: what was typed besides.
    zone: for foam, only the bays of this zone.

    Raises
    ------
    BadInput: the helper takes nothing from a build, or the build lacks what it can't do without.
    """
    if helper == "weight":
        from tracker.app.views.gathered.weight import gather_weight

        return gather_weight(session, typed)
    if helper == "energy":
        from tracker.app.views.gathered.energy import gather_energy

        return gather_energy(session, typed)
    if helper == "foam":
        from tracker.app.views.gathered.foam import gather_foam

        return gather_foam(session, typed, zone)
    raise BadInput(f"'closein size {helper}' takes nothing from a build")


def plain(value: float) -> str:
    """A number as it may be typed: no exponent, at most four places."""
    return f"{value:.4f}".rstrip("0").rstrip(".")


def listed(value: Any) -> list[Any]:
    """What was typed for an input that may be repeated, as a list."""
    return [value] if isinstance(value, str) else list(value or ())
