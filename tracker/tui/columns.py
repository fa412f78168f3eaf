"""Columns of a list and its lines, as plain values, and text cut to an exact width."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from rich.cells import cell_len, set_cell_size

from tracker.build.names import clean


@dataclass(frozen=True, slots=True)
class Column:
    """One column.

    Parameters
    ----------
    head: what stands above it.
    most: its cells are as wide as the widest of them, up to this; 0 shares what is over.
    from_width: it is left out of lists narrower than this.
    """

    head: str
    most: int = 0
    from_width: int = 0


@dataclass(frozen=True, slots=True)
class Line:
    """One line.

    Parameters
    ----------
    key: stays the same while its subject does; '' for a heading, which can't be in hand.
    cells: one text a column; where there are fewer the last has all the room there is behind
        it, and a heading has one for the whole line.
    look: the name of its style, a state or ``heading``.
    row: what it stands for, as the view model has it.
    """

    key: str
    cells: tuple[str, ...]
    look: str = "plain"
    row: Any = None


def fit(text: str, width: int) -> str:
    """Text in exactly ``width`` cells, cut with an ellipsis where it is longer."""
    text = clean(text.replace("\t", " ").replace("\n", " "))
    if cell_len(text) <= width:
        return set_cell_size(text, width)
    return set_cell_size(text, max(0, width - 1)) + "…"[:width]


def widths(columns: Sequence[Column], lines: Sequence[Line], width: int) -> list[int]:
    """The width of each column in a line of ``width`` cells with one between columns.

    A column that is left out has a width of 0.
    """
    there = [width >= column.from_width for column in columns]
    taken = [
        min(column.most, max(map(cell_len, (column.head, *texts)))) if column.most and shown else 0
        for column, shown, texts in zip(columns, there, _texts(columns, lines), strict=True)
    ]
    sharing = sum(shown and not column.most for column, shown in zip(columns, there, strict=True))
    share = max(1, width - sum(taken) - sum(there) + 1) // max(1, sharing)
    return [
        size or (share if shown and not column.most else 0)
        for size, shown, column in zip(taken, there, columns, strict=True)
    ]


def _texts(columns: Sequence[Column], lines: Sequence[Line]) -> list[set[str]]:
    rows = [line.cells for line in lines if line.key]
    many = len(columns)
    cells = [row if len(row) == many else row[:-1] for row in rows]
    return [{row[number] for row in cells if number < len(row)} for number in range(many)]
