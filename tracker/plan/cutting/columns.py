"""The least number of bars bought, by linear programming over ways to fill a bar.

A plan may use fractions of fills; the best such plan is found by adding only fills that better
it (column generation). Its prices for the pieces, turned into whole numbers, give a bound that
holds whatever rounding went before: bars bought times the best load of one bar, at these prices,
must reach what all the pieces cost less what the bars on hand can hold.

Sources: P. Gilmore, R. Gomory, "A linear programming approach to the cutting-stock problem",
Operations Research 9 (1961), 849-859; the bound: A. Farley, "A note on bounding a class of
linear programming problems, including cutting stock problems", Operations Research 38 (1990),
922-923. Both from memory, unverified.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.load import best_load
from tracker.plan.cutting.tableau import Tableau

PRICE_UNIT = 10**9
TINY = 1e-7
NOT_CUT_COST = 1000.0
"""Cost, in bars, of a piece that only bars on hand could take and that none takes yet."""
MOST_ROWS = 160


@dataclass(frozen=True, slots=True)
class Columns:
    """What the linear program says.

    Parameters
    ----------
    least: at least so many bars are bought.
    fills: (bar length, pieces, how often) of the best plan in fractions seen so far.
    """

    least: int
    fills: tuple[tuple[int, tuple[int, ...], float], ...]


def by_columns(
    sizes: Sequence[int],
    counts: Sequence[int],
    stock: Sequence[int],
    bar: int,
    known: int,
    goal: int,
    effort: Effort,
) -> Columns:
    """A bound on the bars bought, and the fills it rests on.

    Parameters
    ----------
    sizes, counts, stock, bar: as for ``least_bought``.
    known: a bound already known, where it starts.
    goal: a number of bars that is enough; reaching it ends the work.
    effort: steps.
    """
    if len(sizes) > MOST_ROWS:
        return Columns(known, ())
    have = sorted(Counter(stock).items())
    rows = len(sizes)
    table = Tableau([*map(float, counts), *(float(number) for _, number in have)])
    for index, size in enumerate(sizes):
        number = min(counts[index], bar // size)
        alone = tuple(number if at == index else 0 for at in range(rows))
        if number:
            table.begin(index, {index: float(number)}, 1.0, (bar, alone))
        else:
            table.begin(index, {index: 1.0}, NOT_CUT_COST, None)
    for at in range(len(have)):
        table.begin(rows + at, {rows + at: 1.0}, 0.0, None)
    least = known
    weight = 2 + len(table.right) ** 2 // 100
    while least < goal and table.cost() > known + TINY and effort.spend(weight):
        prices = table.prices()
        loose = next((at for at in range(rows) if prices[at] < -TINY), None)
        if loose is not None:
            table.enter({loose: -1.0}, 0.0, None)
            continue
        unused = next((at for at in range(rows, len(prices)) if prices[at] > TINY), None)
        if unused is not None:
            table.enter({unused: 1.0}, 0.0, None)
            continue
        values = [max(0, int(price * PRICE_UNIT)) for price in prices[:rows]]
        loads = {}
        for length in [bar, *(length for length, _ in have)]:
            found = best_load(sizes, counts, values, length, effort)
            if found is None:
                return Columns(least, table.fills())
            loads[length] = found
        worth = loads[bar][0]
        if worth:
            demand = sum(map(int.__mul__, values, counts))
            held = sum(loads[length][0] * number for length, number in have)
            least = max(least, -((held - demand) // worth))
        gains: list[tuple[float, int, int | None]] = [(worth / PRICE_UNIT - 1.0, bar, None)]
        gains += [
            (loads[length][0] / PRICE_UNIT + prices[rows + at], length, rows + at)
            for at, (length, _) in enumerate(have)
        ]
        gain, length, row = max(gains, key=lambda each: each[0])
        if gain <= TINY:
            break
        column = {index: float(number) for index, number in enumerate(loads[length][1]) if number}
        if row is not None:
            column[row] = 1.0
        table.enter(column, 0.0 if row is not None else 1.0, (length, loads[length][1]))
    return Columns(least, table.fills())
