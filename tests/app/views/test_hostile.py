"""No journal from other hands makes a view fail: what can't be read is passed over."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from tracker.act import Act, act_id
from tracker.app.demo import make
from tracker.app.session import Session
from tracker.app.views.log import log_view
from tracker.app.views.parts import parts_view
from tracker.app.views.phases import phase_line
from tracker.app.views.todo import todo_view
from tracker.app.views.walk import walk_view
from tracker.build.fold import fold

NOW = datetime(2027, 3, 6, 8, 5, tzinfo=UTC)
VIEWS: tuple[Callable[[Session], Any], ...] = (
    todo_view,
    phase_line,
    parts_view,
    walk_view,
    log_view,
)
JUNK: tuple[Any, ...] = (
    None, "x", 3, -1.5, True, [], ["a"], {"a": 1}, [[1]], {"low": "x"}, 1e308, "2027-99-99", [None],
)  # fmt: skip
OFTEN_READ = ("bay", "needed", "minimum", "stops", "covered_by", "booked", "cleared", "limit")


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Session:
    folder = tmp_path_factory.mktemp("hostile")
    return make(folder / "studio", NOW, folder / "data", user="Runa", clock=lambda: NOW)


@pytest.mark.parametrize("seed", range(12))
def test_fields_of_any_shape_leave_every_view_standing(demo: Session, seed: int) -> None:
    base, chance = demo.build, random.Random(seed)
    items = list(base.items.values())
    facts = []
    for _ in range(300):
        item = chance.choice(items)
        name = chance.choice([*item.fields, *OFTEN_READ])
        facts.append({"f": "item.set", "id": item.id, "set": {name: chance.choice(JUNK)}})
    act = Act(act_id(2**43, "zzzzzzzz", 1), NOW.isoformat(), "nobody", tuple(facts))
    try:
        demo._set(fold([act], base))
        for view in VIEWS:
            assert view(demo) is not None
    finally:
        demo._set(base)


def test_the_demo_folder_was_not_written_by_that(demo: Session) -> None:
    assert Path(demo.folder / "journal").is_dir()
    assert not demo.changed()
