"""Cut pieces from bars, spools or boards; no piece is ever joined."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import gcd

from tracker.errors import BadInput
from tracker.plan.cutting.effort import Effort
from tracker.plan.cutting.fewest import fewest_bought
from tracker.plan.cutting.placing import most_placed
from tracker.plan.cutting.remnant import longest_remnant
from tracker.plan.cutting.result import Cut, CutPlan

DEFAULT_EFFORT = 120_000
"""Steps; about a second where the pieces are many and go badly together, else far less."""


def cut_plan(
    pieces: Sequence[int],
    stock: Sequence[int] = (),
    buy: int | None = None,
    kerf: int = 0,
    effort: int = DEFAULT_EFFORT,
) -> CutPlan:
    """Place the most pieces, then buy the fewest bars, then keep the longest single remnant.

    A bar takes pieces as long as their lengths plus a kerf between each two fit. A bar left whole
    counts as a remnant. The same input gives the same plan on every machine.

    Parameters
    ----------
    pieces: lengths in whole units, each above 0.
    stock: lengths on hand, each above 0.
    buy: length that can be bought without limit; None where nothing can be bought.
    kerf: width of a cut, same unit, 0 or more.
    effort: steps that may be spent on a better plan, 0 or more; a plan by first fit is free.

    Raises
    ------
    BadInput: a length that is no whole number or out of range.
    """
    _check(pieces, stock, buy, kerf, effort)
    # With a kerf added to each piece and each bar, a bar fits when the plain sum does.
    long_pieces = sorted((piece + kerf for piece in pieces), reverse=True)
    have = sorted(range(len(stock)), key=lambda at: (stock[at], at))
    bars = [stock[at] + kerf for at in have]
    bar = 0 if buy is None else buy + kerf
    unit = gcd(*long_pieces, *bars, bar) or 1
    long_pieces = [piece // unit for piece in long_pieces]
    bars, bar = [length // unit for length in bars], bar // unit

    given = sorted(range(len(have)), key=have.__getitem__)
    purse = Effort(effort)
    share = purse.share(1, 3)
    hard = most_placed([piece for piece in long_pieces if piece > bar], bars, given, share)
    purse.give_back(share)
    placed = sorted([*hard.pieces, *(p for p in long_pieces if p <= bar)], reverse=True)
    loads, bought, least = hard.loads, 0, 0
    if bar:
        share = purse.share(4, 5)
        best = fewest_bought(placed, bars, bar, hard.loads, given, share)
        purse.give_back(share)
        loads, bought, least = best.loads, best.number, best.least
    purse = Effort(min(purse.left, effort // 5))
    loads = longest_remnant(placed, bars + [bar] * bought, loads, purse)

    lengths = [*(stock[at] for at in have), *([buy or 0] * bought)]
    places: list[int | None] = [*have, *([None] * bought)]
    cuts = [
        _cut(length, sorted((piece * unit - kerf for piece in load), reverse=True), kerf, place)
        for length, load, place in zip(lengths, loads, places, strict=True)
        if load
    ]
    cuts.sort(key=lambda cut: len(stock) if cut.stock is None else cut.stock)
    over = Counter(pieces) - Counter(piece for cut in cuts for piece in cut.pieces)
    return CutPlan(
        cuts=tuple(cuts),
        bought=bought,
        lower_bound=least,
        proved=hard.certain and bought == least,
        unplaced=tuple(sorted(over.elements(), reverse=True)),
    )


def _cut(length: int, pieces: list[int], kerf: int, place: int | None) -> Cut:
    remnant = length - sum(pieces) - kerf * (len(pieces) - 1)
    return Cut(length, tuple(pieces), remnant, place)


def _check(
    pieces: Sequence[int], stock: Sequence[int], buy: int | None, kerf: int, effort: int
) -> None:
    """Refuse what is no length."""
    named = [("a piece", pieces, 1), ("a bar on hand", stock, 1), ("a kerf", [kerf], 0)]
    named += [("a bar to buy", [] if buy is None else [buy], 1), ("an effort", [effort], 0)]
    for what, lengths, least in named:
        for length in lengths:
            if isinstance(length, bool) or not isinstance(length, int) or length < least:
                raise BadInput(
                    f"{what} of {length} can't be planned; give whole units of {least} or more"
                )
