"""Two colour sets of our own: a dark one, and a light one for sunlight."""

from __future__ import annotations

from textual.theme import Theme

DARK = Theme(
    name="shed",
    primary="#7cc4b8",
    secondary="#9db4c8",
    accent="#f0b84a",
    success="#8fd19a",
    warning="#f0b84a",
    error="#ff8f80",
    foreground="#e8ece6",
    background="#12171a",
    surface="#1a2226",
    panel="#243036",
    dark=True,
    variables={"quiet": "#9aa8a8", "hand": "#243f48", "hand-quiet": "#223038"},
)

LIGHT = Theme(
    name="noon",
    primary="#0a4f63",
    secondary="#33475a",
    accent="#7a4300",
    success="#0b5a22",
    warning="#7a4300",
    error="#a10d0d",
    foreground="#0c0f10",
    background="#ffffff",
    surface="#f1f3f0",
    panel="#dfe5e3",
    dark=False,
    variables={"quiet": "#4a5658", "hand": "#bfe0ea", "hand-quiet": "#e2ecee"},
)

OWN_VARIABLES = DARK.variables
"""Colours the built-in sets lack; every theme must know them before the style sheet is read."""


def other(name: str) -> str:
    """The name of the other of the two sets."""
    return LIGHT.name if name == DARK.name else DARK.name
