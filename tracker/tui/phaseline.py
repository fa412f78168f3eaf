"""The phase line: the build from its first phase to its last, as one line of any width."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rich.cells import cell_len

from tracker.build.names import clean
from tracker.tui.marks import hold_mark

JOINT = " ─ "
BEFORE, AFTER = "… ", " …"


def phase_words(phase: Mapping[str, Any], short: bool = False) -> str:
    """One phase and the hold points on it, such as '▸ insulation 20 % ◈ pre-foam open 34'.

    Parameters
    ----------
    short: its sign and name alone.
    """
    done = phase["done"]
    sign = "✓" if phase["tasks"] and done >= 1 else "▸" if phase["here"] else "·"
    if short:
        return clean(f"{sign} {phase['slug']}")
    share = f" {done * 100:.0f} %" if phase["tasks"] and done < 1 else ""
    return clean(
        " ".join([f"{sign} {phase['slug']}{share}", *map(hold_words, phase["hold_points"])])
    )


def hold_words(hold: Mapping[str, Any]) -> str:
    """One hold point: its sign and name, and unless it is not due its state and what is open."""
    state = hold["state"]
    if state == "not due":
        return f"{hold_mark(state)} {hold['slug']}"
    number = f" {hold['open']}" if hold["open"] and state in ("open", "lapsed", "reopened") else ""
    return f"{hold_mark(state)} {hold['slug']} {state}{number}"


def phase_line_text(phases: Sequence[Mapping[str, Any]], width: int) -> tuple[str, int, int]:
    """The line in at most ``width`` cells, and where in it the current phase begins and ends.

    Where not all fits, the current phase and its nearest neighbours are kept, later ones first,
    those that would not fit whole by name alone.
    """
    if not phases:
        return "", 0, 0
    here = next((number for number, phase in enumerate(phases) if phase["here"]), 0)
    last = len(phases) - 1
    shown = {here: phase_words(phases[here])}
    grown = True
    while grown:
        grown = False
        for number in (max(shown) + 1, min(shown) - 1):
            if not 0 <= number <= last:
                continue
            for short in (False, True):
                more = shown | {number: phase_words(phases[number], short)}
                if cell_len(_joined(more, last)) <= width:
                    shown, grown = more, True
                    break
    line = _joined(shown, last)
    before = len(_joined({n: text for n, text in shown.items() if n < here} | {here: ""}, last))
    start = before - (len(AFTER) if here < last else 0)
    return line, start, start + len(shown[here])


def _joined(shown: Mapping[int, str], last: int) -> str:
    before = BEFORE if min(shown) > 0 else ""
    after = AFTER if max(shown) < last else ""
    return before + JOINT.join(shown[number] for number in sorted(shown)) + after
