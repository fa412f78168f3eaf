"""What the rooms take from outside: nothing but what stands here.

The pure rooms do no input or output, read no clock and draw no random number. Reading tables of
their own, packaged beside the code, is the one exception, file by file.
"""

from __future__ import annotations

import ast
import sys

import pytest

from tests.house.source import called, imports_of, room_of_file, source_files, tree_of

PURE_ROOMS = ("errors", "act", "quantity", "build", "sizing", "plan", "report")
PURE_LIBRARY = {
    "__future__",
    "bisect",
    "collections",
    "contextlib",
    "dataclasses",
    "datetime",
    "difflib",
    "enum",
    "fnmatch",
    "functools",
    "graphlib",
    "hashlib",
    "heapq",
    "itertools",
    "json",
    "math",
    "operator",
    "re",
    "string",
    "textwrap",
    "types",
    "typing",
    "unicodedata",
}
READS_ITS_TABLE: dict[str, set[str]] = {
    "tracker/build/kinds.py": {"tomllib", "pathlib", "importlib"},
    "tracker/build/unsaid.py": {"tomllib", "pathlib"},
    "tracker/plan/demand.py": {"tomllib", "pathlib"},
    "tracker/plan/usual.py": {"tomllib", "pathlib"},
    "tracker/sizing/tables.py": {"tomllib", "pathlib"},
    "tracker/sizing/spec.py": {"importlib"},
}
OUTSIDE: dict[str, set[str]] = {
    "app": {"platformdirs", "tomli_w"},
    "cli": {"tomli_w"},
    "tui": {"textual", "rich"},
}
"""Third-party packages and the rooms that may use them."""

CLOCK_OR_DISK = {"now", "today", "utcnow", "time", "monotonic", "open", "input", "print"}


def test_pure_rooms_take_only_harmless_parts_of_the_library() -> None:
    impure = [
        str(found)
        for file in source_files()
        if room_of_file(file) in PURE_ROOMS
        for found in imports_of(file)
        if (top := found.name.split(".")[0]) not in PURE_LIBRARY | {"tracker"}
        and top not in READS_ITS_TABLE.get(found.file, set())
    ]

    assert impure == []


def test_pure_rooms_read_no_clock_and_open_nothing() -> None:
    impure = [
        f"{file.name}:{node.lineno} calls {called(node)}"
        for file in source_files()
        if room_of_file(file) in PURE_ROOMS
        for node in ast.walk(tree_of(file))
        if isinstance(node, ast.Call) and called(node) in CLOCK_OR_DISK
    ]

    assert impure == []


def test_every_file_that_reads_a_table_is_there_and_needs_to_be_named() -> None:
    reading = {
        found.file
        for file in source_files()
        if room_of_file(file) in PURE_ROOMS
        for found in imports_of(file)
        if found.name.split(".")[0] in {"tomllib", "pathlib", "importlib"}
    }

    assert reading == set(READS_ITS_TABLE)


def test_other_peoples_packages_stay_in_their_rooms() -> None:
    known = set(sys.stdlib_module_names) | {"tracker"}

    strays = [
        str(found)
        for file in source_files()
        for found in imports_of(file)
        if (top := found.name.split(".")[0]) not in known
        and top not in OUTSIDE.get(room_of_file(file), set())
        and top != "<computed>"
    ]

    assert strays == []


def test_only_the_command_line_computes_what_it_imports() -> None:
    computed = {
        room_of_file(file)
        for file in source_files()
        for found in imports_of(file)
        if found.name == "<computed>"
    }

    assert computed <= {"cli"}


@pytest.mark.parametrize("text", ["datetime.now(tz)", "open('x')", "time.time()", "date.today()"])
def test_a_call_to_clock_or_disk_is_known_when_seen(text: str) -> None:
    call = ast.parse(text, mode="eval").body

    assert isinstance(call, ast.Call)
    assert called(call) in CLOCK_OR_DISK
