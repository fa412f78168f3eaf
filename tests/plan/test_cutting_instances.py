"""Cutting plans against published instances whose least number of bars is known."""

from __future__ import annotations

import pytest

from tests.plan.instances import Instance, instances
from tracker.plan.cutting import cut_plan

EASY = [
    *(one for one in instances("bpplib_pm") if one.optimum is not None),
    *(one for one in instances("falkenauer_u") if "_u120_" in one.name),
]


@pytest.mark.parametrize("instance", EASY, ids=lambda one: one.name)
def test_the_published_optimum_is_found_and_proved(instance: Instance) -> None:
    plan = cut_plan(instance.pieces, buy=instance.bar)

    assert plan.bought == instance.optimum
    assert plan.lower_bound == instance.optimum
    assert plan.proved
    assert sorted(p for cut in plan.cuts for p in cut.pieces) == sorted(instance.pieces)


@pytest.mark.parametrize("file", ["falkenauer_t", "waescher", "hard28"])
def test_no_bound_is_above_a_published_optimum(file: str) -> None:
    wrong = [
        one.name
        for one in instances(file)[::3]
        if not (plan := cut_plan(one.pieces, buy=one.bar, effort=2_000)).lower_bound
        <= (one.optimum or 0)
        <= plan.bought
    ]

    assert wrong == []
