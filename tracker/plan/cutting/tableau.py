"""The simplex method over columns that come one by one (revised, with the whole inverse)."""

from __future__ import annotations

from collections.abc import Mapping

Label = tuple[int, tuple[int, ...]] | None
"""(bar length, how many of each size), or None for a column that is no fill."""

TINY = 1e-9


class Tableau:
    """Least cost of a mix of columns that reaches the right-hand side exactly.

    Begin one column for each row, each of which has that row only; then enter better ones.

    Parameters
    ----------
    right: what each row must add up to, 0 or more.
    """

    def __init__(self, right: list[float]) -> None:
        size = len(right)
        self.right = right
        self.inverse = [[0.0] * size for _ in range(size)]
        self.amounts = list(right)
        self.costs = [0.0] * size
        self.labels: list[Label] = [None] * size

    def begin(self, row: int, column: Mapping[int, float], cost: float, label: Label) -> None:
        """Let a column that has ``row`` only stand for that row."""
        self.inverse[row][row] = 1.0 / column[row]
        self.amounts[row] = self.right[row] / column[row]
        self.costs[row], self.labels[row] = cost, label

    def cost(self) -> float:
        """What the mix costs now."""
        return sum(map(float.__mul__, self.costs, self.amounts))

    def prices(self) -> list[float]:
        """What one more of each row would cost."""
        totals = [0.0] * len(self.right)
        for cost, line in zip(self.costs, self.inverse, strict=True):
            if cost:
                totals = [total + cost * part for total, part in zip(totals, line, strict=True)]
        return totals

    def enter(self, column: Mapping[int, float], cost: float, label: Label) -> None:
        """Bring a column in for the one that first runs out; the last such one where several do."""
        entries = column.items()
        moved = [sum(line[row] * part for row, part in entries) for line in self.inverse]
        leaving, least = -1, float("inf")
        for row, part in enumerate(moved):
            if part > TINY:
                ratio = self.amounts[row] / part
                if ratio < least - TINY or (ratio < least + TINY and part > moved[leaving]):
                    leaving, least = row, ratio
        if leaving < 0:
            return
        pivot = moved[leaving]
        line = [part / pivot for part in self.inverse[leaving]]
        amount = max(0.0, self.amounts[leaving] / pivot)
        for row, part in enumerate(moved):
            if row != leaving and abs(part) > 1e-12:
                self.inverse[row] = [
                    old - part * new for old, new in zip(self.inverse[row], line, strict=True)
                ]
                self.amounts[row] = max(0.0, self.amounts[row] - part * amount)
        self.inverse[leaving], self.amounts[leaving] = line, amount
        self.costs[leaving], self.labels[leaving] = cost, label

    def fills(self) -> tuple[tuple[int, tuple[int, ...], float], ...]:
        """The fills in use and how often."""
        return tuple(
            (*label, amount)
            for label, amount in zip(self.labels, self.amounts, strict=True)
            if label is not None and amount > TINY
        )
