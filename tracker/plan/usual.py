"""What a day's plan takes for granted where nobody said anything else: a table beside the code."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from tracker.plan.estimate import Estimate

_TABLE: dict[str, Any] = tomllib.loads(Path(__file__).with_name("usual.toml").read_text("utf-8"))

AROUND_H = float(_TABLE["around"]["hours"])
"""To set up and pack away, for each task [h]."""
UNSTATED = Estimate(*(float(_TABLE["unstated"][name]) for name in ("low_h", "likely_h", "high_h")))
"""A task whose hours nobody stated [h]; whatever shows it says so."""
SHOP_RUN_H = float(_TABLE["shop_run"]["crew_hours"])
"""One person's run to a shop [crew-hours]."""
USUAL_H = float(_TABLE["day"]["hours"])
"""A day of which nobody ever said how long it is [h]."""
