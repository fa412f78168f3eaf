"""The parts of the screen that are plain text: footer, phase line, strip, columns, colours."""

from __future__ import annotations

import re
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.color import Color

from tracker.tui.actions import ACTIONS, VIEWS, footer, help_rows
from tracker.tui.columns import Column, Line, fit, widths
from tracker.tui.marks import HOLD_SIGNS, SIGNS
from tracker.tui.phaseline import phase_line_text
from tracker.tui.screen import BuildScreen
from tracker.tui.tabs import tabs
from tracker.tui.theme import DARK, LIGHT
from tracker.tui.words import days_words, strip_words


@pytest.mark.parametrize(("view", "width"), list(product(VIEWS, (40, 78, 118, 200))))
def test_the_footer_is_never_wider_than_the_screen(view: str, width: int) -> None:
    keys = footer(view, width)

    assert cell_len(keys) <= width
    assert keys.endswith("? help  q quit")


def test_every_action_has_a_deed_and_stands_in_the_help() -> None:
    helped = {text for _, text in help_rows()}
    for action in ACTIONS:
        name = re.match(r"\w+", action.name)
        assert name is not None and hasattr(BuildScreen, f"action_{name[0]}")
        assert action.help in helped


def test_no_key_does_two_things() -> None:
    keys = [key for action in ACTIONS for key in action.keys]

    assert len(keys) == len(set(keys))


def test_no_two_states_share_a_sign_or_word() -> None:
    assert len({sign for sign, _ in SIGNS.values()}) == len(SIGNS)
    assert len({word for _, word in SIGNS.values()}) == len(SIGNS)
    assert set(HOLD_SIGNS) >= {"open", "ready", "released", "lapsed", "closed", "reopened"}


@given(
    st.lists(st.integers(0, 99_999), min_size=7, max_size=7),
    st.sampled_from(VIEWS),
    st.integers(20, 200),
)
def test_the_line_of_views_is_never_wider_than_the_screen_and_keeps_the_one_in_hand(
    counts: list[int], here: str, width: int
) -> None:
    told = {
        view: (f"{count} to do, only those", str(count))
        for view, count in zip(VIEWS, counts, strict=True)
    }
    pieces = tabs(told, range(1, 8), here, width)
    line = "".join(text for text, _ in pieces).rstrip()

    assert cell_len(line) <= width
    assert width < 40 or f"[{VIEWS.index(here) + 1} {here}" in line


def test_the_line_of_views_tells_less_of_the_others_first() -> None:
    told = {"checks": ("12 to do", "12"), "parts": ("3 shortages", "3")}

    def line(width: int) -> str:
        return "".join(text for text, _ in tabs(told, (1, 2), "parts", width)).strip()

    assert line(80) == "1 checks 12 to do [2 parts 3 shortages]"
    assert line(37) == "1 checks 12 [2 parts 3 shortages]"
    assert line(32) == "1 checks [2 parts 3 shortages]"
    assert line(22) == "1 checks [2 parts 3]"
    assert line(14) == "1 [2 parts]"


def phase(slug: str, here: bool = False, holds: int = 1) -> dict[str, Any]:
    """A phase as the view model has it."""
    hold = {"slug": f"{slug}-hold", "state": "open", "open": 12}
    return {"slug": slug, "here": here, "tasks": 3, "done": 0.5, "hold_points": [hold] * holds}


@given(st.integers(1, 12), st.integers(0, 11), st.integers(30, 200))
def test_the_phase_line_keeps_the_current_phase_at_any_width(
    count: int, here: int, width: int
) -> None:
    rows = [phase(f"p{number}", number == here % count) for number in range(count)]
    line, start, end = phase_line_text(rows, width)

    assert line[start:end].startswith(f"▸ p{here % count} 50 %")
    assert line[start:end].endswith("open 12")
    assert cell_len(line) <= width or line[start:end] == line.strip("… ")


def test_the_phase_line_shows_both_neighbours_at_eighty_columns() -> None:
    rows = [phase(slug, slug == "wires", 0) for slug in ("strip-out", "frame", "wires", "foam")]
    line, _, _ = phase_line_text(rows, 78)

    assert "frame" in line and "foam" in line


def strip(**changes: Any) -> dict[str, Any]:
    """A strip as the view model has it, with much on it."""
    return {
        "date": "2027-03-02",
        "people": 3,
        "blockers": 3,
        "shortages": 14,
        "hold_point": "pre-foam",
        "days": 16,
        "reservations": 0,
        "inbox": 2,
        "saved": "2027-03-02T14:02:11+01:00",
        **changes,
    }


def test_the_strip_keeps_what_matters_where_it_is_narrow() -> None:
    wide, narrow = strip_words(strip(), 118), strip_words(strip(), 78)

    assert "3 people" in wide and "2 lines to sort" in wide
    assert len(narrow) <= 78
    for words in ("Tue 02 Mar", "3 blockers", "14 shortages", "pre-foam in 16 days", "saved 14:02"):
        assert words in narrow


def test_an_act_of_another_day_is_shown_with_its_date() -> None:
    assert "saved 01 Mar" in strip_words(strip(saved="2027-03-01T09:30:00+01:00"), 118)


@pytest.mark.parametrize(
    ("days", "words"),
    [
        (None, "not booked"),
        (0, "today"),
        (1, "in 1 day"),
        (16, "in 16 days"),
        (-1, "1 day ago"),
        (-2, "2 days ago"),
    ],
)
def test_days_are_told_as_people_say_them(days: int | None, words: str) -> None:
    assert days_words(days) == words


@given(st.text(max_size=30), st.integers(0, 30))
def test_a_text_is_cut_to_exactly_its_column(text: str, width: int) -> None:
    assert cell_len(fit(text, width)) == width


def test_columns_share_what_the_others_leave_and_give_way_when_it_is_narrow() -> None:
    columns = (Column("a", 10), Column("b"), Column("c", from_width=50))
    lines = [Line("1", ("four", "x", "y"))]

    assert widths(columns, lines, 60) == [4, 27, 27]
    assert widths(columns, lines, 40) == [4, 35, 0]


@pytest.mark.parametrize("theme", [DARK, LIGHT], ids=lambda theme: theme.name)
def test_every_colour_of_text_can_be_read_on_every_ground(theme: Any) -> None:
    inks = [theme.foreground, theme.primary, theme.accent, theme.success, theme.warning]
    inks += [theme.error, theme.variables["quiet"]]
    grounds = [theme.background, theme.surface, theme.panel]
    grounds += [theme.variables["hand"], theme.variables["hand-quiet"]]

    poor = [
        (ink, ground, round(contrast(ink, ground), 2))
        for ink in inks
        for ground in grounds
        if contrast(ink, ground) < 4.5
    ]

    assert poor == []


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours after WCAG 2, 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: str) -> float:
    """The relative luminance of an sRGB colour, 0 to 1, after WCAG 2."""
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in Color.parse(colour).normalized
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
