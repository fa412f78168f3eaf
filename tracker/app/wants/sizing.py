"""Writing what a sizing helper found into an item, with what it was worked out from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tracker.act import Fact
from tracker.app.session import Intent
from tracker.app.wants.checks import mark
from tracker.app.wants.items import changed
from tracker.app.wants.values import take_values
from tracker.build import item as items
from tracker.build.coverage import Coverage
from tracker.build.item import Item
from tracker.build.kinds import kind_of
from tracker.build.names import Names
from tracker.build.state import Build
from tracker.errors import BadInput
from tracker.quantity import parse
from tracker.sizing.result import Figure, Result, figures_by_name
from tracker.sizing.spec import helper, taken

SIZED = "sized"
"""The field of an item that holds the last sizing written into it."""

SIZED_FOR = {"load_a": "load_a", "volts_v": "volts_v", "one_way_m": "length_m"}
"""What a conductor was worked out for -> the field of a run that it fills where nobody said."""

TAKEN_ON = SIZED_FOR | {"drop_percent": "drop_max_pct"}
"""The same with the drop it was to keep, so that the recheck holds the run to no laxer one."""

MEASURED = "value"
"""In a helper's ``writes``, the field that stands for what a check measured."""


def write(
    name: str,
    typed: Mapping[str, Any],
    result: Result,
    to: str,
    *,
    by: str,
    at: str | None = None,
    why: str | None = None,
) -> Intent:
    """Write a result into an item: the fields it decides, and the record of how it came about.

    Parameters
    ----------
    name: the helper.
    typed: its inputs as people typed them, kept in the record.
    result: its answer.
    to: the item.
    by: who measured, where the item is a check.
    at: the subject of a check.
    why: the reason, needed for what is buried.
    """

    def intent(build: Build) -> Sequence[Fact]:
        names, cover = Names(build), Coverage(build)
        item = names.find(to)
        fields = _fields_for(name, item)
        record = {
            "helper": name,
            "inputs": {key: _plain(value) for key, value in typed.items()},
            "figures": dict(figures_by_name(result)),
            "table_version": result.table_version,
        }
        if fields.keys() == {MEASURED}:
            figure = _figure(result, fields[MEASURED])
            value = f"{float(str(figure.value)):.6f} {figure.unit}"
            measured = mark(to, [at] if at else [], "measured", by=by, value=value)(build)
            return [*measured, items.change(item, {SIZED: record | {"at": at}})]
        if at is not None:
            raise BadInput("--at says where a check was measured; this result measures nothing")
        given = {field: _taken(item, _figure(result, wanted)) for field, wanted in fields.items()}
        values = take_values(
            kind_of(item.kind), {**_asked_for(name, typed, item), **given}, names, item
        )
        if item.kind == "check":  # a phase's check lets its limits alone be changed
            return [*changed(cover, item, values, why), items.change(item, {SIZED: record}, why)]
        return changed(cover, item, {**values, SIZED: record}, why)

    return intent


def _asked_for(name: str, typed: Mapping[str, Any], item: Item) -> dict[str, Any]:
    """What a wire run was sized for, where the run itself does not say: else no recheck could."""
    if name != "conductor" or item.kind != "run":
        return {}
    missing = {
        said: field for said, field in TAKEN_ON.items() if said in typed and item.get(field) is None
    }
    wanted = [each for each in helper(name).inputs if each.name in missing]
    found = taken(wanted, {each.name: typed[each.name] for each in wanted})
    return {missing[said]: value for said, value in found.items() if value is not None}


def asked_too_little(build: Build, name: str, typed: Mapping[str, Any], to: str) -> list[str]:
    """Where a wire run says more than it was just sized for, in words: "load 30 A, not 3 A".

    A longer run, a larger load or a lower voltage than was typed makes the size too small.
    """
    item = Names(build).find(to)
    if name != "conductor" or item.kind != "run":
        return []
    wanted = [each for each in helper(name).inputs if each.name in SIZED_FOR and each.name in typed]
    found = taken(wanted, {each.name: typed[each.name] for each in wanted})
    said = []
    for each in wanted:
        stated, sized = item.get(SIZED_FOR[each.name]), found[each.name]
        if stated is None or sized is None:
            continue
        more = sized - stated if each.name == "volts_v" else stated - sized
        if more > 0.02 * sized:  # a length typed in feet is never just that in metres
            word = SIZED_FOR[each.name].rpartition("_")[0]
            said.append(f"{word} {stated:.4g} {each.unit}, not {sized:.4g} {each.unit}")
    return said


def _fields_for(name: str, item: Item) -> Mapping[str, str]:
    """Which fields of an item a helper decides; BadInput where it decides none."""
    writes = helper(name).writes
    if item.kind in writes:
        return writes[item.kind]
    kinds = " or ".join(f"a {kind_of(kind).title}" for kind in writes)
    takes = f"it writes into {kinds}" if kinds else "its answer is to read, not to write"
    raise BadInput(f"'closein size {name}' can't write into a {kind_of(item.kind).title}; {takes}")


def _figure(result: Result, name: str) -> Figure:
    for figure in result.figures:
        if figure.name == name and figure.value is not None:
            return figure
    raise BadInput(f"there is no {name} to write: {result.governs}")


def _taken(item: Item, figure: Figure) -> Any:
    """A figure's value; for a check's limit in the unit of the check."""
    if item.kind != "check" or not isinstance(figure.value, int | float):
        return figure.value
    stated = item.get("limit")
    unit = str(stated.get("unit", "")) if isinstance(stated, Mapping) else ""
    if not unit:
        raise BadInput(f"{item.slug} asks for no measured value, so it takes no limit")
    try:
        return parse(f"{figure.value:.9f} {figure.unit}", unit)
    except BadInput:
        raise BadInput(
            f"{item.slug} is measured in {unit}, but {figure.name} is in {figure.unit}"
        ) from None


def _plain(value: Any) -> Any:
    return list(value) if isinstance(value, tuple) else value
