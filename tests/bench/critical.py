"""The critical path of a large network against networkx on the same graph."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from random import Random

import networkx

from tests.bench.clock import in_turn, ratio_line
from tracker.plan.calendar import WorkingCalendar
from tracker.plan.network import critical_path

TASKS, ROUNDS = 5_000, 15


def network() -> tuple[dict[str, float], dict[str, list[str]]]:
    """Hours of each task and what comes before it: up to four of the two hundred tasks before."""
    random = Random(5)
    names = [f"task{number}" for number in range(TASKS)]
    needs = {
        name: random.sample(names[max(0, at - 200) : at], min(at, random.randint(0, 4)))
        for at, name in enumerate(names)
    }
    return {name: random.randint(1, 32) / 4 for name in names}, needs


def critical(folder: Path) -> Iterator[str]:
    """The lines of the report.

    Parameters
    ----------
    folder: not used.
    """
    durations, needs = network()
    graph = networkx.DiGraph()
    graph.add_nodes_from(durations)
    graph.add_edges_from(
        (need, name, {"weight": durations[need]}) for name in needs for need in needs[name]
    )
    graph.add_edges_from((name, "end", {"weight": hours}) for name, hours in durations.items())
    back = graph.reverse()
    calendar = WorkingCalendar.of([5, 6])
    found = critical_path(durations, needs)
    length = networkx.dag_longest_path_length(graph)
    if max(times.early_finish for times in found.values()) != length:
        raise SystemExit("bench: the two critical paths are not equally long")

    def theirs() -> None:
        list(networkx.topological_sort(graph))
        networkx.dag_longest_path_length(graph)
        networkx.dag_longest_path_length(back)

    def on_calendar() -> None:
        critical_path(
            durations,
            needs,
            calendar.forward,
            calendar.backward,
            between=calendar.between,
            start=datetime(2026, 3, 14, 8),
        )

    took = in_turn(
        ROUNDS,
        {
            "theirs": theirs,
            "ours": lambda: critical_path(durations, needs),
            "calendar": on_calendar,
        },
    )
    against = "networkx, three passes"
    name = f"critical path, {TASKS:,} tasks"
    yield ratio_line(name, took["ours"], against, took["theirs"], 0.33)
    yield ratio_line(f"{name}, calendar", took["calendar"], against, took["theirs"], None)
