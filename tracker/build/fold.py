"""From acts to the state of a build: a dispatch over the closed set of facts.

Total, deterministic and independent of the order in which acts arrive: acts are taken in the
order of their ids, each once; an act that was undone is passed over.
"""

from __future__ import annotations

from collections.abc import Iterable

from tracker.act import Act, Fact
from tracker.build import holdpoint, item, log, point, stock, work
from tracker.build.state import Applier, Build
from tracker.build.values import texts


def _pass(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """Undo facts have done their work before any fact is applied."""
    texts(fact["acts"])


APPLIERS: dict[str, Applier] = {
    "item.added": item.apply_added,
    "item.set": item.apply_set,
    "item.removed": item.apply_removed,
    "item.renewed": item.apply_renewed,
    "phase.adopted": item.apply_adopted,
    "point.answered": point.apply_answered,
    "hold.released": holdpoint.apply_event,
    "hold.withdrawn": holdpoint.apply_event,
    "hold.closed": holdpoint.apply_event,
    "hold.reopened": holdpoint.apply_event,
    "task.worked": work.apply_worked,
    "stock.counted": stock.apply_counted,
    "stock.moved": stock.apply_moved,
    "stock.ordered": stock.apply_ordered,
    "stock.set-aside": stock.apply_set_aside,
    "condition.logged": log.apply_condition,
    "day.started": log.apply_day,
    "note.written": log.apply_note,
    "inbox.put": log.apply_inbox,
    "inbox.sorted": log.apply_sorted,
    "reservation.accepted": log.apply_accepted,
    "undo": _pass,
}
"""The closed set of facts and what each does to a draft."""

EMPTY = Build(appliers=APPLIERS)
"""A build of which nothing is known."""


def fold(acts: Iterable[Act], build: Build = EMPTY) -> Build:
    """The state after ``acts``, given the state ``build`` before them.

    ``fold(a + b) == fold(b, fold(a))`` for all acts in any order; ``build`` itself never changes.
    Never raises for what acts say: what can't be read is listed in ``Build.unknown``.
    """
    news = {act.id: act for act in acts}
    if not news:
        return build
    known = build.acts
    late = not known or min(news) <= known[-1].id
    if late or any(map(undone_by, news.values())) or not build.dead.isdisjoint(news):
        news.update((act.id, act) for act in known)
        return _from_nothing(_in_order(news))
    draft = build.draft()
    draft.acts = (*known, *_in_order(news))
    _apply_all(draft, draft.acts[len(known) :])
    return draft


def _in_order(acts: dict[str, Act]) -> tuple[Act, ...]:
    return tuple(acts[identifier] for identifier in sorted(acts))


def _from_nothing(acts: tuple[Act, ...]) -> Build:
    draft = EMPTY.draft()
    draft.acts = acts
    draft.dead = dead_acts(acts)
    if draft.dead:
        draft.buried_facts = {
            act.ref(index): fact
            for act in acts
            if act.id in draft.dead
            for index, fact in enumerate(act.facts)
        }
    _apply_all(draft, acts)
    return draft


def _apply_all(draft: Build, acts: Iterable[Act]) -> None:
    dead, apply = draft.dead, draft.apply
    for act in acts:
        if act.id in dead:
            continue
        for index, fact in enumerate(act.facts):
            apply(fact, f"{act.id}/{index}", act)


def undone_by(act: Act) -> list[str]:
    """The ids of the acts that this act undoes; empty for all but an undo."""
    return [
        identifier
        for fact in act.facts
        if fact.get("f") == "undo" and isinstance(fact.get("acts"), list | tuple)
        for identifier in fact["acts"]
        if isinstance(identifier, str)
    ]


def dead_acts(acts: Iterable[Act]) -> frozenset[str]:
    """The ids of the acts that a living undo names, decided from the newest to the oldest."""
    dead: set[str] = set()
    for act in sorted(acts, key=lambda act: act.id, reverse=True):
        if act.id not in dead:
            dead.update(undone_by(act))
    return frozenset(dead)
