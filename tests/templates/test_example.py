"""The worked example that people begin their own templates from."""

from __future__ import annotations

import re

from tracker.templates import shape
from tracker.templates.load import load, shipped
from tracker.templates.shipped import example


def test_the_example_loads_as_it_stands_and_takes_no_shipped_name() -> None:
    phase = load(example(), "sauna")

    assert phase.name not in shipped()
    assert phase.holdpoints[0].gates == "phase:sauna"
    assert [check.each for check in phase.checks] == ["once", "heat-maker"]
    assert phase.checks[1].limit == {"min_field": "clearance_mm", "unit": "mm"}


def test_the_example_names_every_key_a_template_may_have() -> None:
    words = set(re.findall(r"[a-z_]+", example()))

    for keys in (shape.PHASE, shape.HOLDPOINT, shape.TASK, shape.CHECK):
        assert [key for key in keys if key not in words] == []
