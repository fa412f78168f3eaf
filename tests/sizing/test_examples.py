"""The command lines that each helper shows as examples are ones it answers."""

from __future__ import annotations

import shlex
from typing import Any

import pytest

from tracker.sizing.spec import HELPERS, Helper, helper

FROM_BUILD = "--from-build"
"""An example with it needs a build, so the tests of the command run it."""

OF_THE_COMMAND = {"--to": 1, "--at": 1, "--json": 0, "--why": 1}


def _lines(found: Helper) -> list[list[str]]:
    return [shlex.split(line) for line in found.examples.splitlines()]


def _typed(found: Helper, words: list[str]) -> dict[str, Any]:
    """What the command line gives the helper, by its inputs."""
    by_flag = {each.flag: each for each in found.inputs}
    typed: dict[str, Any] = {}
    rest = iter(words)
    for word in rest:
        if word in OF_THE_COMMAND:
            for _ in range(OF_THE_COMMAND[word]):
                next(rest)
            continue
        each = by_flag[word]
        value = True if each.type == "yesno" else next(rest)
        if each.repeated:
            typed.setdefault(each.name, []).append(value)
        else:
            typed[each.name] = value
    return typed


@pytest.mark.parametrize("name", HELPERS)
def test_every_example_is_answered(name: str) -> None:
    found = helper(name)
    tables = {each.flag for each in found.inputs if each.type == "table"} | {FROM_BUILD}
    lines = [words for words in _lines(found) if words and not tables & set(words)]

    assert lines
    for command, size, called, *words in lines:
        assert (command, size, called) == ("closein", "size", name)
        assert found.answer(_typed(found, words)).title
