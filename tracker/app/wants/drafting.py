"""What a fixture brings to a build, by its recipe: tables in the form of the plan."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from tracker.app.wants.drafted_parts import parts_of
from tracker.app.wants.placing import place_of
from tracker.build.item import VEHICLE, Item
from tracker.build.kinds import kind_of
from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.errors import BadInput, CloseinError
from tracker.quantity import parse
from tracker.sizing.result import figures_by_name
from tracker.sizing.spec import helper
from tracker.templates.recipes import Draft, Recipe, recipe

NO_RIBS = ("sandwich panel", "wood stud")
"""Bodies without ribs to drill through."""

POWER = ("dc", "ac", "solar")
"""What runs carry that needs wire and protection of a size; signals do not."""

MOST_COUNT, MOST_HOLES = 50, 100
HOLE = re.compile(r"\{([a-z]+)\}")
BARE = re.compile(r"\s*[0-9]+([.,][0-9]+)?\s*")


@dataclass(frozen=True, slots=True)
class Asked:
    """A fixture as people ask for it; all texts as typed, None for what was not said.

    Parameters
    ----------
    fixture: a recipe's name.
    at: where it is, as :func:`place_of` takes it.
    name: what it is called.
    amps, volts, fuse: current of one [A], nominal voltage [V], protection [A].
    length: of its feed, with leads.
    source: where its feed starts.
    switch: where its switch is.
    on: a run that it joins in place of a feed of its own.
    count, step: how many in a row, and how far apart.
    holes: how many holes its feed takes through ribs.
    mains, gas: does it take them?
    why: the reason, where a run it joins is buried.
    """

    fixture: str
    at: str | None = None
    name: str | None = None
    bay: str | None = None
    amps: str | None = None
    volts: str | None = None
    length: str | None = None
    gauge: str | None = None
    fuse: str | None = None
    source: str | None = None
    switch: str | None = None
    on: str | None = None
    count: int = 1
    step: str | None = None
    holes: int = 1
    mains: bool = False
    gas: bool = False
    why: str | None = None


@dataclass(slots=True)
class Row:
    """One table of the draft; ``key`` is what others name it by."""

    kind: str
    name: str
    fields: dict[str, Any]
    key: str | None = None
    new: bool = True
    sized: dict[str, Any] = field(default_factory=dict)


class Drafting:
    """One recipe against one build."""

    def __init__(self, build: Build, asked: Asked) -> None:
        self.asked, self.recipe, self.build = asked, recipe(asked.fixture), build
        self.names = Names(build)
        self.notes: list[str] = []
        self.unsized: list[str] = []
        _counts(asked, self.recipe)
        self.title = clean(asked.name or "").strip() or self.recipe.title
        self.amps = _amount(asked.amps, "--amps", "A")
        self.joined = self.names.find(asked.on, ("run",), "run") if asked.on else None
        self.place = place_of(asked.at) if asked.at else {}
        if asked.bay:
            bay = self.names.find(asked.bay, ("bay",), "bay")
            self.place["bay"] = [self.names.name(bay.id)]
        self.step_m = parse(asked.step, "m") if asked.step else None

    def rows(self) -> list[Row]:
        """Every table of the draft: the fixture, what it brings, the run it joins, its parts."""
        rows = [self._thing(number) for number in range(self.asked.count)]
        for each in self.recipe.drafts:
            if self._holds(each.when):
                rows += self._drafted(each)
        _name_each_other(rows)
        if self.joined is not None:
            rows.append(self._joining(self.joined))
        if self.unsized:
            self.notes.append(
                f"{', '.join(self.unsized)}: wire or protection not known yet; "
                "'closein size conductor ... --to RUN' finds it from load, voltage and length"
            )
        kinds = [row.kind for row in rows if row.new]
        parts = parts_of(self.names, self.recipe, self.title, self.asked.count, kinds, self._holds)
        self.notes += parts.notes
        return [*rows, *(Row("part", *each) for each in parts.rows)]

    def _thing(self, number: int) -> Row:
        kind = kind_of(self.recipe.thing)
        fields: dict[str, Any] = {"title": self._called(number)}
        if "load_a" in kind.fields and self.amps is not None:
            fields["load_a"] = self.amps
        if "for" in kind.fields:
            fields["for"] = self._called(number)
        return self._row(kind.name, fields | self._at("here", number))

    def _drafted(self, each: Draft) -> Iterator[Row]:
        count = self.asked.count
        times = {"each": count, "link": count - 1, "hole": self.asked.holes}.get(each.per, 1)
        for number in range(times):
            fields = {}
            words = self._words(number)
            for name, value in each.fields.items():
                filled = _filled(value, words)
                if filled is not None:
                    fields[kind_of(each.kind).field(name).name] = filled
            row = self._row(each.kind, fields | self._at(each.at, number), each.key)
            if each.kind == "run":
                row.fields["label"] = " ".join([row.name, *str(fields.get("to", "")).split()])
                self.notes += size(row)
                known = row.fields.get("gauge") and row.fields.get("protection_a")
                if row.fields.get("system", "dc") in POWER and not known:
                    self.unsized.append(row.name)
            yield row

    def _row(self, kind: str, fields: dict[str, Any], key: str | None = None) -> Row:
        name = self.names.free(kind, kind_of(kind).prefix)
        self.names.used.setdefault(kind, set()).add(name.casefold())
        return Row(kind, name, fields, key)

    def _called(self, number: int) -> str:
        return f"{self.title} {number + 1}" if self.asked.count > 1 else self.title

    def _words(self, number: int) -> dict[str, str | None]:
        asked, count = self.asked, self.asked.count
        each = self.amps
        return {
            "row": self.title,
            "name": self._called(number),
            "first": self._called(0),
            "next": self._called(number + 1),
            "from": asked.source,
            "switch": asked.switch,
            "amps": _ampere(each),
            "all": _ampere(each and each * count),
            "rest": _ampere(each and each * (count - 1 - number)),
            "volts": _volts(asked.volts),
            "system": "ac" if asked.mains else None,
            "conductors": "3" if asked.mains else None,
            "length": asked.length,
            "gauge": asked.gauge,
            "fuse": _ampere(_amount(asked.fuse, "--fuse", "A")),
        }

    def _at(self, at: str, number: int) -> dict[str, Any]:
        """The fields of a place: the fixture's own, its bay alone, or none."""
        if at != "here":
            return {"bay": self.place["bay"]} if at == "bay" and "bay" in self.place else {}
        place = dict(self.place)
        station = place.get("station_m")
        if number and isinstance(station, float):
            if self.step_m is None:
                del place["station_m"]
            else:
                place["station_m"] = round(station + number * self.step_m, 6)
        return place

    def _holds(self, when: Sequence[str]) -> bool:
        vehicle = self.build.items.get(VEHICLE)
        ribs = vehicle is None or vehicle.get("body") not in NO_RIBS
        so = {
            "ribs": ribs,
            "no-ribs": not ribs,
            "switch": self.asked.switch is not None,
            "no-switch": self.asked.switch is None,
            "gas": self.asked.gas,
            "no-gas": not self.asked.gas,
            "feed": self.joined is None,
        }
        return all(so[each] for each in when)

    def _joining(self, run: Item) -> Row:
        """The run that the fixture joins, with its load and what it feeds."""
        feeds = [str(run.get("to") or ""), self.title]
        fields: dict[str, Any] = {"to": ", ".join(filter(None, feeds))}
        load = run.get("load_a")
        if self.amps is not None and load is not None:
            fields["load_a"] = float(load) + self.amps * self.asked.count
        else:
            self.notes.append(f"the load of {run.slug} stays as it is: one of the two is unknown")
        if run.get("protection_a") is not None or run.get("gauge") is not None:
            self.notes.append(f"check the size and protection of {run.slug} for its new load")
        return Row("run", self.names.name(run.id), fields, new=False)


def _counts(asked: Asked, known: Recipe) -> None:
    if not 1 <= asked.count <= MOST_COUNT:
        raise BadInput(f"--count is 1 to {MOST_COUNT}, not {asked.count}")
    if asked.count > 1 and not known.several:
        raise BadInput(f"--count makes a row, but a {known.name} is one; 'lamp-row' is several")
    if not 0 <= asked.holes <= MOST_HOLES:
        raise BadInput(f"--holes is 0 to {MOST_HOLES}, not {asked.holes}")


def _amount(text: str | None, option: str, unit: str) -> float | None:
    """A number in the unit that the option says, with the unit typed or not."""
    if text is None:
        return None
    try:
        value = parse(f"{text} {unit}" if BARE.fullmatch(text) else text, unit)
    except BadInput as error:
        raise BadInput(f"{option}: {error}") from None
    if value < 0:
        raise BadInput(f"{option}: {text.strip()} is below zero")
    return value


def _ampere(value: float | None) -> str | None:
    return None if value is None else f"{value:.6g} A"


def _volts(text: str | None) -> str | None:
    value = _amount(text, "--volts", "V")
    return None if value is None else f"{value:.6g} V"


def _filled(value: Any, words: Mapping[str, str | None]) -> Any:
    """A recipe's value with its placeholders filled; None where it is but one and not said."""
    if not isinstance(value, str):
        return value
    whole = HOLE.fullmatch(value)
    if whole and words[whole[1]] is None:
        return None
    filled = HOLE.sub(lambda found: clean(words[found[1]] or ""), value)
    return filled.strip().strip(",").strip() or None


def _name_each_other(rows: Sequence[Row]) -> None:
    """In place of ``@key`` the names of the drafts that have it; none where there is none."""
    keys: dict[str, list[str]] = {}
    for row in rows:
        if row.key:
            keys.setdefault(f"@{row.key}", []).append(row.name)
    for row in rows:
        for name, value in list(row.fields.items()):
            if isinstance(value, list) and any(str(each).startswith("@") for each in value):
                row.fields[name] = [found for each in value for found in keys.get(each, ())]


def size(run: Row) -> list[str]:
    """Give a new run wire and protection where its load, voltage and length were said.

    Returns what there is to say of it.
    """
    if run.fields.get("system", "dc") != "dc" or run.fields.get("gauge"):
        return []
    if not all(run.fields.get(name) for name in ("load_a", "volts_v", "length_m")):
        return []
    conductor = helper("conductor")
    inputs = {
        "load_a": run.fields["load_a"],
        "one_way_m": run.fields["length_m"],
        "volts_v": run.fields["volts_v"],
        "in_foam": True,
    }
    try:
        result = conductor.answer(inputs)
    except CloseinError as error:
        return [f"{run.name} can't be sized: {error}"]
    figures = figures_by_name(result)
    for name, figure in conductor.writes["run"].items():
        if figures.get(figure) is not None and name not in run.fields:
            run.fields[name] = figures[figure]
    run.sized = {
        "helper": "conductor",
        "inputs": inputs,
        "figures": dict(figures),
        "table_version": result.table_version,
    }
    return [f"{run.name} is sized as if it lay in foam: {result.governs}; check it"]
