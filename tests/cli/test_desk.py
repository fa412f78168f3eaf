from __future__ import annotations

import json

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


def test_nothing_is_coloured_where_nobody_sees_it(capsys: pytest.CaptureFixture[str]) -> None:
    Desk().say("head", head=True)

    assert capsys.readouterr().out == "head\n"


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_a_heading_is_bold_unless_that_is_not_wanted(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, name: str, value: str
) -> None:
    desk = Desk()
    monkeypatch.setattr(desk.out, "isatty", lambda: True, raising=False)
    monkeypatch.setenv("TERM", "xterm")
    desk.say("head", head=True)
    monkeypatch.setenv(name, value)
    desk.say("head", head=True)

    assert capsys.readouterr().out == "\033[1mhead\033[0m\nhead\n"


def test_nothing_that_is_said_can_steer_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    nasty = "a\033[2Jb\x9b31mc\rd\u202ee"
    desk = Desk()

    desk.say(nasty)
    desk.wrapped(nasty, head=True)
    desk.table([(nasty, nasty)])
    desk.warn(nasty + "\nnext")
    desk.json({"key": nasty})

    said = capsys.readouterr()
    assert said.out.splitlines()[:3] == [
        "a[2Jb31mcde",
        "a[2Jb31mc de",
        "a[2Jb31mcde  a[2Jb31mcde",
    ]
    assert said.err == "closein: a[2Jb31mcde next\n"
    assert "".join(said.out.split("\n")).isprintable()
    assert json.loads("".join(said.out.splitlines()[3:])) == {"key": nasty}


@pytest.mark.parametrize(("stated", "width"), [("100", 100), ("5", 40), ("0", 80), ("wide", 80)])
def test_the_width_is_what_columns_says_within_reason(
    monkeypatch: pytest.MonkeyPatch, stated: str, width: int
) -> None:
    monkeypatch.setenv("COLUMNS", stated)

    assert Desk().width == width
