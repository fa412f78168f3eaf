"""Lines of demand, and what is taken off them because it went into the build already."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tracker.build.coverage import Coverage
from tracker.build.state import Build

PIECE = 1e-9
"""Lengths and counts nearer to each other than this are the same."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of demand: a task, for a subject perhaps, takes so much of a part.

    Parameters
    ----------
    task: the id of the task, or '' where this build has none for it.
    subject: the id of what it is for, or '' for the task as a whole.
    part: the id of the part, or '' where no part of the build fits.
    name: what the part is called, or should be.
    unit: what the quantity is counted in.
    quantity: what it takes in all.
    open: what it still takes.
    spare: what is bought on top of what is open.
    piece: is it one length that can't be joined from two?
    pieces: how many such lengths.
    basis: how the quantity came about.
    """

    task: str
    subject: str
    part: str
    name: str
    unit: str
    quantity: float
    open: float
    spare: float = 0.0
    piece: bool = False
    pieces: int = 1
    basis: str = ""


def as_stated(cover: Coverage, lines: list[Line]) -> list[Line]:
    """Put what the builder says is needed in all in place of rough figures for a part.

    Rough are those for a task as a whole; where a part has lines of subjects they stand.
    """
    total: dict[str, float] = {}
    counted = {line.part for line in lines if line.subject}
    for line in lines:
        total[line.part] = total.get(line.part, 0.0) + line.quantity
    share = {
        part.id: float(part.get("needed")) / total[part.id]
        for part in cover.by_kind.get("part", [])
        if part.get("needed") and total.get(part.id) and part.id not in counted
    }
    return [
        replace(
            line,
            quantity=line.quantity * share[line.part],
            open=line.open * share[line.part],
            basis="as much as the part says it needs",
        )
        if line.part in share
        else line
        for line in lines
    ]


def less_used(build: Build, lines: list[Line]) -> list[Line]:
    """Take off what went into the build beyond the lines known to be met."""
    extra = dict(build.used)
    for line in lines:
        if line.part in extra:
            extra[line.part] -= line.quantity - line.open
    found = []
    for line in lines:
        rest = extra.get(line.part, 0.0)
        off = min(line.open, rest) if rest > PIECE else 0.0
        if line.piece and off < line.open - PIECE:
            off = 0.0
        if off:
            extra[line.part] = rest - off
            line = replace(line, open=line.open - off)
        found.append(line)
    return found
