"""How many bars are needed at the least, from values given to the pieces.

Whatever the values, a bar can hold no more of them than its best load, so that the bars bought
hold at least what the bars on hand can't. The values below are dual feasible functions: they
favour pieces that go badly together.

Source of the functions: F. Clautiaux, C. Alves, J. Valerio de Carvalho, "A survey of
dual-feasible and superadditive functions", Annals of Operations Research 179 (2010), 317-342:
f_0 (Martello and Toth) and f_CCM,1 (Carlier, Clautiaux and Moukrim). From memory, unverified;
the tests check that no value found is above the best load of a bar.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

MOST_STEPS_TRIED = 400

Value = Callable[[int], int]


def value_functions(sizes: Sequence[int], bar: int) -> Iterator[Value]:
    """Functions of length whose sum over the pieces of any bar is at most that of the bar.

    They hold for every bar up to ``bar``: the sum over the pieces is at most f(length of it).
    """

    def length(size: int) -> int:
        return size

    yield length
    for least in sorted({min(size, bar - size) for size in sizes if 0 < size < bar}):
        yield _ends_favoured(bar, least)
    for step in _steps(sizes, bar):
        yield _stepped(bar, step)


def _ends_favoured(bar: int, least: int) -> Value:
    """Pieces that leave less than ``least`` count as a whole bar, pieces below it as nothing."""

    def value(size: int) -> int:
        return bar if size > bar - least else (size if size >= least else 0)

    return value


def _stepped(bar: int, step: int) -> Value:
    """Lengths counted in whole steps: short pieces down, long ones up."""
    whole = bar // step

    def value(size: int) -> int:
        if 2 * size > bar:
            return 2 * (whole - (bar - size) // step)
        return whole if 2 * size == bar else 2 * (size // step)

    return value


def _steps(sizes: Sequence[int], bar: int) -> list[int]:
    """Steps at which a size counts one more, thinned out evenly when they are many."""
    steps = sorted(
        {
            part // number
            for size in sizes
            for part in (size, bar - size)
            for number in range(1, 6)
            if 1 <= part // number <= bar // 2
        }
    )
    return steps[:: 1 + len(steps) // MOST_STEPS_TRIED]


def least_bought(
    sizes: Sequence[int], counts: Sequence[int], stock: Sequence[int], bar: int
) -> int:
    """At least so many bars of length ``bar`` are needed beside those of ``stock``.

    Parameters
    ----------
    sizes: lengths, each with how many there are of it in ``counts``.
    stock: the bars on hand.
    bar: the bar that can be bought, at least 1.
    """
    if not sizes:
        return 0
    most = 0
    for value in value_functions(sizes, bar):
        values = [value(size) for size in sizes]
        # A piece longer than the bar comes from stock only; it must not count for bought bars.
        values = [v if size <= bar else 0 for v, size in zip(values, sizes, strict=True)]
        top, base = 0, 1
        for v, size in zip(values, sizes, strict=True):
            if v * base > top * size:
                top, base = v, size
        held = sum(
            min(value(have), have * top // base) if have <= bar else have * top // base
            for have in stock
        )
        demand = sum(v * count for v, count in zip(values, counts, strict=True))
        most = max(most, -((held - demand) // value(bar)))
    return most
