"""How many published cutting instances are solved to the optimum and proved within the default."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import perf_counter

from tests.plan.instances import Instance, instances
from tracker.plan.cutting import CutPlan, cut_plan

FILES = ("bpplib_pm", "falkenauer_u", "falkenauer_t", "waescher", "hard28")


def cutting(folder: Path) -> Iterator[str]:
    """The lines of the report, one a set of instances.

    Parameters
    ----------
    folder: not used.
    """
    sets: dict[str, list[Instance]] = {}
    for one in (one for file in FILES for one in instances(file)):
        known = one.name.startswith("PM_") and one.optimum is not None
        group = "PM, computed optimum" if known else one.name.rsplit("_", 1)[0]
        sets.setdefault(group, []).append(one)
    for name, group in sets.items():
        plans, took = zip(*map(_timed, group), strict=True)
        least = [
            plan.bought == (plan.lower_bound if one.optimum is None else one.optimum)
            for one, plan in zip(group, plans, strict=True)
        ]
        proved = sum(plan.proved for plan in plans)
        yield (
            f"cutting {name:<24} {sum(least):3} of {len(group):3} at the optimum, {proved:3} proved"
            f"   median {median(took):.2f} s, longest {max(took):.2f} s"
        )


def _timed(one: Instance) -> tuple[CutPlan, float]:
    """The plan and the seconds it took."""
    began = perf_counter()
    plan = cut_plan(one.pieces, buy=one.bar)
    return plan, perf_counter() - began
