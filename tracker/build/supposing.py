"""What the build would be, were some facts so: they are read, never written down."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from tracker.act import Act, Fact, act_id, stamp_of
from tracker.build.fold import fold
from tracker.build.state import Build

SUPPOSED = "zzzzzzzz"
"""The writer of acts that nobody writes down."""


def suppose(build: Build, facts: Sequence[Fact], moment: datetime) -> Build:
    """The state if ``facts`` were said in one act, after all others, at a moment with an offset."""
    if not facts:
        return build
    return fold([Act(next_act(build), moment.isoformat(), "", tuple(facts))], build)


def next_act(build: Build) -> str:
    """The id that the act of ``suppose`` has, for facts that mention others of the same act."""
    last = build.acts[-1].id if build.acts else ""
    return act_id(stamp_of(last) + 1 if last else 1, SUPPOSED, 1)
