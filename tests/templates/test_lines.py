"""The locator against texts whose lines are known."""

from __future__ import annotations

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from tracker.templates.lines import Lines

TEXT = '''# a remark with [[task]] and key = 1 in it
top = 1

[phase]
name = "x" # name = 2
"quoted key" = 'single [[no]]'
dotted.inner = """
[[task]]
fake = 1 \\"""
""""
other = \'\'\'
crew = 3
\'\'\'

[[task]]
key = "one"
hours = {low = [1, 2], likely = [
  3,  # first
  4,
]}
[task.more]
note = 1979-05-27 07:32:00

[[task]]
  key = "two"
[[task.parts]]
part = "a"
[[task.parts]]
part = "b"
list = [
  {x = 1},
  {x = 2, "y z" = [
    true]},
]
'''


def test_the_sample_is_toml() -> None:
    assert tomllib.loads(TEXT)["task"][1]["parts"][1]["list"][1]["y z"] == [True]


def line_with(start: str, nth: int = 1) -> int:
    found = [n for n, line in enumerate(TEXT.split("\n"), 1) if line.lstrip().startswith(start)]
    return found[nth - 1]


def test_every_key_of_the_sample_is_found_on_its_line() -> None:
    lines = Lines(TEXT)
    expected = {
        ("top",): line_with("top"),
        ("phase",): line_with("[phase]"),
        ("phase", "name"): line_with("name"),
        ("phase", "quoted key"): line_with('"quoted key"'),
        ("phase", "dotted"): line_with("dotted"),
        ("phase", "dotted", "inner"): line_with("dotted"),
        ("phase", "other"): line_with("other"),
        ("task",): line_with("[[task]]", 2),
        ("task", 0): line_with("[[task]]", 2),
        ("task", 0, "key"): line_with('key = "one"'),
        ("task", 0, "hours", "low"): line_with("hours"),
        ("task", 0, "hours", "likely"): line_with("hours"),
        ("task", 0, "hours", "likely", 0): line_with("3,"),
        ("task", 0, "hours", "likely", 1): line_with("4,"),
        ("task", 0, "more"): line_with("[task.more]"),
        ("task", 0, "more", "note"): line_with("note"),
        ("task", 1): line_with("[[task]]", 3),
        ("task", 1, "key"): line_with('key = "two"'),
        ("task", 1, "parts", 0, "part"): line_with('part = "a"'),
        ("task", 1, "parts", 1): line_with("[[task.parts]]", 2),
        ("task", 1, "parts", 1, "part"): line_with('part = "b"'),
        ("task", 1, "parts", 1, "list", 0, "x"): line_with("{x = 1}"),
        ("task", 1, "parts", 1, "list", 1, "y z", 0): line_with("true"),
    }
    assert {where: lines.of(where) for where in expected} == expected


def test_a_path_without_a_line_has_that_of_what_is_around_it() -> None:
    lines = Lines(TEXT)
    assert lines.of(("task", 1, "missing", "deep")) == lines.of(("task", 1))
    assert lines.of(("nowhere",)) == 1
    assert lines.of(()) == 1


def test_lines_are_counted_the_same_with_either_line_ending() -> None:
    unix, dos = Lines(TEXT), Lines(TEXT.replace("\n", "\r\n"))
    for where in (("top",), ("task", 1, "parts", 1, "list", 1, "y z", 0)):
        assert unix.of(where) == dos.of(where)


KEYS = st.sampled_from(["a", "b-2", '"q [ ] = #"', "'l.l'", "dot.ted"])
VALUES = st.sampled_from(
    [
        "1",
        "-2.5e3",
        '"text # [x]"',
        "'lit ] }'",
        '"""two\nlines = 1"""',
        "'''raw\n[[t]]\n'''",
        "[1, 2]",
        "[\n  [1, # note\n 2],\n  'x',\n]",
        "{p = 1, q = {r = [1,\n 2]}}",
        "true",
        "2030-01-01",
        '"esc \\" \\\\"',
        '""',
    ]
)
NOISE = st.sampled_from(["", "# [[t]]", "  ", "\t# k = 1"])


def path_of(key: str) -> tuple[str, ...]:
    """The names in a key, the inner one too where it is dotted."""
    ((name, value),) = tomllib.loads(f"{key} = 1").items()
    return (name, *value) if isinstance(value, dict) else (name,)


TABLES = st.lists(
    st.lists(st.tuples(KEYS, VALUES, NOISE), max_size=4, unique_by=lambda pair: pair[0]),
    min_size=1,
    max_size=5,
)


@given(TABLES)
def test_keys_written_at_known_lines_are_found_there(tables: list) -> None:
    text = ""
    expected = {}
    for number, pairs in enumerate(tables):
        expected[("t", number)] = text.count("\n") + 1
        text += "[[t]]\n"
        for key, value, noise in pairs:
            text += f"{noise}\n"
            expected[("t", number, *path_of(key))] = text.count("\n") + 1
            text += f"{key} = {value} {noise}\n"

    tomllib.loads(text)
    lines = Lines(text)

    assert {where: lines.of(where) for where in expected} == expected
