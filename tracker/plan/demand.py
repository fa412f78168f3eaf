"""Demand: what each open task still takes, line by line, and of which part."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cache
from math import ceil
from typing import Any

from tracker.build.coverage import Coverage
from tracker.build.item import Item, as_list
from tracker.build.state import Build
from tracker.build.work import NOT_BEGUN
from tracker.errors import BadInput
from tracker.plan.bay_area import foam_m3
from tracker.plan.line import PIECE, Line, as_stated, less_used
from tracker.quantity import parse


@cache
def rules() -> Mapping[str, Any]:
    """The packaged rules and allowances."""
    import tomllib
    from pathlib import Path

    return tomllib.loads(Path(__file__).with_name("demand.toml").read_text("utf-8"))


def demand(cover: Coverage) -> list[Line]:
    """Every line that is still open, in the order of the tasks and their subjects."""
    return [line for line in all_lines(cover) if line.open > PIECE]


def all_lines(cover: Coverage) -> list[Line]:
    """Every line, open or met, after what went into the build already is taken off.

    A line is met when its task is done, or a check that its part or its rule names was answered
    good for its subject. Of what was used beyond that, the rest is taken off in order; of wire
    only whole pieces.
    """
    book = _Book(cover)
    lines = [*book.of_tasks(), *book.of_rules(), *book.of_wire()]
    found = less_used(cover.build, as_stated(cover, lines))
    return [
        replace(line, spare=line.open * share) if (share := spare_share(line.name)) else line
        for line in found
    ]


class _Book:
    """What is looked up while lines are written."""

    def __init__(self, cover: Coverage) -> None:
        self.cover, self.build = cover, cover.build
        self.parts = cover.by_kind.get("part", [])
        self.by_name = {part.slug: part for part in self.parts}
        self.tasks = {task.slug: task for task in cover.by_kind.get("task", [])}
        self.task_by_id = {task.id: task for task in self.tasks.values()}
        gauged = [(part, part.get("gauge")) for part in self.parts]
        self.wires = [(part, _area(gauge)) for part, gauge in gauged if gauge]
        self.checks = {check.slug: check.id for check in cover.by_kind.get("check", [])}
        length = cover.vehicle.get("length_m") if cover.vehicle else None
        self.length_m = float(length) if length else None

    def line(
        self, task: Item | None, subject: Item | None, name: str, unit: str, **more: Any
    ) -> Line:
        """A line; what of it is open follows from the task and the subject's answers."""
        part = more.pop("item", None) or self.by_name.get(name)
        shown_by = more.pop("shown_by", ())
        quantity = more.pop("quantity")
        fraction = self.build.work.get(task.id, NOT_BEGUN).fraction if task else 0.0
        if subject is not None:
            fraction = float(fraction >= 1.0 or self._shown(part, subject, shown_by))
        return Line(
            task.id if task else "",
            subject.id if subject else "",
            part.id if part else "",
            part.slug if part else name,
            unit,
            quantity,
            quantity * (1.0 - fraction),
            **more,
        )

    def _shown(self, part: Item | None, subject: Item, shown_by: Iterable[str]) -> bool:
        checks = [self.checks.get(name) for name in shown_by]
        if part is not None:
            stops = as_list(part.get("stops"))
            checks += [stop for stop in stops if self._is_check(stop)]
        return any(_good(self.build, check, subject.id) for check in checks if check)

    def _is_check(self, identifier: Any) -> bool:
        item = self.build.items.get(str(identifier))
        return item is not None and item.kind == "check"

    def of_tasks(self) -> Iterable[Line]:
        """What the tasks themselves state: a metre of body, once, or for each of a kind."""
        for task in self.tasks.values():
            for row in task.get("parts", ()):
                if not isinstance(row, Mapping):
                    continue
                name, per, each = str(row["part"]), row.get("per", "once"), float(row["qty"])
                unit = str(row.get("unit", "each"))
                if per == "m" and (area := self._foam_m2(name, unit)) is not None:
                    basis = f"{area:.3g} m2 by the areas and depths of the bays"
                    yield self.line(task, None, name, unit, quantity=area, basis=basis)
                elif per == "m" and self.length_m is not None:
                    basis = f"{each:g} {unit} a metre of body"
                    yield self.line(
                        task, None, name, unit, quantity=each * self.length_m, basis=basis
                    )
                elif per == "once":
                    yield self.line(task, None, name, unit, quantity=each, basis="once")
                elif per != "m":
                    yield from self._for_each(task, name, str(per), each, unit)

    def _foam_m2(self, name: str, unit: str) -> float | None:
        """The area of foam at the depth its name ends in, or None where that is not known."""
        rule = rules()["foam"]
        depth = re.search(r"-(\d{1,3})mm$", name)
        if not name.startswith(rule["begins"]) or unit != rule["unit"] or depth is None:
            return None
        volume_m3 = foam_m3(self.cover)
        return volume_m3 / (int(depth[1]) / 1000) if volume_m3 and int(depth[1]) else None

    def _for_each(self, task: Item, name: str, kind: str, each: float, unit: str) -> Iterable[Line]:
        for subject in self.cover.by_kind.get(kind, []):
            basis = f"{each:g} a {kind}"
            if kind == "hole" and task.slug == rules()["hole"]["task"]:
                yield from self._lining(task, subject, name, each, unit)
            else:
                whole = rules()["whole"]
                piece = unit == whole["unit"] and name.startswith(tuple(whole["begins"]))
                yield self.line(task, subject, name, unit, quantity=each, basis=basis, piece=piece)

    def _lining(self, task: Item, hole: Item, name: str, each: float, unit: str) -> Iterable[Line]:
        """What lines a hole, by what is said of its edge and by its size."""
        lining = hole.get("lining", name)
        if lining == "none":
            return
        size = hole.get("diameter_mm")
        fitting = [part for part in self.parts if part.get("lines") == lining]
        sized = [part for part in fitting if size is not None and part.get("fits_mm") == size]
        plain = [part for part in fitting if part.get("fits_mm") is None]
        item = next(iter(sized or plain), None)
        wanted = name if lining == name else str(lining)
        if item is None and wanted not in self.by_name and lining != name:
            gland = [part for part in self.parts if part.slug.endswith(f"-{lining}")]
            item = gland[0] if len(gland) == 1 else None
        basis = f"one for the hole of {size:g} mm" if size is not None else "one a hole"
        yield self.line(task, hole, wanted, unit, quantity=each, item=item, basis=basis)

    def of_rules(self) -> Iterable[Line]:
        """What the rules state for each of a kind, where no task of the build states it."""
        stated = {
            row.get("part")
            for task in self.tasks.values()
            for row in task.get("parts", ())
            if isinstance(row, Mapping)
        }
        for rule in rules()["rule"]:
            name, task = rule["part"], self.tasks.get(rule["task"])
            if name not in self.by_name or name in stated:
                continue
            for subject in self.cover.by_kind.get(rule["each"], []):
                length_m = subject.get("length_m")
                if "every_m" not in rule:
                    quantity = float(rule["quantity"])
                elif length_m:
                    quantity = float(ceil(length_m / rule["every_m"] - PIECE))
                else:
                    continue
                yield self.line(task, subject, name, "each", quantity=quantity, basis=rule["words"])

    def of_wire(self) -> Iterable[Line]:
        """A piece of wire for each run, or several, in the part that fits its gauge."""
        shown_by = rules()["wire"]["shown_by"]
        for run in self.cover.by_kind.get("run", []):
            length_m, gauge = run.get("length_m"), run.get("gauge")
            if not length_m or not gauge:
                continue
            conductors = int(run.get("conductors", 2))
            part, pieces = self._wire(run, str(gauge), conductors)
            yield self.line(
                self._puller(run, part),
                run,
                f"wire {gauge} x {conductors}",
                "m",
                quantity=float(length_m) * pieces,
                item=part,
                piece=True,
                pieces=pieces,
                shown_by=shown_by,
                basis=f"{pieces} x {length_m:g} m with its leads",
            )

    def _wire(self, run: Item, gauge: str, conductors: int) -> tuple[Item | None, int]:
        """The part a run is pulled in, and how many pieces of it."""
        area = _area(gauge)
        fitting = [part for part, own in self.wires if _same(own, area)]
        if area is None or not fitting:
            return None, conductors

        def rank(part: Item) -> tuple[int, int, bool, str]:
            cores = int(part.get("cores", 1))
            pieces = ceil(conductors / cores)
            colour = run.get("colour") is not None and part.get("colour") == run.get("colour")
            return pieces, cores * pieces - conductors, not colour, part.slug

        best = min(fitting, key=rank)
        return best, rank(best)[0]

    def _puller(self, run: Item, part: Item | None) -> Item | None:
        """The task that pulls a run: the one that its part stops, else that of its system."""
        by_system = rules()["wire"]["task"]
        stops = dict.fromkeys(map(str, as_list(part.get("stops")))) if part else {}
        stopped = [self.task_by_id[name] for name in stops if name in self.task_by_id]
        usual = self.tasks.get(by_system.get(run.get("system", "dc"), ""))
        if len(stopped) == 1 and (usual is None or usual.slug == by_system["dc"]):
            return stopped[0]
        return usual


def _good(build: Build, check: str, subject: str) -> bool:
    heads = build.answers.get((check, subject), ())
    return len(heads) == 1 and heads[0].result in ("good", "measured")


def _area(gauge: Any) -> float | None:
    """A wire's area [mm2] from what people wrote, or None."""
    try:
        return parse(str(gauge), "mm2")
    except BadInput:
        return None


def _same(one: float | None, other: float | None) -> bool:
    return one is not None and other is not None and abs(one - other) <= 0.005 * other


@cache
def spare_share(name: str) -> float:
    """What is bought on top of a part's count, as a share of it."""
    shares = rules()["spare"]["share"]
    fitting = [share for start, share in shares.items() if name.startswith(start)]
    return float(max(fitting, default=rules()["spare"]["default"]))
