"""A whole act in words: one line for each thing it says, for every kind of fact there is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from tracker.act import Act, Fact, short_id
from tracker.app.views.words import checks, diary, items, stock
from tracker.app.views.words.speaker import Speaker
from tracker.build.fold import undone_by
from tracker.build.names import Names, clean
from tracker.build.state import Build

SAYINGS: dict[str, Callable[[Speaker, Sequence[Fact]], str]] = {
    "item.added": items.added,
    "item.set": items.set_fields,
    "item.removed": items.removed,
    "item.renewed": items.renewed,
    "phase.adopted": items.adopted,
    "point.answered": checks.answered,
    "hold.released": checks.released,
    "hold.withdrawn": checks.withdrawn,
    "hold.closed": checks.closed,
    "hold.reopened": checks.reopened,
    "task.worked": diary.worked,
    "stock.counted": stock.counted,
    "stock.moved": stock.moved,
    "stock.ordered": stock.ordered,
    "stock.set-aside": stock.set_aside,
    "condition.logged": diary.condition,
    "day.started": diary.day,
    "note.written": diary.note,
    "inbox.put": diary.inbox,
    "inbox.sorted": diary.placed,
    "reservation.accepted": diary.accepted,
    "undo": diary.undone,
}
"""Every kind of fact and how it is told."""


class Words:
    """Puts acts into words. Made once for a log or a command."""

    def __init__(self, build: Build, names: Names) -> None:
        self.speaker = Speaker(build, names)
        self._acts: dict[str, Act] | None = None

    def act(self, act: Act) -> list[str]:
        """What an act says, a line for each thing; facts that are alike share a line."""
        if undone_by(act):
            return self._undoing(act)
        lines: dict[Any, list[Fact]] = {}
        for fact in act.facts:
            told = _untold_twice(fact, act.by)
            lines.setdefault(_alike(told), []).append(told)
        return [self.facts(group) for group in lines.values()] or ["nothing"]

    def facts(self, group: Sequence[Fact]) -> str:
        """What facts that are alike say; never raises for what they hold."""
        say = SAYINGS.get(str(group[0].get("f")))
        if say is None:
            return "something that a newer closein wrote"
        try:
            return clean(" ".join(say(self.speaker, group).split("\n")))
        except (KeyError, TypeError, ValueError, AttributeError):
            return "something that can't be read here"

    def _undoing(self, act: Act) -> list[str]:
        if self._acts is None:
            self._acts = {other.id: other for other in self.speaker.build.acts}
        lines = []
        for identifier in undone_by(act):
            target = self._acts.get(identifier)
            if target is None or target.id >= act.id:
                lines.append("undid an act that is not here")
            elif undone_by(target):
                lines += [line.replace("undid", "brought back", 1) for line in self.act(target)]
            else:
                first, *rest = self.act(target)
                more = f" and {len(rest)} more" if rest else ""
                lines.append(f"undid {short_id(identifier)}: {first}{more}")
        return lines


def _untold_twice(fact: Fact, by: str) -> Fact:
    """An answer without the name of who found it, where that is who typed it."""
    if fact.get("f") == "point.answered" and fact.get("by") == by:
        return {name: value for name, value in fact.items() if name != "by"}
    return fact


def _alike(fact: Fact) -> Any:
    """What facts must share to be told in one line."""
    kind = fact.get("f")
    if kind == "point.answered":
        told = ("check", "result", "by", "second", "present", "why", "value", "unit")
        return (kind, *(str(fact.get(name)) for name in told))
    if kind == "item.added":
        return kind, str(fact.get("kind"))
    if kind == "item.removed":
        return kind, str(fact.get("why"))
    return kind, id(fact)
