"""Undo and redo: an act that names acts, and what it may not name."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tracker.act import Act, Fact, short_id
from tracker.build.fold import undone_by
from tracker.build.item import VEHICLE
from tracker.build.state import Build
from tracker.errors import BadInput, Refused, UnknownName

SIGNED = {
    "hold.released": "'closein release ... --withdraw WHY' takes it back, with the reason",
    "hold.withdrawn": "'closein release' signs it again",
    "hold.closed": "'closein close ... --reopen WHY' opens it again, with the reason",
    "hold.reopened": "'closein close' closes it again",
}
"""What is never undone, and the act of its own that follows it instead."""


def writer_of(act: Act) -> str:
    """The writer whose file holds the act."""
    return act.id.split("-", 2)[1]


def find_act(build: Build, text: str) -> Act:
    """The act a person means: its id, or the short form ``k7wq-12`` shown in the log."""
    wanted = text.strip().casefold()
    found = [
        act
        for act in build.acts
        if wanted in (act.id, short_id(act.id)) or act.id.split("-", 1)[1] == wanted
    ]
    if len(found) == 1:
        return found[0]
    if found:
        longer = ", ".join(act.id.split("-", 1)[1] for act in found)
        raise BadInput(f"'{wanted}' fits more than one act; say which: {longer}")
    raise UnknownName("act", wanted, [short_id(act.id) for act in build.acts[-50:]])


def undo(build: Build, writer: str, which: str | None = None, also: bool = False) -> list[Fact]:
    """The facts that undo an act.

    Parameters
    ----------
    writer: whose newest living act a bare undo takes.
    which: an act as people name it, or None for the newest.
    also: undo what was built on it as well.

    Raises
    ------
    Refused: nothing to undo; others built on it and ``also`` is not given; it is a release,
    waiver or close, which is withdrawn by an act of its own.
    """
    target = find_act(build, which) if which else _newest(build, writer)
    if target.id in build.dead:
        raise Refused(f"{short_id(target.id)} is undone already; 'closein redo' brings it back")
    if undone_by(target):
        raise Refused(f"{short_id(target.id)} is an undo itself; 'closein redo' takes it back")
    targets = [target, *_built_on(build, target)]
    for act in targets:
        _not_signed(act)
    if len(targets) > 1 and not also:
        names = ", ".join(short_id(act.id) for act in targets[1:6])
        more = f" and {len(targets) - 6} more" if len(targets) > 6 else ""
        raise Refused(
            f"{len(targets) - 1} later acts rest on {short_id(target.id)}: {names}{more}; "
            "add --with to undo them too"
        )
    return [{"f": "undo", "acts": [act.id for act in targets]}]


def redo(build: Build, writer: str, which: str | None = None) -> list[Fact]:
    """The facts that bring back what was undone; bare only while nothing newer was done here.

    A named act comes back by undoing every living undo of it; a named undo is itself undone.
    """
    if which:
        target = find_act(build, which)
        living = [act for act in build.acts if act.id not in build.dead]
        if undone_by(target) and target in living:
            return [{"f": "undo", "acts": [target.id]}]
        undos = [act.id for act in living if target.id in undone_by(act)]
        if not undos:
            raise Refused(f"{short_id(target.id)} is not undone, so there is nothing to bring back")
        return [{"f": "undo", "acts": undos}]
    own = [act for act in build.acts if writer_of(act) == writer and act.id not in build.dead]
    while own and _is_redo(build, own[-1]):
        own.pop()
    if not own or not undone_by(own[-1]):
        raise Refused("nothing to bring back: something newer was done since the last undo")
    return [{"f": "undo", "acts": [own[-1].id]}]


def _is_redo(build: Build, act: Act) -> bool:
    by_id = {other.id: other for other in build.acts}
    return any(
        identifier in by_id and undone_by(by_id[identifier]) for identifier in undone_by(act)
    )


def _newest(build: Build, writer: str) -> Act:
    for act in reversed(build.acts):
        if writer_of(act) == writer and act.id not in build.dead and not undone_by(act):
            return act
    raise Refused("nothing of yours to undo here; 'closein log' shows every act by its name")


def _not_signed(act: Act) -> None:
    for fact in act.facts:
        kind, name = str(fact.get("f")), short_id(act.id)
        if kind == "item.added" and fact.get("id") == VEHICLE:
            raise Refused(
                f"{name} began the build, and nothing stands without it; 'closein item change "
                "vehicle FIELD=VALUE' puts right what it says"
            )
        if kind in SIGNED:
            raise Refused(
                f"{name} is a hold point {kind[5:]} and stays in the record; {SIGNED[kind]}; "
                "'closein undo ACT' undoes an act before it"
            )
        if kind == "point.answered" and fact.get("result") == "waived":
            raise Refused(
                f"{name} is a waiver and stays in the record; 'closein check ... --reopen WHY' "
                "takes it back, with the reason; 'closein undo ACT' undoes an act before it"
            )


def _built_on(build: Build, target: Act) -> list[Act]:
    made = set(_made_by(target))
    if not made:
        return []
    for act in build.acts:
        if act.id != target.id and act.id not in build.dead:
            made -= set(_made_by(act))
    later: list[Act] = []
    for act in build.acts:
        if act.id <= target.id or act.id in build.dead or not _mentions(act, made):
            continue
        later.append(act)
        made |= set(_made_by(act))
    return later


def _made_by(act: Act) -> Sequence[str]:
    made: list[object] = []
    for index, fact in enumerate(act.facts):
        if fact.get("f") == "item.added":
            made.append(fact.get("id") or act.ref(index))
        elif fact.get("f") == "phase.adopted":
            rows = fact.get("items")
            rows = [fact.get("phase"), *(rows if isinstance(rows, list | tuple) else ())]
            made += [row.get("id") for row in rows if isinstance(row, dict)]
    return [identifier for identifier in made if isinstance(identifier, str)]


def _mentions(act: Act, made: Iterable[str]) -> bool:
    made = set(made)
    return any(_strings(fact) & made for fact in act.facts)


def _strings(value: object) -> set[str]:
    if isinstance(value, str):
        return {value}
    if isinstance(value, dict):
        return set().union(*map(_strings, value.values())) if value else set()
    if isinstance(value, list | tuple):
        return set().union(*map(_strings, value)) if value else set()
    return set()
