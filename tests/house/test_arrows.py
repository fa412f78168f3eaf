"""Which room may know which: what is not in the table is forbidden.

A room is a folder or file directly under the package. The table lists it from the bottom up, and
a room may only name rooms above its own line in the table.
"""

from __future__ import annotations

import ast

import pytest

from tests.house.source import (
    Import,
    imports_in,
    imports_of,
    room_of_file,
    room_of_import,
    source_files,
)

MAY_IMPORT: dict[str, tuple[str, ...]] = {
    "__init__": (),
    "errors": (),
    "act": (),
    "quantity": ("errors",),
    "journal": ("errors", "act"),
    "sizing": ("errors", "quantity"),
    "build": ("errors", "act", "quantity"),
    "plan": ("errors", "quantity", "build"),
    "templates": ("errors", "act", "quantity", "build"),
    "report": ("errors", "quantity", "build", "plan"),
    "app": ("errors", "act", "quantity", "journal", "sizing", "build", "plan", "templates"),
    "tui": ("errors", "act", "build", "app"),
    "cli": ("errors", "act", "sizing", "build", "plan", "templates", "app", "tui"),
    "__main__": ("cli",),
}
"""The command line starts the screen, lazily: the one arrow between the two faces."""


def _arrows() -> list[tuple[str, str, Import]]:
    """Every import from one room into another."""
    return [
        (room_of_file(file), room, found)
        for file in source_files()
        for found in imports_of(file)
        if (room := room_of_import(found.name)) is not None and room != room_of_file(file)
    ]


def _rooms_with_code() -> set[str]:
    """Rooms that hold more than an empty or purely descriptive ``__init__``."""
    return {room_of_file(file) for file in source_files() if file.name != "__init__.py"}


def test_no_import_goes_where_the_table_does_not_let_it() -> None:
    forbidden = [
        str(found) for room, other, found in _arrows() if other not in MAY_IMPORT.get(room, ())
    ]

    assert forbidden == []


def test_every_row_of_the_table_is_used() -> None:
    used = {(room, other) for room, other, _ in _arrows()}
    built = _rooms_with_code()

    idle = [
        f"{room} -> {other}"
        for room, others in MAY_IMPORT.items()
        for other in others
        if {room, other} <= built and (room, other) not in used
    ]

    assert idle == []


def test_the_table_names_every_room_there_is() -> None:
    assert {room_of_file(file) for file in source_files()} - set(MAY_IMPORT) == set()


def test_arrows_run_one_way_only() -> None:
    order = list(MAY_IMPORT)

    upward = [
        f"{room} -> {other}"
        for room, others in MAY_IMPORT.items()
        for other in others
        if order.index(other) >= order.index(room)
    ]

    assert upward == []


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("def f():\n    import tracker.tui", "tracker.tui"),
        ("if True:\n    from tracker import journal", "tracker.journal"),
        ("from ..journal import store", "tracker.journal"),
        ("from . import item", "tracker.build"),
        ("from .. import app", "tracker.app"),
        ("import_module('tracker.cli.todo')", "tracker.cli.todo"),
        ("importlib.import_module(f'tracker.cli.{name}')", "tracker.cli"),
        ("import_module(name)", "<computed>"),
    ],
)
def test_an_import_is_found_wherever_it_hides(text: str, name: str) -> None:
    found = [imported for _, imported in imports_in(ast.parse(text), ["tracker", "build"])]

    assert found == [name]
