from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.cli.desk import Desk, wrap

TEXTS = st.text(alphabet="ab, 'é", max_size=200)


@given(TEXTS, st.integers(12, 80))
def test_wrapping_keeps_every_word_in_order(text: str, width: int) -> None:
    lines = wrap(text, width)

    assert " ".join(lines).split() == text.split()
    assert all(len(line) <= width or " " not in line for line in lines)


def test_a_table_is_aligned_and_wraps_its_last_column(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "40")

    Desk().table([("a", 1.5, "word " * 8), ("bbb", None, "end")], ("name", "size", "text"))

    assert capsys.readouterr().out == (
        "name  size  text\n"
        "a     1.5   word word word word word\n"
        "            word word word\n"
        "bbb         end\n"
    )


def test_a_table_without_rows_prints_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    Desk().table([], ("name",))

    assert capsys.readouterr().out == ""


def test_nothing_is_coloured_where_nobody_sees_it() -> None:
    assert Desk().strong("head") == "head"


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_colour_is_left_out_when_it_is_not_wanted(
    monkeypatch: pytest.MonkeyPatch, name: str, value: str
) -> None:
    desk = Desk()
    monkeypatch.setattr(desk.out, "isatty", lambda: True, raising=False)
    monkeypatch.setenv("TERM", "xterm")
    coloured = desk.strong("head")
    monkeypatch.setenv(name, value)

    assert coloured == "\033[1mhead\033[0m"
    assert desk.strong("head") == "head"


@pytest.mark.parametrize(("stated", "width"), [("100", 100), ("5", 40), ("0", 80), ("wide", 80)])
def test_the_width_is_what_columns_says_within_reason(
    monkeypatch: pytest.MonkeyPatch, stated: str, width: int
) -> None:
    monkeypatch.setenv("COLUMNS", stated)

    assert Desk().width == width
