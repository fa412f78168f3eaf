"""Reference checks as data, so that they can be run again with a changed table.

A file ``reference_<subject>.py`` beside this one has ``TABLES``, the names of the tables its
checks are about, and ``checks()``, which makes them. A check reaches the tables through the code
under test at the moment it is called, never before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib import import_module
from math import isclose
from pathlib import Path
from types import ModuleType
from typing import Any


@dataclass(frozen=True, slots=True)
class Check:
    """One value of a named source.

    Parameters
    ----------
    helper: the helper it is about.
    name: what is checked.
    source: where the expected value was read; or ``from memory, unverified``, ``common practice,
        no source`` or ``own check by hand``.
    holds: does the program agree?
    """

    helper: str
    name: str
    source: str
    holds: Callable[[], bool]

    def passes(self) -> bool:
        """Does it hold? An error is a no."""
        try:
            return self.holds()
        except Exception:
            return False


def near(
    helper: str,
    name: str,
    source: str,
    computed: Callable[[], Any],
    expected: float,
    *,
    relative: float = 0.0,
    absolute: float = 0.0,
) -> Check:
    """A check that a number lies as near to the printed one as the print is exact."""
    return Check(
        helper,
        name,
        source,
        lambda: isclose(computed(), expected, rel_tol=relative, abs_tol=absolute),
    )


def equal(helper: str, name: str, source: str, computed: Callable[[], Any], expected: Any) -> Check:
    """A check that a word or count is the printed one."""
    return Check(helper, name, source, lambda: bool(computed() == expected))


def references() -> list[ModuleType]:
    """Every file of reference checks."""
    files = sorted(Path(__file__).parent.glob("reference_*.py"))
    return [import_module(f"tests.sizing.{file.stem}") for file in files]


def numbers(node: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The path of every number in a table."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield from numbers(value, (*path, key))
    elif isinstance(node, list):
        for place, value in enumerate(node):
            yield from numbers(value, (*path, place))
    elif isinstance(node, int | float) and not isinstance(node, bool):
        yield path


def changed(node: Any, path: tuple[Any, ...], factor: float) -> Any:
    """A copy of a table with one number multiplied."""
    if not path:
        return node * factor
    copy = dict(node) if isinstance(node, dict) else list(node)
    copy[path[0]] = changed(node[path[0]], path[1:], factor)
    return copy
