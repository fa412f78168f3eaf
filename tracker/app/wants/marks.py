"""The two forms of the entry line that mark checks: by subject, and a bay at once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from tracker.act import Fact
from tracker.app.wants import checks
from tracker.app.wants.forms import Look, Taken, numbered
from tracker.build.answer import standing
from tracker.build.coverage import Coverage
from tracker.build.item import VEHICLE, Item
from tracker.build.limit import judge, limit_of
from tracker.build.marking import BULK
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.errors import BadInput, CloseinError, UnknownName
from tracker.plan.todo import next_hold

GOOD = ("ok", "okay", "good", "yes")
BAD = ("bad", "no", "fail")
NA = ("na", "n/a")
WAIVED = ("waive", "waived")
VERDICTS = (*GOOD, *BAD, *NA, *WAIVED)
NUMBERED = re.compile(r"[\d.,-]*\d[\d.,-]*", re.ASCII)
MEASURE = re.compile(r"-?\d+(?:[.,]\d+)?(?:[a-z\u03a9\u00b0]+2?|[%\"'])", re.IGNORECASE)
OPEN = ("open", "stale")
"""What a bay marked at once answers: never what was found bad or is in conflict."""


class Found(NamedTuple):
    """What was found of a check: the result and what goes with it."""

    result: str
    value: str | None = None
    second: str | None = None
    why: str | None = None


def by_subject(look: Look, line: str) -> Taken | None:
    """``12 label ok``, ``L1-L3 label bad smudged``, ``12 len 9in with Ola``, ``mask ok``."""
    words = line.split()
    known = check_words(look.names)
    at = next((place for place, word in enumerate(words) if word.casefold() in known), None)
    subjects = words[:at] if at is not None else words[:1]
    if not all(_is_subject(look.names, word) for word in subjects):
        return None
    if at is None:
        _looks_mistaken(words, known)
        return None
    rest = words[at + 1 :]
    answered = bool(rest) and (_is_answer(rest[0]) or rest[0].strip("-")[:1].isdigit())
    if at == 0 and not answered:
        return None
    try:
        check, items = _fit(look, known[words[at].casefold()], subjects)
    except CloseinError:
        if rest and not answered:
            return None  # '3 people came' is no answer to anything
        raise
    if rest and not answered:
        raise BadInput(f"'{rest[0]}' is no answer; say ok, bad, na, waive or a number")
    found = answer_of(words[at], rest)
    name = look.names.name(check.id)
    names = [look.names.name(item.id) for item in items]
    intent = checks.mark(
        name,
        names,
        found.result,
        by=look.by,
        value=found.value,
        second=found.second,
        why=found.why,
    )
    on = f" on {', '.join(names)}" if names else ""
    return Taken(intent, f"{name}{on}: {_judged(look, check, items, found)}")


def _judged(look: Look, check: Item, items: Sequence[Item], found: Found) -> str:
    """What was found in words; of a number also whether it is good."""
    if found.value is None:
        return "not applicable" if found.result == "na" else found.result
    subject = items[0] if items else look.build.items[VEHICLE]
    limit = limit_of(check, subject, look.build.items.get(VEHICLE))
    try:
        value = checks.read_value(look.cover, check, [subject], found.value)
    except BadInput:
        value = None
    if limit is None or value is None:
        return found.value
    state = judge(limit, value, found.second, found.why)
    return f"{found.value}, {'not decided' if state == 'unknown' else state}: {limit}"


def bay_at_once(look: Look, line: str) -> Taken | None:
    """``bay 7 ok but 12 14``, ``B7 label ok``: what is looked at in one bay, all good but these."""
    words = line.split()
    if words[0].casefold() == "bay" and len(words) > 2:
        name, rest = words[1], words[2:]
    elif len(words) > 1 and words[1].casefold() in GOOD:
        name, rest = words[0], words[1:]
        if not numbered(look.names, name, "bay") or name.isdigit():
            return None
    else:
        return None
    known = check_words(look.names)
    one = rest.pop(0).casefold() if rest[0].casefold() in known else None
    if not rest or rest[0].casefold() not in GOOD:
        return None
    if len(rest) > 1 and rest[1].casefold() != "but":
        raise BadInput(f"'{rest[1]}' can't be placed; 'bay 7 ok but 12 14' is how it goes")
    bays = numbered(look.names, name, "bay")
    if len(bays) != 1:
        raise UnknownName("bay", clean(name), look.names.by_kind.get("bay", {}))
    bay = bays[0]
    but = [word.strip(",") for word in rest[2:] if word.strip(",").casefold() not in ("and", "")]
    only = {check.id for check in known[one]} if one else None

    def intent(build: Build) -> Sequence[Fact]:
        facts: list[Fact] = []
        names = Names(build)
        for check, items in _open_in_bay(Coverage(build), names, bay, but, only):
            subjects = [names.name(item.id) for item in items]
            facts += checks.mark(names.name(check.id), subjects, "good", by=look.by)(build)
        return facts

    rows = _open_in_bay(look.cover, look.names, bay, but, only)
    count = sum(len(items) for _, items in rows)
    if not count:
        raise BadInput(f"nothing that is looked at is open in {look.names.name(bay.id)}")
    kept = f", all but {', '.join(but)}" if but else ""
    points = "1 answer" if count == 1 else f"{count} answers"
    checked = "1 check" if len(rows) == 1 else f"{len(rows)} checks"
    return Taken(intent, f"bay {look.names.name(bay.id)}: {points} to {checked} good{kept}")


def check_words(names: Names) -> dict[str, list[Item]]:
    """Every word that stands for checks on the entry line: their own word and their name."""
    known: dict[str, list[Item]] = {}
    for name, check in names.by_kind.get("check", {}).items():
        for word in {name.casefold(), str(check.get("say") or name).casefold()}:
            known.setdefault(word, []).append(check)
    return known


def answer_of(check: str, words: Sequence[str]) -> Found:
    """What was found, from the words after the check's.

    Raises
    ------
    BadInput: there are none, or something after a verdict can't be placed.
    """
    if not words:
        raise BadInput(f"what of {clean(check)}? say ok, bad, na, waive or a number")
    verdict, rest = words[0].casefold(), list(words[1:])
    text = clean(" ".join(rest))
    if verdict in BAD:
        return Found("bad", why=text or None)
    if verdict in NA:
        return Found("na", why=text)
    if verdict in WAIVED:
        reason, _, name = text.rpartition(" with ")
        return Found("waived", why=reason or text, second=name if reason else None)
    lower = [word.casefold() for word in words]
    because = lower.index("because") if "because" in lower else len(words)
    beside = lower.index("with") if "with" in lower[:because] else because
    second = clean(" ".join(words[beside + 1 : because])) or None
    why = clean(" ".join(words[because + 1 :])) or None
    if verdict not in GOOD:
        return Found("measured", clean(" ".join(words[:beside])), second, why)
    if beside > 1:
        raise BadInput(f"'{clean(words[1])}' can't be placed after {verdict}")
    return Found("good", None, second, why)


def _is_subject(names: Names, word: str) -> bool:
    """May a word name subjects: a number, a range, a list, or the name of something?"""
    pieces = [piece for piece in word.split(",") if piece]
    known = {name.casefold() for rows in names.by_kind.values() for name in rows}
    return bool(pieces) and all(
        NUMBERED.fullmatch(piece)
        or piece.casefold() in known
        or re.fullmatch(r"[a-z-]*\d+(?:-|\.\.)[a-z-]*\d+", piece.casefold())
        for piece in pieces
    )


def _is_answer(word: str) -> bool:
    return word.casefold() in VERDICTS or MEASURE.fullmatch(word) is not None


def _looks_mistaken(words: Sequence[str], known: dict[str, list[Item]]) -> None:
    """Raise where a line without a check's word was surely meant to have one."""
    if len(words) < 2 or not (_is_answer(words[1]) or (len(words) > 2 and _is_answer(words[2]))):
        return
    if _is_answer(words[1]):
        raise BadInput("which check? 'closein todo' shows them; '12 label ok' is how it goes")
    raise UnknownName("check", clean(words[1]), known)


def _fit(look: Look, found: Sequence[Item], words: Sequence[str]) -> tuple[Item, list[Item]]:
    """The check that is meant and its subjects: the next hold point's first, runs first."""
    cover = look.cover
    here = next_hold(cover)
    order = sorted(
        found,
        key=lambda check: (
            here is None or check.get("before") != here.id,
            cover.hold_rank.get(str(check.get("before")), 99),
            check.get("each") != "run",
        ),
    )
    failed: CloseinError | None = None
    for check in order:
        try:
            return check, _subjects(look, check, words)
        except CloseinError as error:
            failed = failed or error
    raise failed or BadInput("no check is meant")


def _subjects(look: Look, check: Item, words: Sequence[str]) -> list[Item]:
    each = str(check.get("each", "once"))
    due = look.cover.subjects(check)
    if not words:
        if len(due) == 1 and due[0].id == VEHICLE:
            return []
        raise BadInput(f"{check.slug} of which {each}? its name comes first, as in '12 label ok'")
    found: dict[str, Item] = {}
    for piece in (piece for word in words for piece in word.split(",") if piece):
        items = numbered(look.names, piece, each)
        if not items:
            raise UnknownName(each, clean(piece), look.names.by_kind.get(each, {}))
        found.update((item.id, item) for item in items)
    allowed = {item.id for item in due}
    for item in found.values():
        if item.id not in allowed:
            raise BadInput(f"{check.slug} does not apply to {item.slug}")
    return list(found.values())


def _open_in_bay(
    cover: Coverage, names: Names, bay: Item, but: Sequence[str], only: set[str] | None
) -> list[tuple[Item, list[Item]]]:
    """The looked-at checks before the next hold point, each with what is open of it in a bay."""
    hold = next_hold(cover)
    due = []
    for check in cover.checks(hold) if hold is not None else []:
        if check.get("how", "look") not in BULK or check.get("limit") is not None:
            continue
        if only is None or check.id in only:
            here = [item for item in cover.subjects(check) if bay.id in cover.bays_of(item)]
            due.append((check, here))
    apart = _apart(names, but, {item.kind for _, items in due for item in items})
    rows = []
    for check, items in due:
        open_here = [
            item
            for item in items
            if item.id not in apart and standing(cover.build, check, item).state in OPEN
        ]
        if open_here:
            rows.append((check, open_here))
    return rows


def _apart(names: Names, but: Sequence[str], kinds: set[str]) -> set[str]:
    """The ids of what is left out; a number leaves out that number of every kind."""
    apart = set()
    for piece in (piece for word in but for piece in word.split(",") if piece):
        found = {item.id for kind in kinds for item in numbered(names, piece, kind)}
        if not found:
            raise UnknownName("item of this bay", clean(piece))
        apart |= found
    return apart
