"""The best cutting plan by integer programming, with HiGHS; slow, and for few pieces only."""

from __future__ import annotations

from collections.abc import Sequence

import highspy


def best_figures(
    pieces: Sequence[int], stock: Sequence[int], buy: int | None, kerf: int
) -> tuple[int, int, int]:
    """(most pieces placed, then fewest bars bought, then the longest single rest).

    Each piece and each bar is taken longer by a kerf, so that a bar left whole counts as a rest of
    its length plus a kerf, and what is over of a bar as it is, since one more cut frees it.

    Parameters
    ----------
    pieces: lengths, at least one.
    stock, buy, kerf: as for ``cut_plan``.
    """
    new = 0 if buy is None else sum(piece <= buy for piece in pieces)
    bars = [length + kerf for length in stock] + [(buy or 0) + kerf] * new
    if not bars:
        return 0, 0, 0
    places = range(len(bars))
    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    lies = [[model.addBinary() for _ in places] for _ in pieces]
    there = [model.addBinary() for _ in places]
    kept = [model.addBinary() for _ in places]
    rest = model.addVariable(lb=0)
    for line in lies:
        model.addConstr(sum(line) <= 1)
    for at in places:
        used = sum((piece + kerf) * line[at] for piece, line in zip(pieces, lies, strict=True))
        model.addConstr(used - bars[at] * there[at] <= 0)
        # Where this bar is the one that is kept, the rest is at most what is empty of it.
        model.addConstr(rest + used + max(bars) * kept[at] <= max(bars) + bars[at])
        model.addConstr(kept[at] - there[at] <= 0)
    model.addConstr(sum(kept) <= 1)
    model.addConstr(rest - max(bars) * sum(kept) <= 0)

    placed = sum(variable for line in lies for variable in line)
    model.maximize(placed)
    most = round(model.getObjectiveValue())
    model.addConstr(placed >= most)
    bought = 0
    if new:
        model.minimize(sum(there[len(stock) :]))
        bought = round(model.getObjectiveValue())
        model.addConstr(sum(there[len(stock) :]) <= bought)
    model.maximize(rest)
    return most, bought, round(model.getObjectiveValue())
