"""Can all these pieces be cut from these lengths, none joined? Exactly, as far as steps allow."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor

from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fit import fit

MM, CLOSE = 1000, 1e-6

STEPS = 4_000
"""Steps of search; some hundredths of a second where the pieces go badly together."""


def all_cut(pieces_m: Sequence[float], lengths_m: Sequence[float]) -> list[int] | None:
    """For each piece the place of the length it is cut from, or None where it was not found.

    Parameters
    ----------
    pieces_m: pieces [m], above 0; rounded up to whole millimetres.
    lengths_m: what there is [m]; rounded down.
    """
    pieces = [max(1, ceil(length * MM - CLOSE)) for length in pieces_m]
    bars = [floor(length * MM + CLOSE) for length in lengths_m]
    rising = sorted(range(len(bars)), key=bars.__getitem__)
    able = [at for at in rising if bars[at] > 0]
    longest_first = sorted(range(len(pieces)), key=lambda at: -pieces[at])
    loads, _ = fit([pieces[at] for at in longest_first], [bars[at] for at in able], Effort(STEPS))
    if loads is None:
        return None
    alike: dict[int, list[int]] = {}
    for at in longest_first:
        alike.setdefault(pieces[at], []).append(at)
    found = [0] * len(pieces)
    for bar, load in zip(able, loads, strict=True):
        for length in load:
            found[alike[length].pop()] = bar
    return found
