"""The strict reader: what it takes, and the one sentence with the right line when it does not."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadFile, BadInput
from tracker.templates.reader import Field, Row, Table, read_tables


def doubled(value: object) -> float:
    if not isinstance(value, str):
        raise BadInput("write it with a unit")
    return float(value) * 2  # a ValueError where it is no number


SHAPE = {
    "head": Table({"title": Field("text", required=True)}, many=False, required=True),
    "run": Table(
        {
            "name": Field("slug", required=True),
            "face": Field("text", one_of=("floor", "roof", "under")),
            "length_m": Field("number", min=0.0, max=200.0),
            "conductors": Field("whole", min=1, max=50),
            "critical": Field("yesno"),
            "bought": Field("date"),
            "notes": Field("texts"),
            "bays": Field("slugs"),
            "readings": Field("numbers", max=9.0),
            "limit": Field("table", fields={"min": Field("number", required=True)}),
            "parts": Field("tables", fields={"part": Field("slug", required=True)}),
            "tail": Field("any", take=doubled),
            "free": Field("any"),
        }
    ),
}

HEAD = '[head]\ntitle = "t"\n'


def rows(text: str) -> tuple[Row, ...]:
    return read_tables(HEAD + text, "runs.toml", SHAPE)["run"]


def test_values_are_taken_as_their_fields_say() -> None:
    text = """
[[run]]
name = "lamp-1"
face = "roof"
length_m = 5
conductors = 2
critical = true
bought = 2030-05-31
notes = "one alone"
bays = ["b1", "b2"]
readings = [1, 2.5]
limit = {min = 3}
parts = [{part = "wire"}, {part = "label"}]
tail = "1.5"
free = {what = ["ever"]}

[[run]]
name = "lamp-2"
"""
    first, second = rows(text)
    assert dict(first.values) == {
        "name": "lamp-1",
        "face": "roof",
        "length_m": 5.0,
        "conductors": 2,
        "critical": True,
        "bought": "2030-05-31",
        "notes": ["one alone"],
        "bays": ["b1", "b2"],
        "readings": [1.0, 2.5],
        "limit": {"min": 3.0},
        "parts": [{"part": "wire"}, {"part": "label"}],
        "tail": 3.0,
        "free": {"what": ["ever"]},
    }
    assert isinstance(first["length_m"], float)
    assert (second.number, second["name"], second.get("face"), "face" in second) == (
        1,
        "lamp-2",
        None,
        False,
    )
    assert list(second) == ["name"]


def test_each_row_knows_its_line_and_that_of_its_keys() -> None:
    first, second = rows('[[run]]\nname = "a"\n\n[[run]]\nname = "b"\nnotes = [\n"x",\n"y"]\n')
    assert (first.line, second.line) == (3, 6)
    assert second.wrong("name", "why").line == 7
    assert second.wrong(("notes", 1), "why").line == 10
    assert str(second.wrong("absent", "why")) == "runs.toml:6: why"


def test_tables_that_a_file_leaves_out_are_empty() -> None:
    assert rows("") == ()


# What follows the header of a second [[run]]; the faulty line, counted from the first [[run]];
# words of the error.
FAULTS = [
    ('nam = "b"', 4, ["unknown key 'nam' in [[run]]", "did you mean name?", "allowed: bays"]),
    ('face = "roof"', 3, ["[[run]] lacks the key 'name'"]),
    ('name = "B 1"', 4, ["name in [[run]] is 'B 1'", "small letters"]),
    ("name = 3", 4, ["name in [[run]] is 3", "a short name"]),
    ('name = ""', 4, ["name in [[run]] is empty"]),
    ('name = "b"\nface = "rof"', 5, ["face in [[run]] is 'rof'", "did you mean roof?", "under"]),
    ('name = "b"\nface = ["roof"]', 5, ["face in [[run]] is ['roof']", "a text in quotes"]),
    ('name = "b"\n\nlength_m = "5"', 6, ["length_m in [[run]] is '5'", "must be a number"]),
    ('name = "b"\nlength_m = -0.1', 5, ["length_m in [[run]] is -0.1", "0 or more"]),
    ('name = "b"\nlength_m = 200.5', 5, ["length_m in [[run]] is 200.5", "200 or less"]),
    ('name = "b"\nlength_m = nan', 5, ["length_m in [[run]] is nan", "must be a number"]),
    ('name = "b"\nlength_m = inf', 5, ["length_m in [[run]] is inf", "must be a number"]),
    ('name = "b"\nlength_m = true', 5, ["length_m in [[run]] is true", "must be a number"]),
    ('name = "b"\nlength_m = 1' + "0" * 400, 5, ["must be a number"]),
    ('name = "b"\nlength_m = 0x' + "f" * 5000, 5, ["a very long number"]),
    ('name = "b"\nconductors = 2.0', 5, ["conductors in [[run]] is 2.0", "a whole number"]),
    ('name = "b"\nconductors = true', 5, ["conductors in [[run]] is true", "a whole number"]),
    ('name = "b"\nconductors = 0x' + "f" * 5000, 5, ["a whole number"]),
    ('name = "b"\ncritical = "yes"', 5, ["critical in [[run]] is 'yes'", "true or false"]),
    ('name = "b"\ncritical = 1', 5, ["critical in [[run]] is 1", "true or false"]),
    ('name = "b"\nbought = "soon"', 5, ["bought in [[run]] is 'soon'", "a date such as"]),
    ('name = "b"\nbought = 2030-05-31T08:00:00', 5, ["bought in [[run]]", "a date such as"]),
    ('name = "b"\nnotes = [\n"x",\n2]', 7, ["notes in [[run]] is 2", "a text in quotes"]),
    ('name = "b"\nbays = ["b1", "B2"]', 5, ["bays in [[run]] is 'B2'", "small letters"]),
    ('name = "b"\nreadings = [1,\n10]', 6, ["readings in [[run]] is 10", "9 or less"]),
    ('name = "b"\nlimit = 3', 5, ["limit in [[run]] is 3", "a table in braces"]),
    ('name = "b"\nlimit = {mn = 3}', 5, ["unknown key 'mn' in limit in [[run]]", "min"]),
    ('name = "b"\nlimit = {}', 5, ["limit in [[run]] lacks the key 'min'"]),
    ('name = "b"\n[run.limit]\nmin = "x"', 6, ["min in limit in [[run]] is 'x'"]),
    ('name = "b"\nparts = {part = "x"}', 5, ["parts in [[run]] is a table", "a list of tables"]),
    ('name = "b"\nparts = [\n{part = "x"},\n{}]', 7, ["parts in [[run]] lacks the key 'part'"]),
    ('name = "b"\n[[run.parts]]\npart = "x"\n[[run.parts]]\npart = 1', 8, ["is 1"]),
    ('name = "b"\nparts = [3]', 5, ["parts in [[run]] is 3", "a table in braces"]),
    ('name = "b"\ntail = 3', 5, ["tail in [[run]] is 3: write it with a unit"]),
    ('name = "b"\ntail = "x"', 5, ["tail in [[run]] is 'x': could not convert"]),
    ('name = "a\\u001b[2Jb"', 4, ["name in [[run]] is 'a?[2Jb'", "can't be printed"]),
    ('name = "b"\n"k\\u001b" = 1', 5, ["unknown key 'k?' in [[run]]"]),
    ('name = "b"\nface = "' + "x" * 99 + '"', 5, ["x" * 57 + "...'", "allowed: floor"]),
    ('name = "b"\n[rum]', 5, ["unknown table or key 'rum'", "did you mean run?", "head, run"]),
    ('name = "b"\n[[zebra]]', 5, ["unknown table or key 'zebra'; allowed: head, run"]),
    ('name = "b"\nname = "c"', 5, ["not readable as TOML: cannot overwrite"]),
    ('name = "b"\nlength_m = ', 5, ["not readable as TOML: invalid value"]),
    ('name = "b"\nnotes = """\n\nx', 7, ["not readable as TOML: unterminated string"]),
    ('name = "b"\nbought = 2030-13-01', 5, ["not readable as TOML: "]),
]


@pytest.mark.parametrize(("fault", "line", "words"), FAULTS)
def test_a_fault_is_one_sentence_with_its_line_key_and_value(
    fault: str, line: int, words: list[str]
) -> None:
    good = '[[run]]\nname = "a"\n'
    with pytest.raises(BadFile) as caught:
        rows(good + "[[run]]\n" + fault)
    message = str(caught.value)
    assert caught.value.line == line + 2  # after the two lines of the head
    assert message.startswith(f"runs.toml:{line + 2}: ")
    assert [word for word in words if word not in message] == []
    assert message.isprintable()
    assert len(message) < 400


def test_a_table_that_must_be_there_is_missed() -> None:
    with pytest.raises(BadFile, match=r"^f.toml:1: the table \[head\] is missing$"):
        read_tables("", "f.toml", SHAPE)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[[head]]\ntitle = "x"', "head must be written as [head], once"),
        ("head = 1", "head must be written as [head], once"),
        (HEAD + "[run]", "run must be written as [[run]], once for each"),
        ("run = [1, 2]\n" + HEAD, "run must be written as [[run]], once for each"),
    ],
)
def test_the_kind_of_a_table_is_held_to(text: str, words: str) -> None:
    with pytest.raises(BadFile, match=re.escape(words)):
        read_tables(text, "f.toml", SHAPE)


@pytest.mark.parametrize(
    ("text", "words"),
    [("x = " + "[" * 9000, "nested too deep"), ("x = " + "1" * 5000, "too many digits")],
)
def test_texts_that_overwhelm_the_parser_are_refused_in_words(text: str, words: str) -> None:
    with pytest.raises(BadFile, match=words):
        read_tables(text, "f.toml", SHAPE)


@pytest.mark.parametrize("depth", range(50, 600, 25))
def test_deep_nesting_before_a_fault_is_a_bad_file_at_every_depth(depth: int) -> None:
    text = HEAD + "[[run]]\nfree = " + "[" * depth + "]" * depth + "\nname = 3\n"
    with pytest.raises(BadFile):
        read_tables(text, "f.toml", SHAPE)


WORDS = """[[run]] [head] name = "a" 1 { } [ ] , ' \""" # limit parts title \\ é 2030-01-01 . nan"""
SCRAPS = st.sampled_from([*WORDS.split(), "\n", " ", "\x00"])


@given(st.lists(SCRAPS, max_size=40))
def test_no_text_at_all_ends_in_anything_but_rows_or_one_sentence(scraps: list[str]) -> None:
    text = "".join(scraps)
    try:
        found = read_tables(text, "f.toml", SHAPE)
    except BadFile as error:
        assert str(error).isprintable()
        assert error.line is None or 1 <= error.line <= text.count("\n") + 1
    else:
        assert set(found) == set(SHAPE)
