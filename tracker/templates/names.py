"""The names that templates know each other by, and the ids made from them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tracker.templates.reader import Row
from tracker.templates.shape import PHASES
from tracker.templates.values import nearest, shown

Rows = Mapping[str, tuple[Row, ...]]
"""One template as read: the rows of each of its tables."""

PREFIX = {"holdpoint": "hold", "task": "task", "check": "check"}
"""What the id of each kind of template item begins with."""


@dataclass(frozen=True, slots=True)
class Names:
    """The rows of several templates by phase name, to look up what they say of each other."""

    templates: Mapping[str, Rows]

    def homes(self, table: str, key: str) -> tuple[str, ...]:
        """The phases in which a row of ``table`` has this key."""
        return tuple(
            phase
            for phase, rows in self.templates.items()
            if any(row["key"] == key for row in rows[table])
        )

    def keys(self, table: str) -> Iterator[str]:
        """Every key of a table, over all templates."""
        for rows in self.templates.values():
            yield from (row["key"] for row in rows[table])

    def phase(self, row: Row, key: str, name: str) -> str:
        """The id of a phase that a row names at ``key``."""
        known = {*PHASES, *self.templates}
        if name not in known:
            raise row.wrong(key, f"{key} is {shown(name)}, which is no phase{nearest(name, known)}")
        return f"phase:{name}"

    def hold(self, row: Row, key: str) -> str:
        """The id of the hold point that a row names at ``key``, in whatever template it stands."""
        name = row[key]
        homes = self.homes("holdpoint", name)
        if not homes:
            known = nearest(name, self.keys("holdpoint"))
            raise row.wrong(key, f"{key} is {shown(name)}, which is no hold point{known}")
        return f"hold:{homes[0]}/{name}"

    def task(self, row: Row, key: str, name: str, home: str) -> str:
        """The id of a task named as ``key`` of the phase ``home``, or as ``phase/key``.

        A task of a phase that has no template yet is taken on trust.
        """
        phase, _, task = name.rpartition("/")
        phase = phase or home
        rows = self.templates.get(phase)
        if rows is None:
            self.phase(row, key, phase)
        elif not any(other["key"] == task for other in rows["task"]):
            known = nearest(task, [other["key"] for other in rows["task"]])
            raise row.wrong(key, f"{key} names {shown(name)}, which is no task of {phase}{known}")
        return f"task:{phase}/{task}"
