"""How a state is shown: always a sign and a word, a colour only besides."""

from __future__ import annotations

SIGNS: dict[str, tuple[str, str]] = {
    "open": ("○", "open"),
    "good": ("✓", "good"),
    "bad": ("✗", "bad"),
    "waived": ("~", "waived"),
    "na": ("–", "n/a"),
    "stale": ("↻", "stale"),
    "conflict": ("≠", "conflict"),
}
"""For each state of a point its sign and word."""

HOLD_SIGNS: dict[str, str] = {
    "not due": "◇",
    "open": "◈",
    "ready": "◆",
    "released": "●",
    "lapsed": "!",
    "closed": "■",
    "reopened": "↻",
}
"""For each state of a hold point its sign on the phase line."""


def mark(state: str) -> str:
    """The sign and word of a point's state, such as '✓ good'."""
    sign, word = SIGNS.get(state, ("?", state))
    return f"{sign} {word}"


def hold_mark(state: str) -> str:
    """The sign of a hold point's state; its word goes beside it."""
    return HOLD_SIGNS.get(state, "?")
