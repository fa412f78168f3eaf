"""Which sums of pieces fill a bar: sets of sums held as the bits of one whole number.

Bit ``s`` is set where some of the pieces add up to ``s``. Adding a piece of length ``w`` is one
shift, so that thousands of sums are looked at in one step.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

Chosen = tuple[tuple[int, int], ...]
"""(index of a size, how many of it), longest size first."""


def sums_from(sizes: Sequence[int], counts: Sequence[int], room: int) -> list[int]:
    """For each index the sums, as bits, of the sizes from there to the end; the last is {0}.

    Parameters
    ----------
    sizes: lengths, whole units, each above 0.
    counts: how many there are of each.
    room: sums above it are left out, 0 or more.
    """
    mask = (1 << (room + 1)) - 1
    bits = 1
    found = [1] * (len(sizes) + 1)
    for index in range(len(sizes) - 1, -1, -1):
        count, size = counts[index], sizes[index]
        if count and size <= room:
            together = 1
            while count > 0:
                taken = min(together, count)
                bits |= (bits << (size * taken)) & mask
                count -= taken
                together *= 2
        found[index] = bits
    return found


def fills(
    sizes: Sequence[int], counts: Sequence[int], room: int, least: int
) -> Iterator[tuple[int, Chosen]]:
    """Every way to fill a bar: (what stays empty, the pieces), the fullest first.

    Among equally full ones those with long pieces come first.

    Parameters
    ----------
    sizes: lengths, longest first.
    counts: how many there are of each; not to be changed while this runs.
    room: what the bar takes.
    least: fills below this sum are left out.
    """
    found = sums_from(sizes, counts, room)
    total = room
    while total >= least:
        total = (found[0] & ((1 << (total + 1)) - 1)).bit_length() - 1
        if total < least:
            return
        waiting: list[tuple[int, int, Chosen]] = [(0, total, ())]
        while waiting:
            index, rest, chosen = waiting.pop()
            while rest:
                size, after = sizes[index], found[index + 1]
                if counts[index] and size <= rest:
                    ways = [
                        (index + 1, rest - number * size, (*chosen, (index, number)))
                        for number in range(1, min(counts[index], rest // size) + 1)
                        if after >> (rest - number * size) & 1
                    ]
                    if ways:
                        if after >> rest & 1:
                            waiting.append((index + 1, rest, chosen))
                        waiting.extend(ways[:-1])
                        index, rest, chosen = ways[-1]
                        continue
                index += 1
            yield room - total, chosen
        total -= 1


def fullest(
    pieces: Sequence[int], room: int, skips: Callable[[], bool] | None = None
) -> tuple[list[int], list[int]]:
    """Fill one bar as full as it goes: (the pieces taken, the pieces over).

    Parameters
    ----------
    pieces: lengths, longest first.
    room: what the bar takes.
    skips: asked whether to leave out a piece that could be left out; never, where None.
    """
    mask = (1 << (room + 1)) - 1
    bits = 1
    found = [1]
    for size in reversed(pieces):
        if size <= room:
            bits |= (bits << size) & mask
        found.append(bits)
    rest = bits.bit_length() - 1
    taken, over = [], []
    position = len(pieces)
    for size in pieces:
        position -= 1
        after = found[position]
        if (
            size <= rest
            and after >> (rest - size) & 1
            and not (skips is not None and after >> rest & 1 and skips())
        ):
            taken.append(size)
            rest -= size
        else:
            over.append(size)
    return taken, over
