"""How open tasks hang together, held against plain walks over the same graph."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.plan.workshop import shop, task
from tracker.build.work import worked
from tracker.plan.chain import Chains, Reach
from tracker.plan.usual import UNSTATED

GRAPHS = st.lists(
    st.tuples(st.floats(0.1, 40.0), st.sets(st.integers(0, 8), max_size=3)), max_size=9
)


def _chains(rows: list[tuple[float, set[int]]], circles: bool = False) -> Chains:
    """Tasks t0, t1, ... that need those of lower number, or any where circles are wanted."""
    facts = []
    for number, (hours, needs) in enumerate(rows):
        known = {n for n in needs if n < len(rows) and (circles or n < number)} - {number}
        facts.append(task(f"t{number}", " ".join(f"t{n}" for n in sorted(known)), likely=hours))
    return Chains(shop(*facts).cover)


@given(GRAPHS)
def test_the_heaviest_chain_is_the_heaviest_of_all_ways_to_the_end(
    rows: list[tuple[float, set[int]]],
) -> None:
    chains = _chains(rows)

    def heaviest(name: str) -> float:
        return chains.hours[name] + max((heaviest(each) for each in chains.after[name]), default=0)

    found = chains.chain(chains.hours)
    assert found == pytest.approx({name: heaviest(name) for name in chains.tasks})
    assert min(chains.late_start().values(), default=0.0) == 0.0


@given(GRAPHS, st.booleans())
def test_the_work_behind_some_tasks_is_that_of_all_who_wait_for_them(
    rows: list[tuple[float, set[int]]], circles: bool
) -> None:
    chains = _chains(rows, circles)
    reach = Reach(chains)

    for names in [[name] for name in chains.tasks] + [list(chains.tasks)[::2]]:
        walked = chains.downstream(names)
        held = reach.behind(names)
        assert held == reach.of(walked)
        assert held.bit_count() == len(walked)
        assert reach.crew_hours(held) == pytest.approx(
            sum(chains.crew_hours[name] for name in walked), abs=0.01
        )


def test_what_was_done_of_a_task_is_no_longer_in_it() -> None:
    yard = shop(task("drill", likely=4.0, crew=2), task("draw", hours=None))
    yard.do(worked(yard.item("drill"), 0.25))

    chains = Chains(yard.cover)

    assert chains.crew_hours == {"task:drill": 6.0, "task:draw": UNSTATED.likely}
