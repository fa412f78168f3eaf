"""Cuts: which spool each piece of wire is cut from, as ``part cuts`` and the screen show it."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.app.wants.parts import find
from tracker.plan.cuts import Bar, Cuts, cuts
from tracker.plan.demand import demand
from tracker.plan.spools import TO_BUY, Piece


def cuts_view(session: Session, part: str | None = None) -> list[dict[str, Any]]:
    """The cutting plans of all parts of which single lengths are open, or of one part.

    Raises
    ------
    UnknownName: no part is called that.
    """
    wanted = find(session.names, part).id if part is not None else None
    plans = cuts(session.cover, demand(session.cover))
    return [_row(session, plan) for plan in plans if wanted in (None, plan.part)]


def _row(session: Session, plan: Cuts) -> dict[str, Any]:
    return {
        "part": session.names.name(plan.part) if plan.part else plan.name,
        "known": bool(plan.part),
        "on_hand_m": [_m(length) for length in plan.on_hand_m],
        "summed": [{"place": place, "quantity_m": _m(some)} for place, some in plan.summed],
        "said": [{"place": place, "level": level} for place, level in plan.said],
        "short_of_m": _m(plan.short_of_m) if plan.short_of_m else None,
        "cuts": [_bar_row(session, bar) for bar in plan.bars],
        "uncut": [_piece_row(session, piece) for piece in plan.unplaced],
        "put_up_m": plan.put_up_m,
        "buy": plan.bought,
        "fewest": plan.proved,
    }


def _bar_row(session: Session, bar: Bar) -> dict[str, Any]:
    return {
        "place": bar.place,
        "buy": bar.place == TO_BUY,
        "length_m": _m(bar.length_m),
        "measured": bar.measured,
        "pieces": [_piece_row(session, piece) for piece in bar.pieces],
        "remnant_m": _m(bar.remnant_m),
    }


def _piece_row(session: Session, piece: Piece) -> dict[str, Any]:
    return {
        "for": session.names.name(piece.subject) if piece.subject else None,
        "task": session.names.name(piece.task) if piece.task else None,
        "length_m": _m(piece.length_m),
    }


def _m(length_m: float) -> float:
    """A length to the millimetre."""
    return round(length_m, 3)
