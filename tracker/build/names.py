"""Short names: finding items by what people type, and ranges of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from tracker.build.item import Item
from tracker.build.state import Build
from tracker.errors import BadInput, UnknownName

SLUG = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{0,39}")
"""A short name: letters, digits and hyphens, at most 40, beginning with a letter or digit."""

RANGE = re.compile(r"([A-Za-z-]*?)(\d+)\s*(?:-|\.\.)\s*([A-Za-z-]*?)(\d+)")


def clean(text: str) -> str:
    """Text as it may be shown: control characters out, white space within a line as it is."""
    if text.isprintable():  # nearly always, and hundreds of names are cleaned for a command
        return text
    return "".join(sign for sign in text if sign == "\t" or sign.isprintable())


def slug_of(text: str) -> str:
    """A short name as typed, checked. BadInput names the rule it breaks."""
    if not SLUG.fullmatch(text) or text.endswith("-"):
        raise BadInput(
            f"'{clean(text)}' can't be a short name: letters, digits and hyphens, at most 40"
        )
    return text


def shown_slugs(items: Iterable[Item]) -> dict[str, Item]:
    """Items by the name they show; a name used twice shows as r12 and r12~2."""
    named: dict[str, Item] = {}
    lower: set[str] = set()
    for item in items:
        if item.removed is not None:
            continue
        slug = shown = item.slug
        if not SLUG.fullmatch(slug):
            slug = shown = " ".join(clean(slug).split()) or "unnamed"
        number, key = 1, shown.casefold()
        while key in lower:
            number += 1
            shown = f"{slug}~{number}"
            key = shown.casefold()
        lower.add(key)
        named[shown] = item
    return named


class Names:
    """The names in one state of a build, by kind. Made once for a command or a screen."""

    def __init__(self, build: Build) -> None:
        self.by_kind: dict[str, dict[str, Item]] = {}
        self._lower: dict[str, dict[str, Item]] | None = None
        by_kind: dict[str, list[Item]] = {}
        for item in build.items.values():
            by_kind.setdefault(item.kind, []).append(item)
        self.shown: dict[str, str] = {}
        self.used: dict[str, set[str]] = {}
        for kind, items in by_kind.items():
            self.by_kind[kind] = shown_slugs(items)
            self.used[kind] = {item.slug.casefold() for item in items}
            for item in items:
                if item.removed is not None:
                    self.shown[item.id] = clean(item.slug)
            for name, item in self.by_kind[kind].items():
                self.shown[item.id] = name

    def find(self, text: str, kinds: Sequence[str] = (), noun: str = "") -> Item:
        """The one item a name means.

        Parameters
        ----------
        text: a short name as shown, in any case.
        kinds: the kinds looked through; none given means all.
        noun: what people call it in the error.

        Raises
        ------
        UnknownName: nothing fits; offers the nearest. BadInput: it fits items of two kinds.
        """
        looked = kinds or tuple(self.by_kind)
        found = self._called(text, looked)
        if len(found) == 1:
            return found[0]
        if found:
            kinds_found = " and ".join(sorted(f"a {item.kind}" for item in found))
            raise BadInput(f"'{clean(text)}' is {kinds_found}; say which, as kind:name")
        kind, colon, name = text.strip().partition(":")
        if colon and kind in looked:
            return self.find(name, (kind,), noun or kind)
        known = [name for kind in looked for name in self.by_kind.get(kind, ())]
        raise UnknownName(noun or (looked[0] if len(looked) == 1 else "item"), clean(text), known)

    def _called(self, text: str, kinds: Sequence[str]) -> list[Item]:
        """Every item of some kinds that shows this name, in any case."""
        wanted = text.strip().casefold()
        if self._lower is None:
            self._lower = {
                kind: {name.casefold(): item for name, item in named.items()}
                for kind, named in self.by_kind.items()
            }
        tables = (self._lower.get(kind, {}) for kind in kinds)
        return [table[wanted] for table in tables if wanted in table]

    def expand(self, words: Iterable[str], kinds: Sequence[str] = (), noun: str = "") -> list[Item]:
        """The items that names, ranges (``L1-L12``) and comma lists mean, each once, in order.

        In a range, numbers that no item has are passed over; a range that fits nothing is an
        unknown name.
        """
        found: dict[str, Item] = {}
        for word in words:
            for part in filter(None, (piece.strip() for piece in word.split(","))):
                for item in self._expand_one(part, kinds, noun):
                    found[item.id] = item
        return list(found.values())

    def _expand_one(self, text: str, kinds: Sequence[str], noun: str) -> list[Item]:
        span = RANGE.fullmatch(text)
        looked = kinds or tuple(self.by_kind)
        if span is None or self._called(text, looked):
            return [self.find(text, kinds, noun)]
        head, first, other, last = span.groups()
        if other and other.casefold() != head.casefold():
            raise BadInput(f"the range '{clean(text)}' begins with {head} and ends with {other}")
        low, high = int(first), int(last)
        if low > high:
            raise BadInput(f"the range '{clean(text)}' runs backwards; turn it round")
        if high - low > 999:
            raise BadInput(f"the range '{clean(text)}' is longer than 1000 names")
        items = []
        for number in range(low, high + 1):
            for name in dict.fromkeys((f"{head}{number}", f"{head}{number:0{len(first)}d}")):
                if self._called(name, looked):
                    items.append(self.find(name, kinds, noun))
        if not items:
            raise UnknownName(noun or "item", clean(text))
        return items

    def name(self, identifier: str) -> str:
        """What an item is called on screen: its shown name, else its id."""
        return self.shown.get(identifier, identifier)

    def free(self, kind: str, prefix: str) -> str:
        """The next name of a kind that nothing has or had, such as L33."""
        taken = self.used.get(kind, set())
        number = len(taken) + 1
        while f"{prefix}{number}".casefold() in taken:
            number += 1
        return f"{prefix}{number}"
