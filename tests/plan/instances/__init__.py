"""Published cutting instances; where they come from is in the README beside them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Instance:
    """Pieces, the bar they are cut from, and the least number of bars, None where unknown."""

    name: str
    bar: int
    optimum: int | None
    pieces: tuple[int, ...]


def instances(file: str) -> list[Instance]:
    """All of one file, such as ``waescher``."""
    text = (Path(__file__).parent / f"{file}.txt").read_text(encoding="utf-8")
    return [_instance(line.split()) for line in text.splitlines()]


def _instance(words: list[str]) -> Instance:
    name, bar, optimum, *pieces = words
    known = None if optimum == "?" else int(optimum)
    return Instance(name, int(bar), known, tuple(map(int, pieces)))
