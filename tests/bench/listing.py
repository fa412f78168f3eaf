"""All phases on three vehicles: folding and listing them against decoding the same acts."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from tests.bench.clock import in_turn, ratio_line
from tests.test_three_vehicles import VEHICLES, acts_of
from tracker.build.coverage import Coverage
from tracker.build.fold import fold
from tracker.plan.todo import todo

ROUNDS = 7
NOW = datetime(2027, 3, 6, 8, 5, tzinfo=UTC)


def listing(folder: Path) -> Iterator[str]:
    """The lines of the report.

    Parameters
    ----------
    folder: not used; nothing is written.
    """
    for name in VEHICLES:
        acts = acts_of(name)
        bodies = [json.dumps(act.facts) for act in acts]
        build = fold(acts)

        def list_all(build=build) -> None:
            cover = Coverage(build)
            for hold in cover.holds:
                todo(cover, hold, "", NOW)

        took = in_turn(
            ROUNDS,
            {
                "json": lambda bodies=bodies: [json.loads(body) for body in bodies],
                "fold": lambda acts=acts: fold(acts),
                "list": list_all,
            },
        )
        base = took["json"]
        yield ratio_line(f"fold of all phases, {name}", took["fold"], "json.loads of them", base, 2)
        yield ratio_line(f"all hold points listed, {name}", took["list"], "the same", base, 10)
