"""What a sizing helper answers: every figure, what governed, the working, sources and cautions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from tracker.errors import BadInput

Value = float | int | str | None
"""What a figure may hold; None where there is no such thing, such as a size when none does."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a value comes from.

    Parameters
    ----------
    name: document, such as ``33 CFR 183.425``; or ``common practice, no source``.
    edition: of the document, or '' where it has none.
    place: clause, table or page.
    verified: was the value read in the source? False is shown as from memory, unverified.
    """

    name: str
    edition: str
    place: str
    verified: bool

    def __str__(self) -> str:
        said = ", ".join(part for part in (self.name, self.edition, self.place) if part)
        return said if self.verified else f"{said} (from memory, unverified)"


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a result.

    Parameters
    ----------
    name: ends in its unit (``drop_v``), unless it has none (``size``).
    value: in SI, finite.
    unit: the unit as people read it; '' for none.
    meaning: what it is, in a few words.
    """

    name: str
    value: Value
    unit: str
    meaning: str


@dataclass(frozen=True, slots=True)
class Result:
    """An answer.

    Parameters
    ----------
    title: the answer in one line.
    figures: every figure, in the order people read them.
    governs: which limit decided, in words.
    working: the formulas with the numbers put in, one a line.
    others: what other rule sets or sources say, as (name, answer).
    sources: those used, the governing one first.
    cautions: short and specific; never empty.
    table_version: which tables were used, so that a build can say why.
    """

    title: str
    figures: tuple[Figure, ...]
    governs: str
    working: tuple[str, ...]
    others: tuple[tuple[str, str], ...]
    sources: tuple[Source, ...]
    cautions: tuple[str, ...]
    table_version: str

    def __getitem__(self, name: str) -> Value:
        """A figure's value by name; KeyError when there is none."""
        for figure in self.figures:
            if figure.name == name:
                return figure.value
        raise KeyError(name)

    def number(self, name: str) -> float:
        """A figure that is a number; TypeError where it is a word or absent."""
        value = self[name]
        if value is None or isinstance(value, str):
            raise TypeError(f"{name} is {value!r}, not a number")
        return float(value)


class OutOfRange(BadInput):
    """A value lies outside what the source of a helper covers.

    Parameters
    ----------
    name: what people call the value, such as ``--amps``.
    value: in ``unit``.
    low, high: the range, both included.
    unit: as people read it.
    source: whose range it is.
    """

    def __init__(
        self, name: str, value: float, low: float, high: float, unit: str, source: str
    ) -> None:
        self.name, self.value, self.low, self.high = name, value, low, high
        self.unit, self.source = unit, source
        because = f" ({source})" if source else ""
        super().__init__(
            f"{name} {value:g} {unit}".rstrip()
            + f" is outside {low:g} to {high:g} {unit}".rstrip()
            + because
        )


def as_json(result: Result) -> dict[str, Any]:
    """The result for programs: figures by name at the top level, the rest beside them."""
    return {
        **{figure.name: figure.value for figure in result.figures},
        "title": result.title,
        "governs": result.governs,
        "working": list(result.working),
        "others": [{"name": name, "answer": answer} for name, answer in result.others],
        "sources": [source_json(source) for source in result.sources],
        "cautions": list(result.cautions),
        "table_version": result.table_version,
    }


def source_json(source: Source) -> dict[str, Any]:
    """A source for programs."""
    return {
        "name": source.name,
        "edition": source.edition,
        "place": source.place,
        "verified": source.verified,
    }


def figures_by_name(result: Result) -> Mapping[str, Value]:
    """Every figure's value, by name."""
    return {figure.name: figure.value for figure in result.figures}
