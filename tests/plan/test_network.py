"""The critical path against textbooks, networkx and its own rules."""

from __future__ import annotations

from datetime import datetime
from random import Random

import networkx
import pytest

from tracker.errors import BadInput, UnknownName
from tracker.plan.calendar import Cure, WorkingCalendar
from tracker.plan.network import Times, critical_path

MILWAUKEE = {
    # J. Heizer, B. Render, "Operations Management", the Milwaukee Paper example: name, weeks,
    # what comes before, early start and finish, late start and finish, slack. Read in a public
    # test file that quotes the book.
    "A": (2, "", 0, 2, 0, 2, 0),
    "B": (3, "", 0, 3, 1, 4, 1),
    "C": (2, "A", 2, 4, 2, 4, 0),
    "D": (4, "B", 3, 7, 4, 8, 1),
    "E": (4, "C", 4, 8, 4, 8, 0),
    "F": (3, "C", 4, 7, 10, 13, 6),
    "G": (5, "DE", 8, 13, 8, 13, 0),
    "H": (2, "FG", 13, 15, 13, 15, 0),
}
TAYLOR = {
    # B. Taylor, "Introduction to Management Science", solutions to chapter 8, arcs between events
    # (read at ar.scribd.com/doc/47113515, p. 114): weeks, early start and finish, late start and
    # finish, slack.
    "1-2": (7, 0, 7, 2, 9, 2),
    "1-3": (10, 0, 10, 0, 10, 0),
    "2-4": (6, 7, 13, 9, 15, 2),
    "3-4": (5, 10, 15, 10, 15, 0),
    "3-5": (4, 10, 14, 14, 18, 4),
    "4-5": (3, 15, 18, 15, 18, 0),
    "5-6": (2, 18, 20, 18, 20, 0),
}


def test_the_milwaukee_paper_example_comes_out_as_printed() -> None:
    found = critical_path(
        {name: row[0] for name, row in MILWAUKEE.items()},
        {name: row[1] for name, row in MILWAUKEE.items()},
    )

    assert found == {name: Times(*row[2:]) for name, row in MILWAUKEE.items()}


def test_taylors_arcs_come_out_as_printed() -> None:
    found = critical_path(
        {arc: row[0] for arc, row in TAYLOR.items()},
        {arc: [other for other in TAYLOR if other[2] == arc[0]] for arc in TAYLOR},
    )

    assert found == {arc: Times(*row[1:]) for arc, row in TAYLOR.items()}


def test_a_short_published_example_has_its_length_path_and_slack() -> None:
    # Read at ece.nu/tag/project-scheduling: 27 days, path A-C-D; slack of B 2, of E 2.
    found = critical_path(
        {"A": 12, "B": 10, "C": 10, "D": 5, "E": 3},
        {"C": ["A", "B"], "D": ["C"], "E": ["C"]},
    )

    assert max(times.early_finish for times in found.values()) == 27
    assert {name: times.total_float for name, times in found.items()} == {
        "A": 0,
        "B": 2,
        "C": 0,
        "D": 0,
        "E": 2,
    }


def _random_network(seed: int) -> tuple[dict[str, int], dict[str, list[str]]]:
    random = Random(seed)
    count = random.randint(1, 40)
    names = [f"task{number}" for number in range(count)]
    random.shuffle(names)
    needs = {
        name: random.sample(names[:at], min(at, random.randint(0, 4)))
        for at, name in enumerate(names)
    }
    durations = {name: random.choice([0, 1, 2, 5, 9]) for name in sorted(names)}
    return durations, needs


@pytest.mark.parametrize("seed", range(60))
def test_a_random_network_agrees_with_networkx(seed: int) -> None:
    durations, needs = _random_network(seed)
    graph = networkx.DiGraph()
    graph.add_nodes_from(durations)
    graph.add_edges_from(
        (need, name, {"weight": durations[need]}) for name in needs for need in needs[name]
    )

    found = critical_path(durations, needs)

    end = max(times.early_finish for times in found.values())
    graph.add_edges_from((name, "end", {"weight": takes}) for name, takes in durations.items())
    assert end == networkx.dag_longest_path_length(graph)
    for name, times in found.items():
        before = networkx.subgraph_view(
            graph, filter_node=(networkx.ancestors(graph, name) | {name}).__contains__
        )
        after = networkx.subgraph_view(
            graph, filter_node=(networkx.descendants(graph, name) | {name}).__contains__
        )
        assert times.early_start == networkx.dag_longest_path_length(before)
        assert times.late_start == end - networkx.dag_longest_path_length(after)
        assert times.early_finish - times.early_start == durations[name]
        assert times.late_finish - times.late_start == durations[name]
        assert times.total_float == times.late_start - times.early_start >= 0


def test_times_lead_to_a_hold_point_when_it_is_named() -> None:
    durations = {"wire": 8, "foam": 2, "hold": 0, "panel": 30, "paint": 5}
    needs = {"hold": ["wire", "foam"], "panel": ["hold"]}

    to_end = critical_path(durations, needs)
    to_hold = critical_path(durations, needs, to="hold")

    assert to_hold["foam"].total_float == 6
    assert list(to_hold) == ["wire", "foam", "hold"]
    assert to_end["paint"].total_float == 33


def test_another_way_to_add_time_is_used_throughout() -> None:
    found = critical_path(
        {"a": 2, "b": 3},
        {"b": ["a"]},
        forward=lambda moment, takes: moment + 10 * takes,
        backward=lambda moment, takes: moment - 10 * takes,
        between=lambda early, late: (late - early) / 10,
        start=100,
    )

    assert found == {"a": Times(100, 120, 100, 120, 0), "b": Times(120, 150, 120, 150, 0)}


def test_a_cure_runs_over_the_weekend_while_work_stands_still() -> None:
    calendar = WorkingCalendar.of(range(5))
    friday = datetime(2026, 3, 13, 9)
    durations: dict[str, float | Cure] = {
        "prime": 7.0,
        "prime cures": Cure(24.0),
        "sort wire": 12.0,
        "paint": 4.0,
    }

    found = critical_path(
        durations,
        {"prime cures": ["prime"], "paint": ["prime cures", "sort wire"]},
        calendar.forward,
        calendar.backward,
        between=calendar.between,
        start=friday,
    )

    assert found["prime cures"].early_finish == datetime(2026, 3, 14, 16)
    assert found["sort wire"].early_finish == datetime(2026, 3, 16, 13)
    assert found["paint"].late_start == found["sort wire"].early_finish
    assert found["sort wire"].total_float == 0.0
    # By the clock it may begin as late as Sunday; no working hour lies in between.
    assert found["prime cures"].late_start == datetime(2026, 3, 15, 13)
    assert found["prime"].late_start == datetime(2026, 3, 13, 9)
    assert found["prime"].total_float == 0.0


def test_a_circle_is_told_by_its_names() -> None:
    needs = {"wire": ["plan"], "foam": ["wire", "panel"], "panel": ["foam"], "paint": ["panel"]}

    with pytest.raises(BadInput) as caught:
        critical_path(dict.fromkeys(["plan", "wire", "foam", "panel", "paint"], 1), needs)

    assert str(caught.value).startswith("'foam' waits for 'panel', 'panel' waits for 'foam': a ")


def test_a_task_that_waits_for_itself_is_a_circle() -> None:
    with pytest.raises(BadInput, match="'wire' waits for 'wire': a circle"):
        critical_path({"wire": 1}, {"wire": ["wire"]})


def test_a_wait_for_what_is_not_there_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(UnknownName, match="no task before 'foam' is called 'wires'; did you mean"):
        critical_path({"wire": 1, "foam": 1}, {"foam": ["wires"]})
    with pytest.raises(UnknownName, match="no task is called 'foamy'"):
        critical_path({"wire": 1, "foam": 1}, {"foamy": ["wire"]})


def test_a_duration_below_nothing_is_refused() -> None:
    with pytest.raises(BadInput, match="'wire' takes -1; a duration is 0 or more"):
        critical_path({"wire": -1}, {})


def test_nothing_to_do_takes_no_time() -> None:
    assert critical_path({}, {}) == {}
