"""Facts that are only supposed."""

from __future__ import annotations

from datetime import timedelta

from tests.build.making import Yard, added, ground
from tracker.build import stock
from tracker.build.fold import EMPTY
from tracker.build.supposing import next_act, suppose


def test_what_is_supposed_comes_after_all_that_was_said_and_leaves_the_build_as_it_is() -> None:
    yard = Yard(*ground(), added("part", "gland"))
    gland, moment = yard.item("gland"), yard.now + timedelta(days=2)

    then = suppose(yard.build, [stock.move(gland, "bin", 3.0, "received")], moment)

    assert (then.acts[-1].id, then.acts[-1].happened) == (next_act(yard.build), moment.isoformat())
    assert then.acts[:-1] == yard.build.acts
    assert then.lots[gland.id, "bin"].quantity == 3.0 and not yard.build.lots


def test_supposing_nothing_changes_nothing_and_an_empty_build_may_be_supposed_upon() -> None:
    yard = Yard(*ground())

    assert suppose(yard.build, [], yard.now) is yard.build
    assert len(suppose(EMPTY, ground(), yard.now).items) == len(yard.build.items)
