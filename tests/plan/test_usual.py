"""What is taken for granted where nobody said anything else."""

from __future__ import annotations

import tomllib
from pathlib import Path

from tracker.plan import usual


def test_every_figure_names_a_source_and_none_claims_to_be_verified() -> None:
    table = tomllib.loads(Path(usual.__file__).with_name("usual.toml").read_text("utf-8"))
    rows = [row for name, row in table.items() if name not in ("version", "source")]

    assert rows
    assert all(row["source"] in table["source"] for row in rows)
    assert not any(source["verified"] for source in table["source"].values())


def test_the_figures_are_hours_that_a_day_has_room_for() -> None:
    assert 0.0 < usual.AROUND_H < usual.UNSTATED.likely < usual.USUAL_H <= 24.0
    assert 0.0 < usual.SHOP_RUN_H < usual.USUAL_H
