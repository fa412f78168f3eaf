"""The phase line: the build from its first phase to its last, as one line of any width."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rich.cells import cell_len

from tracker.build.names import clean
from tracker.tui.marks import hold_mark

JOINT = " ─ "
MORE = "… "


def phase_words(phase: Mapping[str, Any]) -> str:
    """One phase with the hold points on it, such as '▸ insulation 20 % ◇ pre-foam open 34'."""
    done = phase["done"]
    sign = "✓" if phase["tasks"] and done >= 1 else "▸" if phase["here"] else "·"
    share = f" {done * 100:.0f} %" if phase["tasks"] and done < 1 else ""
    return clean(" ".join([f"{sign} {phase['slug']}{share}", *map(hold_words, hold_rows(phase))]))


def hold_rows(phase: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    """The hold points of a phase."""
    rows: Sequence[Mapping[str, Any]] = phase["hold_points"]
    return rows


def hold_words(hold: Mapping[str, Any]) -> str:
    """One hold point: its sign, name, state and, where some are, the number still open."""
    state = hold["state"]
    number = f" {hold['open']}" if hold["open"] and state in ("open", "lapsed", "reopened") else ""
    return f"{hold_mark(state)} {hold['slug']} {state}{number}"


def phase_line_text(phases: Sequence[Mapping[str, Any]], width: int) -> tuple[str, int, int]:
    """The line in at most ``width`` cells, and where in it the current phase begins and ends.

    Where not all fits, the current phase and its nearest neighbours are kept, later ones first.
    """
    words = [phase_words(phase) for phase in phases]
    if not words:
        return "", 0, 0
    here = next((number for number, phase in enumerate(phases) if phase["here"]), 0)
    first = last = here
    grown = True
    while grown:
        grown = False
        if last + 1 < len(words) and _width(words, first, last + 1) <= width:
            last, grown = last + 1, True
        if first > 0 and _width(words, first - 1, last) <= width:
            first, grown = first - 1, True
    before = (MORE if first else "") + "".join(f"{word}{JOINT}" for word in words[first:here])
    after = "".join(f"{JOINT}{word}" for word in words[here + 1 : last + 1])
    after += f" {MORE.strip()}" if last + 1 < len(words) else ""
    return before + words[here] + after, len(before), len(before) + len(words[here])


def _width(words: Sequence[str], first: int, last: int) -> int:
    ends = (first > 0) * len(MORE) + (last + 1 < len(words)) * len(MORE)
    return ends + sum(map(cell_len, words[first : last + 1])) + len(JOINT) * (last - first)
