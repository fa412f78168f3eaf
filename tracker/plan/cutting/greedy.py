"""Quick plans, to be bettered: first fit and the fullest bar, longest pieces first."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.plan.cutting.fill import fullest

Loads = list[list[int]]
"""The pieces of each bar, in the order of the bars."""


def first_fit(pieces: Sequence[int], stock: Sequence[int], bar: int) -> tuple[Loads, list[int]]:
    """First fit decreasing: (the loads of stock and of what is bought, the pieces that fit none).

    Parameters
    ----------
    pieces: lengths, longest first.
    stock: the bars on hand, in the order they are tried.
    bar: the bar bought when none on hand fits, 0 where nothing can be bought.
    """
    rooms = list(stock)
    loads: Loads = [[] for _ in stock]
    unfit = []
    for piece in pieces:
        number = next((at for at, room in enumerate(rooms) if piece <= room), len(rooms))
        if number == len(rooms):
            if piece > bar:
                unfit.append(piece)
                continue
            rooms.append(bar)
            loads.append([])
        rooms[number] -= piece
        loads[number].append(piece)
    return loads, unfit


def fullest_first(
    pieces: Sequence[int], bars: Sequence[int], bar: int = 0
) -> tuple[Loads, list[int]]:
    """Fill bar after bar as full as it goes; each bought one begins with the longest piece.

    Parameters and result as in ``first_fit``, with ``bars`` for the stock.
    """
    loads: Loads = []
    over = list(pieces)
    for room in bars:
        taken, over = fullest(over, room)
        loads.append(taken)
    while over and over[0] <= bar:
        taken, rest = fullest(over[1:], bar - over[0])
        loads.append([over[0], *taken])
        over = rest
    return loads, over
