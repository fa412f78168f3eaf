"""The rules of a template that its shape alone can't say: names, bands, limits, references."""

from __future__ import annotations

from collections.abc import Mapping

from tracker.templates import check_rules, shape
from tracker.templates.check_rules import asked_of, known
from tracker.templates.names import Names, Rows
from tracker.templates.reader import Row
from tracker.templates.values import nearest, shown


def check_template(rows: Rows, name: str, names: Names) -> None:
    """Raise :class:`BadFile` at the first rule that a template breaks.

    Parameters
    ----------
    rows: the template as read.
    name: what its phase must be called.
    names: this template and those it may refer to.
    """
    head = rows["phase"][0]
    if head["name"] != name:
        raise head.wrong("name", f"name is {shown(head['name'])}; after its file it is '{name}'")
    if name in head.get("after", ()):
        raise head.wrong("after", f"{name} can't come after itself")
    for table in ("holdpoint", "task", "check"):
        _keys_are_free(rows[table], table, name, names)
    for row in rows["holdpoint"]:
        known(row, "buries", shape.placed_kinds())
    for row in rows["task"]:
        _task(row)
    _no_circle(rows["task"], name, names)
    check_rules.check_checks(rows["check"])


def _keys_are_free(rows: tuple[Row, ...], table: str, name: str, names: Names) -> None:
    seen: dict[str, Row] = {}
    for row in rows:
        key = row["key"]
        if key in seen:
            problem = f"key {shown(key)} is taken by the [[{table}]] at line {seen[key].line}"
            raise row.wrong("key", problem)
        others = [home for home in names.homes(table, key) if home != name]
        if others:
            raise row.wrong("key", f"key {shown(key)} is taken by a [[{table}]] of {others[0]}")
        seen[key] = row


def _task(row: Row) -> None:
    known(row, "buries", shape.placed_kinds())
    if "vehicle" in row:
        asked_of(row, "vehicle", shape.fields_of("once"), "the vehicle")
    bands = row["hours"]
    for band, pair in bands.items():
        if len(pair) != 2:
            problem = f"{band} in hours is {shown(pair)}; it must be [hours, hours per metre]"
            raise row.wrong(("hours", band), problem)
    for part in (0, 1):
        if not bands["low"][part] <= bands["likely"][part] <= bands["high"][part]:
            raise row.wrong("hours", "hours must rise from low over likely to high")
    if bands["low"] == [0.0, 0.0]:
        raise row.wrong(("hours", "low"), "low in hours is nothing at all; no task takes no time")
    per = ("m", "once", *shape.placed_kinds(), "bay", "fixture", "appliance")
    for place, part in enumerate(row.get("parts", ())):
        if part["per"] not in per:
            problem = f"per in parts is {shown(part['per'])}{nearest(part['per'], per)}"
            raise row.wrong(("parts", place, "per"), problem)


def _no_circle(rows: tuple[Row, ...], name: str, names: Names) -> None:
    needs = {
        f"{home}/{row['key']}": [
            need if "/" in need else f"{home}/{need}" for need in row.get("needs", ())
        ]
        for home, template in names.templates.items()
        for row in template["task"]
    }
    held = set(needs)
    while held:  # take away what waits for nothing held, until only circles and what they hold stay
        freed = {task for task in held if not held.intersection(needs[task])}
        if not freed:
            break
        held -= freed
    for row in rows:
        task = f"{name}/{row['key']}"
        circle = _circle_from(task, needs, held) if task in held else ()
        if circle:
            raise row.wrong("needs", f"needs run in a circle: {' needs '.join((*circle, task))}")


def _circle_from(start: str, needs: Mapping[str, list[str]], held: set[str]) -> tuple[str, ...]:
    """A way from a task along its needs back to itself, or nothing."""
    came: dict[str, str] = {}
    todo = [start]
    while todo:
        task = todo.pop()
        for need in needs[task]:
            if need == start:
                way = [task]
                while way[-1] != start:
                    way.append(came[way[-1]])
                return tuple(reversed(way))
            if need in held and need not in came:
                came[need] = task
                todo.append(need)
    return ()
