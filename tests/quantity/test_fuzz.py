"""The parser on many random texts: a number or a sentence, never anything else."""

from __future__ import annotations

import random
from math import isfinite

from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.quantity.units import TAKEN

RUNS = 20_000
PIECES = [
    "1", "12", "0", "3.5", "1,5", ",5", "1/2", "3 1/4", "1/0", "2/0", "-", "+", " ", "*", "x", "'",
    '"', "%", "e9", "9" * 30, "nan", "inf", ".", "/", "°", "²", "½", "\x1b[2J", "\n", "é", "٣", "#",
    *sorted({word for units in TAKEN.values() for word in units}), "AWG", "awg", "mcm", "feet",
]  # fmt: skip


def test_random_texts_end_in_a_finite_number_or_one_sentence() -> None:
    rng = random.Random(20)
    fields = [*TAKEN, "", "sheet"]
    for _ in range(RUNS):
        text = "".join(rng.choice(PIECES) for _ in range(rng.randint(0, 6)))
        try:
            value = parse(text, rng.choice(fields))
        except BadInput as refusal:
            assert str(refusal).isprintable() and str(refusal), text
        else:
            assert isfinite(value), text


def test_random_quantities_as_people_write_them_are_all_read() -> None:
    rng = random.Random(21)
    for _ in range(RUNS):
        unit = rng.choice(list(TAKEN))
        word = rng.choice(list(TAKEN[unit]))
        number = f"{rng.uniform(0.001, 99999):.{rng.randint(0, 3)}f}"
        text = f"{number}{rng.choice(('', ' '))}{word}"
        assert parse(text, unit) >= (-273.15 if unit == "C" else 0.0), text
