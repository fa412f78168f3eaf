"""The state of a build: one slice a noun, made from acts by ``fold`` and by nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from tracker.act import Act, Fact
from tracker.build.holdpoint import HoldEvent
from tracker.build.item import Item
from tracker.build.log import Accepted, Condition, Day, InboxLine, Note
from tracker.build.point import Answer
from tracker.build.stock import Lot, Order, SetAside
from tracker.build.work import Progress

PointKey = tuple[str, str]
"""A check's id and its subject's id: the name of one thing to answer."""

Applier = Callable[["Build", Fact, str, Act], None]


@dataclass(slots=True)
class Build:
    """Everything known of a build. Treat a build you were given as read-only.

    Only ``fold`` changes one, and only a private copy. ``acts`` are all acts in order, undone
    ones included; ``dead`` are the ids of those undone; ``used`` is how much of each part went
    into the build; ``orphans`` are facts about items that are not here (yet); ``unknown`` are
    facts this release can't read.
    """

    acts: tuple[Act, ...] = ()
    dead: frozenset[str] = frozenset()
    items: dict[str, Item] = field(default_factory=dict)
    answers: dict[PointKey, tuple[Answer, ...]] = field(default_factory=dict)
    holds: dict[tuple[str, str], tuple[HoldEvent, ...]] = field(default_factory=dict)
    lots: dict[tuple[str, str], Lot] = field(default_factory=dict)
    orders: dict[str, tuple[Order, ...]] = field(default_factory=dict)
    aside: list[SetAside] = field(default_factory=list)
    used: dict[str, float] = field(default_factory=dict)
    work: dict[str, Progress] = field(default_factory=dict)
    conditions: list[Condition] = field(default_factory=list)
    days: list[Day] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    inbox: dict[str, InboxLine] = field(default_factory=dict)
    accepted: dict[str, Accepted] = field(default_factory=dict)
    orphans: dict[str, tuple[tuple[Fact, str, Act], ...]] = field(default_factory=dict)
    unknown: list[str] = field(default_factory=list)
    buried_facts: dict[str, Fact] = field(default_factory=dict)
    owned: set[str] = field(default_factory=set, compare=False)
    appliers: dict[str, Applier] = field(default_factory=dict, compare=False, repr=False)

    def draft(self) -> Build:
        """A copy that ``fold`` may change: dicts are copied, items when first touched."""
        return Build(
            self.acts,
            self.dead,
            dict(self.items),
            dict(self.answers),
            dict(self.holds),
            dict(self.lots),
            dict(self.orders),
            list(self.aside),
            dict(self.used),
            dict(self.work),
            list(self.conditions),
            list(self.days),
            list(self.notes),
            dict(self.inbox),
            dict(self.accepted),
            dict(self.orphans),
            list(self.unknown),
            self.buried_facts,
            set(),
            self.appliers,
        )

    def own(self, identifier: str) -> Item:
        """The item, as one that this draft may change; :class:`Absent` where it is not here."""
        item = self.items.get(identifier)
        if item is None:
            raise Absent(identifier)
        if identifier not in self.owned:
            item = self.items[identifier] = item.copy()
            self.owned.add(identifier)
        return item

    def apply(self, fact: Fact, ref: str, act: Act) -> None:
        """Change this draft by one fact; one about an absent item waits, an unknown one is kept."""
        kind = fact.get("f")
        applier = self.appliers.get(kind) if type(kind) is str else None
        if applier is None:
            self.unknown.append(ref)
            return
        try:
            applier(self, fact, ref, act)
        except Absent as absent:
            waiting = self.orphans.get(absent.identifier, ())
            self.orphans[absent.identifier] = (*waiting, (fact, ref, act))
        except (LookupError, TypeError, ValueError, AttributeError, ArithmeticError):
            self.unknown.append(ref)  # appliers look at a fact whole before they change anything

    def living(self, refs: Iterable[str], key: str, name: str | None = None) -> set[str]:
        """The facts that ``refs`` replace, seen through those that were undone meanwhile.

        A fact that was undone replaces nothing any more, so whoever replaced it stands for
        what it had replaced.
        """
        found = set(refs)
        if not self.buried_facts:
            return found
        queue = list(found)
        while queue:
            undone = self.buried_facts.get(queue.pop())
            older: Any = undone.get(key) if undone is not None else None
            if name is not None:
                older = older.get(name) if isinstance(older, Mapping) else None
            if isinstance(older, list | tuple):
                fresh = {ref for ref in older if isinstance(ref, str)} - found
                found |= fresh
                queue += fresh
        return found

    def need(self, *identifiers: str) -> None:
        """Check that items are here; :class:`Absent` names the first that is not."""
        for identifier in identifiers:
            if identifier not in self.items:
                raise Absent(identifier)

    def item(self, identifier: str) -> Item | None:
        """The item of an id, removed or not, or None."""
        return self.items.get(identifier)


class Absent(Exception):
    """A fact speaks of an item that is not here; knows which. Never leaves ``fold``."""

    def __init__(self, identifier: str) -> None:
        self.identifier = identifier
        super().__init__(identifier)
