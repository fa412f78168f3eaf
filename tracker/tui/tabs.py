"""The line of views: which there are, how many of what each holds, and which is in hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.cells import cell_len

from tracker.tui.columns import fit

Told = tuple[str, str]
"""What is told of a view at length, and in short."""


def tabs(
    views: Mapping[str, Told], numbers: Sequence[int], here: str, width: int
) -> list[tuple[str, bool]]:
    """The line in pieces of text, and whether each is the view in hand; at most ``width`` cells.

    What is told of the other views is shortened first, then left out, then the names.

    Parameters
    ----------
    views: view -> what is told of it. numbers: the key of each. here: the view in hand.
    """
    for other, own in ((0, 0), (1, 0), (2, 0), (2, 1), (2, 2)):
        pieces = [
            _piece(number, view, told, own if view == here else other, view == here, other == 2)
            for (view, told), number in zip(views.items(), numbers, strict=True)
        ]
        if _wide(pieces) <= width:
            return pieces
    short = [
        (f"[{number} {view}]" if view == here else f" {number} ", view == here)
        for view, number in zip(views, numbers, strict=True)
    ]
    return short if _wide(short) <= width else [(fit("".join(t for t, _ in short), width), False)]


def _piece(
    number: int, view: str, told: Told, short: int, here: bool, tight: bool
) -> tuple[str, bool]:
    """One view; names alone are told apart by their numbers, so they may stand close."""
    text = f"{number} {view} {(*told, '')[short]}".rstrip()
    if tight:
        return (f" [{text}]" if here else f" {text}", here)
    return (f"[{text}]" if here else f" {text} ", here)


def _wide(pieces: Sequence[tuple[str, bool]]) -> int:
    return cell_len("".join(text for text, _ in pieces).rstrip())
