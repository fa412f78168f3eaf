"""Where in a TOML text each key stands, since the standard reader does not say.

The text is read a second time by a small scanner that knows just enough of TOML to follow
headers, keys, arrays and inline tables. It expects a text that the standard reader has taken.
"""

from __future__ import annotations

import tomllib
from bisect import bisect_left
from contextlib import suppress

Where = tuple[str | int, ...]
"""A path into the values: table, number in its array, key, ... such as ``("task", 2, "crew")``."""

_BLANK = " \t\r\n"


class Lines:
    """The line, from 1, of every key, header and array element of one text.

    Nothing is scanned before the first question: a text without a fault never pays for it.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._found: dict[Where, int] | None = None

    def of(self, where: Where) -> int:
        """The line of ``where``, or of the nearest thing around it that has one; 1 at worst."""
        if self._found is None:
            scanner = _Scanner(self._text)
            with suppress(RecursionError):  # nested beyond all reason: keep what was found
                scanner.scan()
            self._found = scanner.found
        while where and where not in self._found:
            where = where[:-1]
        return self._found[where] if where else 1


class _Scanner:
    """One walk over one text."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found: dict[Where, int] = {}
        self.breaks = [index for index, letter in enumerate(text) if letter == "\n"]

    def scan(self) -> None:
        base: Where = ()
        counts: dict[Where, int] = {}
        while self._skip(_BLANK):
            if self.text[self.at] == "[":
                base = self._header(counts)
            else:
                self._pair(base)

    def _note(self, where: Where, at: int) -> None:
        line = bisect_left(self.breaks, at) + 1
        for length in range(1, len(where) + 1):
            self.found.setdefault(where[:length], line)

    def _skip(self, letters: str) -> bool:
        """Go past blanks and comments; False at the end of the text."""
        while self.at < len(self.text):
            letter = self.text[self.at]
            if letter == "#":
                end = self.text.find("\n", self.at)
                self.at = len(self.text) if end < 0 else end
            elif letter in letters:
                self.at += 1
            else:
                return True
        return False

    def _header(self, counts: dict[Where, int]) -> Where:
        start = self.at
        many = self.text.startswith("[[", start)
        self.at += 2 if many else 1
        names = self._key()
        where: Where = ()
        for place, name in enumerate(names):
            where += (name,)
            if many and place == len(names) - 1:
                counts[where] = counts.get(where, 0) + 1
            if where in counts:
                where += (counts[where] - 1,)
        self._skip(" \t")
        self.at += 2 if many else 1
        self._note(where, start)
        return where

    def _pair(self, base: Where) -> None:
        start = self.at
        where = base + tuple(self._key())
        self._note(where, start)
        self._skip(" \t")
        self.at += 1  # the equals sign
        self._skip(" \t")
        self._value(where)

    def _key(self) -> list[str]:
        names: list[str] = []
        while True:
            self._skip(" \t")
            start = self.at
            if self.text[start] in "\"'":
                self._string()
                names.append(tomllib.loads(f"k = {self.text[start : self.at]}")["k"])
            else:
                while self.text[self.at] not in " \t.=]":
                    self.at += 1
                names.append(self.text[start : self.at])
            self._skip(" \t")
            if self.text[self.at] != ".":
                return names
            self.at += 1

    def _value(self, where: Where) -> None:
        self._note(where, self.at)
        letter = self.text[self.at]
        if letter in "\"'":
            self._string()
        elif letter == "[":
            self._inside("]", where)
        elif letter == "{":
            self._inside("}", where)
        else:
            while self.at < len(self.text) and self.text[self.at] not in ",]}#\n":
                self.at += 1

    def _inside(self, close: str, where: Where) -> None:
        self.at += 1
        number = 0
        while self._skip(_BLANK + ",") and self.text[self.at] != close:
            if close == "}":
                self._pair(where)
            else:
                self._value((*where, number))
                number += 1
        self.at += 1

    def _string(self) -> None:
        quote = self.text[self.at]
        fence = quote * 3 if self.text.startswith(quote * 3, self.at) else quote
        self.at += len(fence)
        while not self.text.startswith(fence, self.at):
            self.at += 2 if quote == '"' and self.text[self.at] == "\\" else 1
        self.at += len(fence)
        if len(fence) == 3:  # up to two quotes may stand before the closing three
            while self.text.startswith(quote, self.at):
                self.at += 1
