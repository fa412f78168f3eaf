"""Stock: what comes, goes, is counted, ordered, set aside, and what is out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.build import item as items
from tracker.build import stock
from tracker.build.coverage import Coverage
from tracker.build.item import Item, as_list
from tracker.build.kinds import Field, take
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.build.stock import LEVELS, lots_of
from tracker.errors import BadInput, Refused, did_you_mean
from tracker.plan.shortage import stopped_by
from tracker.quantity import parse

SITE = "site"
"""Where a part lies when nobody ever said where."""

DUE = Field("due", "date")


def receive(part: str, quantity: str, place: str | None = None) -> Intent:
    """A quantity came and was put in a place."""

    def intent(build: Build) -> Sequence[Fact]:
        item = find(Names(build), part)
        where = _put(build, item, place)
        return [stock.move(item, where, _amount(item, quantity), "received")]

    return intent


def use(part: str, quantity: str, place: str | None = None, for_what: str | None = None) -> Intent:
    """A quantity was used; ``for_what`` is an item's name or free words."""

    def intent(build: Build) -> Sequence[Fact]:
        names = Names(build)
        item = find(names, part)
        where = _taken_from(build, item, place)
        fact = dict(stock.move(item, where, -_amount(item, quantity, build, where), "used"))
        if for_what:
            fact["for"] = _purpose(names, for_what)
        return [fact]

    return intent


def move(part: str, quantity: str, from_place: str | None, to_place: str) -> Intent:
    """A quantity (or ``all`` of it) went from one place to another."""

    def intent(build: Build) -> Sequence[Fact]:
        item = find(Names(build), part)
        start = _taken_from(build, item, from_place)
        end = _spelled(build, item, to_place)
        if start == end:
            raise BadInput(f"{item.slug} lies at {start} already")
        amount = _amount(item, quantity, build, start)
        there = lots_of(build, item)[start].quantity
        if there is not None and amount > there:
            raise Refused(
                f"only {there:g} of {item.slug} is known to be at {start}; "
                f"'closein part count {item.slug}' puts that right"
            )
        return [
            stock.move(item, start, -amount, "moved"),
            stock.move(item, end, amount, "moved"),
        ]

    return intent


def count(part: str, place: str | None, answer: str) -> Intent:
    """What is there: a number, lengths (``4.2m,3.1m``), or plenty, low, out, unknown."""

    def intent(build: Build) -> Sequence[Fact]:
        item = find(Names(build), part)
        return [stock.count(build, item, _put(build, item, place), **counted(item, answer))]

    return intent


def order(part: str, quantity: str, due: str | None = None, supplier: str | None = None) -> Intent:
    """A quantity (or ``2 packs``) is on its way, due on a date, from somebody."""

    def intent(build: Build) -> Sequence[Fact]:
        names = Names(build)
        item = find(names, part)
        day = take(DUE, due, names) if due else None
        seller = clean(supplier).strip() if supplier else item.get("supplier")
        return [stock.order(item, _amount(item, quantity), day, seller)]

    return intent


def out(part: str, place: str | None = None, raises_blocker: bool = True) -> Intent:
    """There is none of a part; unless told not to, a blocker says what that stops.

    Without a place it is out everywhere but at helpers' homes.
    """

    def intent(build: Build) -> Sequence[Fact]:
        names, cover = Names(build), Coverage(build)
        item = find(names, part)
        lots = lots_of(build, item)
        if place:
            empty = [_spelled(build, item, place)]
        else:
            empty = [where for where in lots if not elsewhere(names, where)] or [SITE]
        facts = [stock.count(build, item, where, level="out") for where in empty]
        if raises_blocker and not _stands(cover, item):
            facts.append(_blocker(names, cover, item, empty))
        return facts

    return intent


def set_aside(part: str, quantity: str, place: str | None, for_what: str) -> Intent:
    """A quantity is kept for an item, or for what free words say."""

    def intent(build: Build) -> Sequence[Fact]:
        names = Names(build)
        item = find(names, part)
        where = _taken_from(build, item, place)
        amount = _amount(item, quantity, build, where)
        return [stock.set_aside(item, where, amount, _purpose(names, for_what))]

    return intent


def find(names: Names, part: str) -> Item:
    """The part a name means."""
    return names.find(part, ("part",), "part")


def elsewhere(names: Names, place: str) -> bool:
    """Is a place a helper's home or vehicle, so not on site?"""
    words = place.casefold().replace("\u2019", "'").split()
    people = {
        name.casefold()
        for person in names.by_kind.get("person", {}).values()
        for name in (person.slug, person.title)
    }
    owners = {word.removesuffix("'s").rstrip("'") for word in words}
    return "home" in words or bool(owners & people) or " ".join(words) in people


def counted(item: Item, answer: str) -> dict[str, Any]:
    """What a count says, as ``stock.count`` takes it.

    Raises
    ------
    BadInput: it is no number in the part's unit, no list of lengths and no level.
    """
    text = answer.strip()
    if text.casefold() in LEVELS:
        return {"level": text.casefold()}
    unit = str(item.get("unit") or "")
    pieces = [piece for piece in re.split(r"\s*[;,]\s*", text) if piece]
    try:
        return {"number": parse(text, unit)}
    except BadInput as error:
        if unit == "m" and pieces and (len(pieces) > 1 or text[-1] in ",;"):
            return {"lengths": [parse(piece, "m") for piece in pieces]}
        if text.isalpha():
            near = did_you_mean(text.casefold(), LEVELS)
            raise BadInput(f"'{clean(text)}' is no count of {item.slug}{near}") from None
        raise BadInput(f"{item.slug}: {error}") from None


def _amount(item: Item, text: str, build: Build | None = None, place: str = "") -> float:
    """A quantity above 0 in the part's unit; ``2 packs``; with a place also ``all``."""
    typed = text.strip().casefold()
    if build is not None and typed == "all":
        there = lots_of(build, item)[place].quantity
        if not there:
            raise BadInput(f"nobody knows how much of {item.slug} is at {place}; say a number")
        return there
    packs = re.fullmatch(r"(\d{1,6}) ?packs?", typed)
    if packs:
        size = item.get("pack")
        if size is None:
            raise BadInput(
                f"how many {item.slug} are in a pack is unknown; "
                f"'closein item change {item.slug} pack=N' says it"
            )
        return int(packs[1]) * float(size)
    try:
        amount = parse(text, str(item.get("unit") or ""))
    except BadInput as error:
        raise BadInput(f"{item.slug}: {error}") from None
    if amount <= 0:
        raise BadInput(f"{item.slug}: the quantity must be above 0")
    return amount


def _spelled(build: Build, item: Item, place: str) -> str:
    """A place as it was first written; this part's places go before those of others."""
    name = clean(place).strip()
    if not name:
        raise BadInput(f"where is {item.slug}? name a place")
    known = [*lots_of(build, item), *(where for _, where in build.lots)]
    return next((other for other in known if other.casefold() == name.casefold()), name)


def _put(build: Build, item: Item, place: str | None) -> str:
    """Where something is put or counted: the place named, else the only one the part has."""
    if place:
        return _spelled(build, item, place)
    lots = lots_of(build, item)
    if len(lots) > 1:
        raise BadInput(f"{item.slug} lies at {', '.join(lots)}; say which with --at")
    return next(iter(lots), SITE)


def _taken_from(build: Build, item: Item, place: str | None) -> str:
    """Where something is taken from: the place named, else the only one that has any."""
    lots = lots_of(build, item)
    if not lots:
        raise Refused(
            f"nobody has counted {item.slug} yet; 'closein part count {item.slug} N' comes first"
        )
    if place:
        name = _spelled(build, item, place)
        if name not in lots:
            raise BadInput(f"no {item.slug} is known at '{name}'; it lies at {', '.join(lots)}")
        return name
    some = [where for where, lot in lots.items() if lot.quantity != 0] or list(lots)
    if len(some) > 1:
        raise BadInput(f"{item.slug} lies at {', '.join(some)}; say which with --at")
    return some[0]


def _purpose(names: Names, words: str) -> str:
    """The id of the item that words name, else the words."""
    try:
        return names.find(words).id
    except BadInput:
        return clean(words).strip()


def _stands(cover: Coverage, part: Item) -> bool:
    return any(
        part.id in as_list(blocker.get("part")) and not blocker.get("cleared")
        for blocker in cover.by_kind.get("blocker", [])
    )


def _blocker(names: Names, cover: Coverage, part: Item, empty: Sequence[str]) -> Fact:
    rest = [
        f"{lot.quantity:g} at {where}" if lot.quantity is not None else f"some at {where}"
        for where, lot in lots_of(cover.build, part).items()
        if where not in empty and lot.quantity != 0
    ]
    title = f"out of {part.title}" + (f"; {', '.join(rest)}" if rest else "")
    slug = f"out-{part.slug}"[:40].rstrip("-")
    known = {name.casefold() for name in names.by_kind.get("blocker", {})}
    if slug.casefold() in known:
        slug = names.free("blocker", f"{slug[:36].rstrip('-')}-")
    orders = [order.due for order in cover.build.orders.get(part.id, ()) if order.due]
    fields: dict[str, Any] = {"kind": "part", "title": title, "part": [part.id]}
    stops = [item.id for item in stopped_by(cover, part)]
    if stops:
        fields["stops"] = stops
    if orders:
        fields["expected"] = max(orders)
    return items.add("blocker", slug, fields)
