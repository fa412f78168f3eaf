"""Many random inputs to one helper: inside its range it answers, outside it refuses by name."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Collection
from typing import Any

from tracker.errors import BadInput
from tracker.sizing.result import OutOfRange, Result
from tracker.sizing.spec import Input, helper

RUNS = 20_000
Make = Callable[[random.Random], dict[str, Any]]


def answered_share(
    name: str, make: Make, signed: Collection[str] = (), runs: int = RUNS, seed: int = 4
) -> float:
    """Run a helper on random inputs inside its range.

    Parameters
    ----------
    make: draws one set of inputs.
    signed: figures that may be negative, such as temperatures and margins.

    Returns
    -------
    The share that was answered; the others were refused with a named error. An AssertionError
    says which answer was no sound result.
    """
    found, rng, answered = helper(name), random.Random(seed), 0
    for _ in range(runs):
        inputs = make(rng)
        try:
            result = found.run(**inputs)
        except BadInput as refusal:
            assert str(refusal).strip(), inputs
            continue
        answered += 1
        assert_sound(result, signed, inputs)
    return answered / runs


def assert_sound(result: Result, signed: Collection[str], inputs: object) -> None:
    """Every figure is finite and where it must be so not negative; the rest is there."""
    for figure in result.figures:
        if isinstance(figure.value, int | float):
            assert math.isfinite(figure.value), (figure, inputs)
            assert figure.name in signed or figure.value >= 0, (figure, inputs)
    assert result.title and result.governs and result.working and result.sources, inputs
    assert result.cautions, inputs
    said = " ".join((result.title, result.governs, *result.cautions)).casefold().split()
    assert "safe" not in said, inputs


def unrefused(name: str, make: Make, runs: int = RUNS, seed: int = 5) -> list[tuple[str, float]]:
    """What was not refused as out of range, of random inputs with one value outside its range."""
    found, rng, passed = helper(name), random.Random(seed), []
    ranged = [each for each in found.inputs if each.low is not None and each.high is not None]
    for _ in range(runs):
        each = rng.choice(ranged)
        value = outside(each, rng)
        inputs = make(rng)
        inputs[each.name] = (value,) if each.repeated else value
        try:
            found.run(**inputs)
        except OutOfRange:
            continue
        passed.append((each.name, value))
    return passed


def outside(each: Input, rng: random.Random) -> float:
    """A value outside an input's range, sometimes no number at all."""
    low, high = float(each.low or 0), float(each.high or 0)
    off = (high - low) * rng.uniform(1e-3, 10) + 1
    kinds = (low - off, high + off, math.nan, math.inf, -math.inf)
    value = rng.choice(kinds)
    return float(round(value)) if each.type == "whole" and math.isfinite(value) else value


def within(each: Input, rng: random.Random) -> float | int:
    """A value inside an input's range, near its ends as often as between them."""
    low, high = float(each.low or 0), float(each.high or 0)
    if each.type == "whole":
        return rng.randint(int(low), int(high))
    if low > 0 and high / low > 100 and rng.random() < 0.5:
        return min(high, max(low, math.exp(rng.uniform(math.log(low), math.log(high)))))
    return rng.choice((low, high)) if rng.random() < 0.05 else rng.uniform(low, high)


def input_named(helper_name: str, name: str) -> Input:
    """One input of a helper."""
    return next(each for each in helper(helper_name).inputs if each.name == name)
