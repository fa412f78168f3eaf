"""What a helper takes, written once: the command line, the panel, JSON and help are made from it.

A helper is a module of this room with a constant ``HELPER``; add it to :data:`HELPERS` with one
line. Only the module of the helper in hand is imported.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from importlib import import_module
from math import isfinite
from typing import Any

from tracker.errors import BadInput, UnknownName, did_you_mean
from tracker.quantity import parse, show
from tracker.sizing.result import OutOfRange, Result

HELPERS: dict[str, tuple[str, str]] = {
    "conductor": ("conductor", "conductor and fuse for a load"),
    "drop": ("drop", "voltage drop of a run or a circuit"),
    "switching": ("switching", "conductors and travellers"),
    "raceway": ("raceway", "fill of a tube or chase"),
    "reading": ("reading", "what the meter should show"),
    "dewpoint": ("dewpoint", "dew point, and the margin over it"),
    "foam": ("foam", "board feet, kits, lifts and mass of foam"),
    "wall": ("wall", "heat loss, cold ribs and condensation"),
    "joist": ("joist", "joist or deck beam: strength, sag, span"),
    "cutlist": ("cutlist", "sheets and boards by area, with waste"),
    "height": ("height", "overall height and exits, against limits"),
    "weight": ("weight", "axle loads, side balance and margins"),
    "water": ("water", "days between fills, mass, pipe fall, pump"),
    "energy": ("energy", "battery, solar and inverter for a day"),
}
"""Name -> the module in this room and what it finds, in few words."""


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a helper.

    Parameters
    ----------
    name: the keyword of ``run``; ends in its unit where it has one.
    flag: the option people type, such as ``--amps``.
    help: what it means, in a few words.
    unit: the unit a number is kept in, as :mod:`tracker.quantity` knows it; '' for a plain number.
    type: number; whole; text; choice; yesno (a bare flag); area (a wire's size as typed, kept as
        text); table (a TOML file, read by the face and given as a mapping).
    low, high: range of a number, both included, or None.
    why: whose range it is.
    default: what is taken when it is not given; None for nothing.
    required: must it be given?
    choices: the words of a choice.
    repeated: may it be given several times? Then ``run`` gets a tuple.
    bare: may its number be typed without a unit, because the flag says the unit?
    """

    name: str
    flag: str
    help: str
    unit: str = ""
    type: str = "number"
    low: float | None = None
    high: float | None = None
    why: str = ""
    default: Any = None
    required: bool = False
    choices: tuple[str, ...] = ()
    repeated: bool = False
    bare: bool = False


@dataclass(frozen=True, slots=True)
class Helper:
    """One helper.

    Parameters
    ----------
    name: the word after ``closein size``.
    title: what it finds, in one line.
    inputs: in the order people think of them.
    run: the function; takes every input by name, None where it is not given.
    examples: command lines, one a line.
    writes: kind of item -> its field -> the figure it takes, for ``--to``. For the kind ``check``
        the field ``value`` means the measured value, in the figure's unit.
    """

    name: str
    title: str
    inputs: tuple[Input, ...]
    run: Callable[..., Result]
    examples: str = ""
    writes: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    def answer(self, typed: Mapping[str, Any]) -> Result:
        """The result for inputs as people type them.

        Parameters
        ----------
        typed: input's name -> text (a sequence of texts where it may be repeated, a mapping for a
            table, True for a bare flag); what is not given may be absent or None.
        """
        return self.run(**taken(self.inputs, typed))


def helper(name: str) -> Helper:
    """A helper by name; UnknownName offers the nearest."""
    if name not in HELPERS:
        raise UnknownName("sizing helper", name, HELPERS)
    module = import_module(f"tracker.sizing.{HELPERS[name][0]}")
    found: Helper = module.HELPER
    return found


def taken(inputs: Sequence[Input], typed: Mapping[str, Any]) -> dict[str, Any]:
    """Every input's value from what was typed, in its unit; what is absent takes its default.

    Raises
    ------
    BadInput: one is missing, can't be read, or is none of its words.
    """
    return {each.name: _taken(each, typed.get(each.name)) for each in inputs}


def _taken(each: Input, given: Any) -> Any:
    if given is None or (each.repeated and not given):
        if each.required:
            raise BadInput(f"{each.flag} is missing: {each.help}")
        return () if each.repeated and each.default is None else each.default
    if each.repeated:
        words = (given,) if isinstance(given, str) else given
        return tuple(_one(each, word) for word in words)
    return _one(each, given)


def _one(each: Input, given: Any) -> Any:
    if each.type in ("yesno", "table") or not isinstance(given, str):
        return given
    if each.type == "choice":
        return _choice(each, given)
    if each.type in ("text", "area"):
        return given.strip()
    try:
        if each.type == "whole":
            return int(given)
        if each.bare and re.fullmatch(r"\s*[0-9]*[.,]?[0-9]+\s*", given):
            return parse(f"{given} {each.unit}", each.unit)
        return parse(given, each.unit)
    except ValueError:
        raise BadInput(f"{each.flag} takes a whole number; '{given[:40]}' is not") from None
    except BadInput as error:
        raise BadInput(f"{each.flag}: {error}") from None


def _choice(each: Input, given: str) -> str:
    word = given.strip().casefold()
    if word not in each.choices:
        near = did_you_mean(word, each.choices) or f"; it is one of {', '.join(each.choices)}"
        raise BadInput(f"{each.flag} can't be '{word[:40]}'{near}")
    return word


def guard(inputs: Sequence[Input], **values: Any) -> None:
    """Refuse what lies outside the range of its input; every helper calls this first.

    Parameters
    ----------
    inputs: those of the helper.
    values: by name; None passes for an input that is not required.

    Raises
    ------
    OutOfRange: a number is outside its range or not finite.
    BadInput: it is missing, no number, or none of its words.
    """
    by_name = {each.name: each for each in inputs}
    for name, value in values.items():
        each = by_name[name]
        if value is None:
            if each.required:
                raise BadInput(f"{each.flag} is missing: {each.help}")
            continue
        for one in value if each.repeated else (value,):
            _guard_one(each, one)


def _guard_one(each: Input, value: Any) -> None:
    if each.type == "choice":
        if value not in each.choices:
            raise BadInput(f"{each.flag} is one of {', '.join(each.choices)}, not '{value}'")
        return
    if each.type not in ("number", "whole"):
        return
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise BadInput(f"{each.flag} takes a number")
    if each.type == "whole" and isfinite(value) and value != int(value):
        raise BadInput(f"{each.flag} takes a whole number, not {value:g}")
    low = each.low if each.low is not None else float("-inf")
    high = each.high if each.high is not None else float("inf")
    if not isfinite(value) or not low <= value <= high:
        raise OutOfRange(each.flag, value, low, high, each.unit, each.why)


def range_in_words(each: Input, system: str = "metric") -> str:
    """``0.1 A to 1000 A``; '' where there is no range."""
    if each.low is None or each.high is None:
        return ""
    return f"{show(each.low, each.unit, system)} to {show(each.high, each.unit, system)}"
