"""Hold points: what is recorded of them, and the table of their states.

Released, withdrawn, closed and reopened are recorded, by zone. Everything else is derived:

===========  =====  =====  =====  ==========
recorded     holds  ready  begun  state
===========  =====  =====  =====  ==========
nothing      any    no     no     not due
nothing      any    no     yes    open
nothing      any    yes    any    ready
withdrawn    any    no     any    open
withdrawn    any    yes    any    ready
released     yes    any    any    released
released     no     any    any    lapsed
closed       any    any    any    closed
reopened     any    any    any    reopened
===========  =====  =====  =====  ==========

``holds``: what is covered now equals what was signed, the time is not over and nothing stands
against it. ``ready``: every hold-class check is good, waived or not applicable and nothing
stands against it. ``begun``: a check was answered or a date is booked.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from tracker.act import Act, Fact
from tracker.build.values import text, text_or_none, texts

if TYPE_CHECKING:
    from tracker.build.state import Build

STATES = ("not due", "open", "ready", "released", "lapsed", "closed", "reopened")
"""All states, in the order a hold point usually goes through them."""

NOTHING, WITHDRAWN, RELEASED, CLOSED, REOPENED = (
    "nothing",
    "withdrawn",
    "released",
    "closed",
    "reopened",
)
ANY = None

TABLE: tuple[tuple[str, bool | None, bool | None, bool | None, str], ...] = (
    (NOTHING, ANY, False, False, "not due"),
    (NOTHING, ANY, False, True, "open"),
    (NOTHING, ANY, True, ANY, "ready"),
    (WITHDRAWN, ANY, False, ANY, "open"),
    (WITHDRAWN, ANY, True, ANY, "ready"),
    (RELEASED, True, ANY, ANY, "released"),
    (RELEASED, False, ANY, ANY, "lapsed"),
    (CLOSED, ANY, ANY, ANY, "closed"),
    (REOPENED, ANY, ANY, ANY, "reopened"),
)
"""Recorded, holds, ready, begun -> state. Exactly one row fits any four."""

MOVES: dict[str, tuple[str, ...]] = {
    "not due": (),
    "open": (),
    "ready": ("release",),
    "released": ("release", "withdraw", "close"),
    "lapsed": ("release", "withdraw", "close"),
    "closed": ("reopen",),
    "reopened": ("release", "close"),
}
"""What may be recorded in each state; conditions of its own may still refuse it."""


class HoldEvent(NamedTuple):
    """One thing recorded of a hold point in a zone.

    Parameters
    ----------
    ref: the fact.
    kind: released, withdrawn, closed or reopened.
    when: ISO 8601 with offset.
    by: who recorded it.
    fact: the whole fact: second, present, basis, why, covered.
    """

    ref: str
    kind: str
    when: str
    by: str
    fact: Fact


def apply_event(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """One more thing is recorded of a hold point."""
    hold, zone = fact["hold"], text(fact.get("zone", ""))
    draft.need(hold)
    if zone:
        draft.need(zone)
    for name in ("by", "second", "present", "why"):
        text_or_none(fact.get(name))
    kind = fact["f"].removeprefix("hold.")
    if kind == RELEASED:
        unpack_basis(fact["basis"])
        open_pairs(fact)
    elif kind == CLOSED:
        texts(fact["covered"])
    event = HoldEvent(ref, kind, act.happened, fact.get("by") or act.by, fact)
    draft.holds[hold, zone] = (*draft.holds.get((hold, zone), ()), event)


def recorded(events: Iterable[HoldEvent]) -> str:
    """The last thing recorded, or ``nothing``."""
    last = NOTHING
    for event in events:
        last = event.kind
    return last


def state_of(record: str, holds: bool, ready: bool, begun: bool) -> str:
    """The state of a hold point, from the table."""
    for row_record, row_holds, row_ready, row_begun, state in TABLE:
        if (
            row_record == record
            and row_holds in (ANY, holds)
            and row_ready in (ANY, ready)
            and row_begun in (ANY, begun)
        ):
            return state
    raise KeyError(record)


def pack_basis(answers: Iterable[str]) -> dict[str, list[int]]:
    """The facts that a release signs, grouped by act: act id -> numbers of its facts."""
    basis: dict[str, list[int]] = {}
    for ref in sorted(answers):
        identifier, _, index = ref.rpartition("/")
        basis.setdefault(identifier, []).append(int(index))
    for numbers in basis.values():
        numbers.sort()
    return basis


def unpack_basis(basis: Mapping[str, Any]) -> set[str]:
    """The facts that a release signed."""
    return {f"{act}/{int(index)}" for act, numbers in basis.items() for index in numbers}


def open_pairs(release: Fact) -> set[tuple[str, str]]:
    """The points (check, subject) that were not settled when a release was signed."""
    return {(text(check), text(subject)) for check, subject in release.get("open", ())}
