"""Timing things against each other fairly."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from statistics import median
from time import perf_counter


def timed(work: Callable[[], object]) -> float:
    """Seconds that one call takes."""
    began = perf_counter()
    work()
    return perf_counter() - began


def in_turn(rounds: int, works: Mapping[str, Callable[[], object]]) -> dict[str, float]:
    """Median seconds of each, taken turn about so that a slow minute slows all alike.

    Parameters
    ----------
    rounds: how often each is timed, 1 or more; one more round before them is thrown away.
    works: what is timed, by name.
    """
    times: dict[str, list[float]] = {name: [] for name in works}
    for turn in range(rounds + 1):
        for name, work in works.items():
            took = timed(work)
            if turn:
                times[name].append(took)
    return {name: median(took) for name, took in times.items()}


def ratio_line(name: str, took_s: float, against: str, base_s: float, aim: float | None) -> str:
    """One line of the report."""
    goal = "" if aim is None else f"   aim: at most {aim:g}x"
    return (
        f"{name:<34} {took_s * 1000:9.2f} ms = {took_s / base_s:5.2f}x"
        f"  {against} ({base_s * 1000:.2f} ms){goal}"
    )
