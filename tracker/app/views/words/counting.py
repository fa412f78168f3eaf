"""Names in rows and how many there are of something; needs no build."""

from __future__ import annotations

import re
from collections.abc import Sequence

NUMBERED = re.compile(r"(.*?)(\d+)")


def ranges(names: Sequence[str]) -> str:
    """Names in few words: those that are numbered in a row as ``L1-L4``.

    ``["L1", "L2", "L3", "L4", "L7"]`` gives ``L1-L4 L7``.
    """
    spans: list[list[str]] = []
    for name in names:
        if spans and _follows(spans[-1][-1], name):
            spans[-1].append(name)
        else:
            spans.append([name])
    return " ".join(f"{span[0]}-{span[-1]}" if len(span) > 2 else " ".join(span) for span in spans)


def natural(name: str) -> tuple[str, int, str]:
    """Sorts names with their numbers as numbers: B2 before B10."""
    head = name.rstrip("0123456789")
    digits = name[len(head) :]
    return head, int(digits) if digits.isascii() and digits else -1, name


def _follows(one: str, other: str) -> bool:
    first, second = NUMBERED.fullmatch(one), NUMBERED.fullmatch(other)
    return bool(first and second and first[1] == second[1] and int(second[2]) - int(first[2]) == 1)


def counted(count: int, noun: str) -> str:
    """How many there are of something: ``1 item``, ``4 items``."""
    return f"{count} {noun}{'' if count == 1 else 's'}"
