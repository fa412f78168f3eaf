"""A phase template as loaded: frozen values, every reference already an id."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """A place in the work where it stops until somebody signs.

    Parameters
    ----------
    key: its short name, unique over all templates.
    gates: id of the phase whose burying work waits for the release.
    closed_by: id of the task that buries what it covers.
    buries: the kinds of item that are covered when it is closed.
    valid_h: hours a release stands, or None for no end.
    dry: does rain after the release void the weather checks.
    min_surface_c: a colder surface [C] voids them; None where temperature does not matter.
    min_margin_k: so does a surface nearer to the dew point than this [K].
    """

    key: str
    title: str
    text: str
    gates: str
    closed_by: str
    buries: tuple[str, ...] = ()
    valid_h: float | None = None
    dry: bool = False
    min_surface_c: float | None = None
    min_margin_k: float | None = None
    text_caution: str | None = None


@dataclass(frozen=True, slots=True)
class Task:
    """A piece of work.

    Parameters
    ----------
    key: its short name, unique over all templates.
    crew: people it takes, 1 or more.
    vehicle: done only on vehicles whose fields have these values, or do not state them.
    hours: ``low``, ``likely`` and ``high``, each (base [h], per metre of body [h/m]): elapsed
        hours with that crew.
    needs: ids of the tasks that come before it.
    cure_h: elapsed hours [h] after it before anything that needs it.
    min_c: coldest temperature [C] it can be done in.
    parts: what it uses: part, per (``m`` of body, ``once`` or a kind of item), qty, unit.
    buries: kinds of item that it covers.
    basis: where its hours come from.
    memory: are they from memory, unverified.
    """

    key: str
    title: str
    crew: int
    hours: Mapping[str, tuple[float, float]]
    vehicle: Mapping[str, Any] | None = None
    needs: tuple[str, ...] = ()
    cure_h: float | None = None
    dry: bool = False
    daylight: bool = False
    power: bool = False
    hot_work: bool = False
    level: bool = False
    bay_clear: bool = False
    min_c: float | None = None
    tools: tuple[str, ...] = ()
    skills: tuple[str, ...] = ()
    parts: tuple[Mapping[str, Any], ...] = ()
    buries: tuple[str, ...] = ()
    basis: str | None = None
    memory: bool = False


@dataclass(frozen=True, slots=True)
class Check:
    """A question asked of each of its subjects before a hold point.

    Parameters
    ----------
    key: its short name, unique over all templates.
    text: what is true when it is good.
    class_: hold, witness, surveillance or review.
    each: the kind of its subjects, ``zone``, or ``once`` for the vehicle.
    before: id of its hold point.
    how: how it is shown; ``look`` and ``photo`` alone may be marked for a whole bay at once.
    missed: what happens when it is missed.
    basis: ``standard`` (then ``standard`` names it) or ``common practice``.
    say: one word for the entry line, unique among the checks of its hold point and ``each``.
    where: asked only of subjects whose fields have these values.
    vehicle: asked only on vehicles whose fields have these values, or do not state them.
    limit: where a number is answered: min, max, sign_min, unit, function; ``min_field`` and
        ``max_field`` name a field of the subject, ``min_profile`` and ``max_profile`` one of
        the vehicle's profile.
    watches: fields of the subject that put an answer out of date when they change.
    waive: may it be waived.
    lapse: ``weather`` or ``walk``: what voids its answer in a release.
    memory: is a value in it from memory, unverified.
    trade: the rows of the project's trade notes that it carries.
    """

    key: str
    text: str
    class_: str
    each: str
    before: str
    how: str
    missed: str
    basis: str
    say: str | None = None
    where: Mapping[str, Any] | None = None
    vehicle: Mapping[str, Any] | None = None
    limit: Mapping[str, Any] | None = None
    watches: tuple[str, ...] = ()
    waive: bool = True
    lapse: str | None = None
    standard: str | None = None
    memory: bool = False
    trade: tuple[str, ...] = ()
    caution: str | None = None


@dataclass(frozen=True, slots=True)
class Phase:
    """One phase with its hold points, tasks and checks.

    Parameters
    ----------
    name: its short name, that of its file.
    order: its place in the trade's order of work, from 1.
    edition: raised whenever its content changes, from 1.
    after: ids of the phases that come before it; those a build does not have are ignored.
    hash: SHA-256 of its text, hexadecimal.
    """

    name: str
    title: str
    order: int
    edition: int
    after: tuple[str, ...]
    summary: str
    holdpoints: tuple[HoldPoint, ...]
    tasks: tuple[Task, ...]
    checks: tuple[Check, ...]
    hash: str
