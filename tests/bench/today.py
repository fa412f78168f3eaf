"""Readiness and the plan of a day on a large build against decoding that build's acts."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from random import Random

from tests.bench.clock import in_turn, ratio_line
from tests.build.making import START, act, added
from tracker.act import Act, Fact
from tracker.build import item
from tracker.build.coverage import Coverage
from tracker.build.fold import fold
from tracker.build.item import VEHICLE
from tracker.plan.day import Day
from tracker.plan.readiness import Readiness
from tracker.plan.today import Plan, today
from tracker.plan.todo import next_hold

TASKS, PARTS, PHASES, ROUNDS = 5_000, 2_000, 20, 5
SUBJECTS = {"run": (300, 40), "hole": (300, 20), "fixture": (100, 20)}
"""How many there are of each kind, and how many checks are asked of each: 20,000 points."""
PLACES = ("van", "bench", "Ola's home", "store")
SKILLS = ("gas", "mains")


def _ground() -> list[Fact]:
    """The vehicle, its bays, people, phases, three hold points that bury, and the subjects."""
    facts = [item.add(VEHICLE, VEHICLE, {"length_m": 11.0}, VEHICLE)]
    facts += [
        added("bay", f"b{number}", face="left", station_m=number / 2, to_m=(number + 1) / 2)
        for number in range(22)
    ]
    facts += [added("zone", f"z{z}", bay=[f"bay:b{b}" for b in range(z, 22, 2)]) for z in (0, 1)]
    facts += [added("person", "Ola", may=["mains"]), added("person", "Ida", may=["gas"])]
    facts += [added("phase", f"p{number}", order=number) for number in range(PHASES)]
    for number, kind in zip((8, 12, 16), SUBJECTS, strict=True):
        more = {"gates": f"phase:p{number}", "phase": f"phase:p{number}", "buries": [kind]}
        closing = f"task:t{number * TASKS // PHASES}"
        facts.append(added("holdpoint", f"h{number}", closed_by=closing, **more))
    for kind, (count, _) in SUBJECTS.items():
        facts += [
            added(
                kind, f"{kind}{number}", bay=[f"bay:b{number % 22}"], length_m=4.2, gauge="2.5 mm2"
            )
            for number in range(count)
        ]
    return facts


def _checks() -> list[Fact]:
    """Checks of each kind, shared out over the hold points from its own on."""
    facts = []
    for (kind, (_, count)), own in zip(SUBJECTS.items(), (8, 12, 16), strict=True):
        for number in range(count):
            hold = max(own, (8, 8, 12, 16)[number % 4])
            how = "second person" if number % 9 == 0 else "look"
            standing = {"class": "hold", "before": f"holdpoint:h{hold}", "text": "it is right"}
            watches = ["length_m", "bay"]
            facts.append(
                added("check", f"{kind}-c{number}", each=kind, how=how, watches=watches, **standing)
            )
    return facts


def _parts(random: Random) -> list[Fact]:
    """Parts, nine in ten of them counted in one or two places, some on order or set aside."""
    wire = {"unit": "m", "gauge": "2.5 mm2", "cores": 2, "stops": ["task:t1200"]}
    facts = [
        added("part", f"part{n}", **({"unit": "each"} if n % 100 else wire), lead_days=n % 9)
        for n in range(PARTS)
    ]
    for number in range(PARTS):
        part = f"part:part{number}"
        for place in random.sample(PLACES, random.choice((0, 1, 1, 1, 1, 1, 1, 1, 2, 2))):
            count = float(random.randint(0, 40))
            facts.append({"f": "stock.counted", "part": part, "place": place, "count": count})
        if number % 10 == 0:
            facts.append({"f": "stock.ordered", "part": part, "quantity": 20.0})
        if number % 20 == 0:
            kept = {"place": "van", "quantity": 1.0, "for": f"task:t{number}"}
            facts.append({"f": "stock.set-aside", "part": part, **kept})
    return facts


def _tasks(random: Random) -> list[Fact]:
    """Tasks in the order of their phases, each after up to three of the sixty before it."""
    facts = []
    for at in range(TASKS):
        before = range(max(0, at - 60), at)
        needs = random.sample(before, min(at, random.choice((0, 1, 1, 2, 3))))
        likely = random.randint(1, 32) / 4
        more = {
            "hours": {"low": [likely / 2, 0], "likely": [likely, 0], "high": [likely * 2, 0]},
            "parts": [
                {"part": f"part{number}", "per": "once", "qty": 2.0, "unit": "each"}
                for number in random.sample(range(PARTS), random.randint(0, 3))
            ],
            "crew": random.choice((1, 1, 1, 2)),
            "tools": [f"tool {random.randrange(60)}"],
            "dry": at % 7 == 0,
            "skills": [random.choice(SKILLS)] if at % 11 == 0 else [],
        }
        if at % 13 == 0:
            more["min_c"] = 10.0
        if at % 250 == 0:
            more["parts"] = [{"part": "part7", "per": "hole", "qty": 1.0, "unit": "each"}]
        phase = f"phase:p{at * PHASES // TASKS}"
        names = [f"task:t{need}" for need in needs]
        facts.append(added("task", f"t{at}", needs=names, phase=phase, title=f"Work {at}", **more))
    return facts


def _done(random: Random) -> list[Fact]:
    """A tenth of the tasks worked on, six in ten points answered, and blockers that stand."""
    facts: list[Fact] = [
        {"f": "task.worked", "task": f"task:t{at}", "fraction": random.choice((0.5, 1.0, 1.0))}
        for at in range(TASKS // 10)
    ]
    for kind, (count, checks) in SUBJECTS.items():
        for check in range(checks):
            for number in random.sample(range(count), count * 6 // 10):
                saw = {"length_m": 4.2, "bay": [f"bay:b{number % 22}"]}
                point = {"check": f"check:{kind}-c{check}", "subject": f"{kind}:{kind}{number}"}
                facts.append({"f": "point.answered", **point, "result": "good", "saw": saw})
    for number in range(60):
        stops = [f"task:t{random.randrange(TASKS // 10, TASKS)}"]
        facts.append(added("blocker", f"k{number}", stops=stops, owes="the maker"))
    return facts


def large_build() -> list[Act]:
    """The acts, always the same: what is adopted in a few, everything after it in one each."""
    random = Random(5)
    adopted = [_ground(), _checks(), _parts(random), _tasks(random)]
    facts = [*map(tuple, adopted), *((fact,) for fact in _done(random))]
    return [act(number, *said) for number, said in enumerate(facts, 1)]


def measured(cover: Coverage) -> tuple[int, int, int]:
    """How many tasks, points and parts there are, so that the figures are those they claim."""
    points = {key for hold in cover.holds for key in cover.keys(hold)}
    return len(cover.by_kind["task"]), len(points), len(cover.by_kind["part"])


def today_lines(folder: Path) -> Iterator[str]:
    """The lines of the report.

    Parameters
    ----------
    folder: not used; nothing is written.
    """
    acts = large_build()
    bodies = [json.dumps(each.facts) for each in acts]
    build = fold(acts)
    if measured(Coverage(build)) != (TASKS, 20_000, PARTS) or build.unknown or build.orphans:
        raise SystemExit("bench: the build does not take the acts that are measured")
    day = Day(START + timedelta(days=90), (8.0, 8.0), dry=False, air_c=6.0)

    def of_the_day() -> Plan:
        ready = Readiness(Coverage(build), day)
        hold = next_hold(ready.cover)
        return today(ready, hold, ready.points(hold) if hold else ())

    plan = of_the_day()
    if not plan.slots or not plan.not_possible:
        raise SystemExit("bench: the day that is measured has no plan")
    took = in_turn(
        ROUNDS,
        {
            "json": lambda: [json.loads(body) for body in bodies],
            "ready": lambda: Readiness(Coverage(build), day),
            "today": of_the_day,
        },
    )
    against = "json.loads of its acts"
    name = f"{TASKS:,} tasks"
    yield ratio_line(f"readiness, {name}", took["ready"], against, took["json"], None)
    yield ratio_line(f"readiness and today, {name}", took["today"], against, took["json"], None)
