from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.cli.yard import Yard
from tracker.cli.main import COMMANDS, help_text, take_build
from tracker.errors import BadInput


def test_a_wrong_command_is_one_sentence_with_what_was_meant(yard: Yard) -> None:
    assert "did you mean todo?" in yard.refused("tdo")


def test_a_wrong_option_is_one_sentence_with_what_was_meant(yard: Yard) -> None:
    assert "'--by-bya' is no option of closein todo; did you mean --by-bay" in yard.refused(
        "todo", "--by-bya"
    )


def test_an_option_is_never_guessed_from_its_beginning(yard: Yard) -> None:
    assert "'--goo' is no option" in yard.refused("check", "gas-tight", "--goo")


def test_what_is_missing_is_named(yard: Yard) -> None:
    assert yard.refused("book", "pre-foam").startswith("DATE is missing")


def test_control_signs_in_what_was_typed_do_not_reach_the_terminal(yard: Yard) -> None:
    assert "\033" not in yard.refused("td\033[31mo") + yard.refused("todo", "x\033[2J")


@pytest.mark.parametrize("place", ["before", "after", "equals"])
def test_the_build_may_be_named_before_or_after_the_command(yard: Yard, place: str) -> None:
    folder = str(yard.folder)
    words = {
        "before": ("--build", folder, "todo", "--json"),
        "after": ("todo", "--json", "--build", folder),
        "equals": (f"--build={folder}", "todo", "--json"),
    }[place]

    said = yard.anywhere(*words)

    assert (said.status, said.err) == (0, "")
    assert '"build": "Heron"' in said.out


def test_words_after_two_dashes_are_left_alone() -> None:
    assert take_build(["note", "--", "--build", "x"]) == (None, ["note", "--", "--build", "x"])


@pytest.mark.parametrize("words", [["todo", "--build"], ["--build=", "todo"]])
def test_build_needs_a_folder(words: list[str]) -> None:
    with pytest.raises(BadInput, match="--build needs a folder"):
        take_build(words)


def test_a_folder_that_is_no_build_is_said_so(yard: Yard, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()

    said = yard.anywhere("todo", "--build", str(tmp_path / "empty"))

    assert said.status == 2
    assert "is no build" in said.err


def test_the_build_is_found_from_a_folder_inside_it(
    yard: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(yard.folder / "photos")

    assert yard.anywhere("check", "gas-tight", "--good").status == 0


def test_only_a_command_that_reads_falls_back_on_the_build_opened_last(yard: Yard) -> None:
    assert yard.anywhere("todo").status == 0

    before = yard.files()
    said = yard.anywhere("check", "gas-tight", "--good")

    assert said.status == 2
    assert "no build here" in said.err
    assert yard.files() == before


def test_the_screen_is_not_opened_where_nobody_could_see_it(yard: Yard) -> None:
    said = yard.run()

    assert said.status == 2
    assert "the screen needs a terminal" in said.err


def test_an_interrupt_leaves_without_a_word(yard: Yard, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*words: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("tracker.cli.todo.run", interrupted)

    said = yard.run("todo")

    assert (said.status, said.out, said.err) == (130, "", "")


def test_the_help_fits_a_screen_and_names_every_command() -> None:
    lines = help_text().splitlines()

    assert len(lines) <= 24
    assert max(map(len, lines)) <= 80
    assert all(f" {name} " in help_text() for name in COMMANDS)
    assert "  closein demo" in help_text()


@pytest.mark.parametrize("word", ["--help", "-h", "help"])
def test_help_is_there_without_a_build(yard: Yard, word: str) -> None:
    said = yard.anywhere(word)

    assert (said.status, said.out, said.err) == (0, help_text(), "")


def test_help_imports_no_command() -> None:
    import subprocess

    code = (
        "import sys; from tracker.cli.main import main; main(['--help']);"
        "print(sorted(m for m in sys.modules if m.startswith('tracker.')), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stderr.strip() == "['tracker.cli', 'tracker.cli.main', 'tracker.errors']"


def _written() -> list[str]:
    folder = Path(sys.modules["tracker.cli.main"].__file__ or "").parent
    return [name for name, (file, _) in COMMANDS.items() if (folder / f"{file}.py").exists()]


@pytest.mark.parametrize("name", _written())
def test_each_commands_help_fits_a_screen_and_has_an_example(yard: Yard, name: str) -> None:
    said = yard.anywhere(name, "--help")

    lines = said.out.splitlines()
    assert (said.status, said.err) == (0, "")
    assert len(lines) <= 24, said.out
    assert max(map(len, lines)) <= 80, [line for line in lines if len(line) > 80]
    assert f"  closein {name}" in said.out


def test_the_help_of_check_names_every_option_it_takes(yard: Yard) -> None:
    from tracker.cli.check import arguments
    from tracker.cli.options import Parser

    parser = Parser(prog="closein check")
    arguments(parser)
    options = {name for name in parser._option_string_actions if name.startswith("--")}

    text = yard.anywhere("check", "--help").out
    missing = {name for name in options if name not in text}
    assert missing == {"--help"}


def test_a_number_that_is_none_is_said_so_in_plain_words(yard: Yard) -> None:
    said = yard.refused("today", "--crew", "2.5")

    assert said.startswith("--crew takes a whole number; '2.5' is not")
