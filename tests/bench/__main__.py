"""``python -m tests.bench``: what the program costs, as ratios measured in one run.

Name one or more of start, fold, append, critical, cutting, forecast, listing, today to measure
only those. Ratios move with the machine and its disk; the aims are those of the README, not limits
that anything enforces.
"""

from __future__ import annotations

import platform
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.bench.appending import appending
from tests.bench.critical import critical
from tests.bench.cutting import cutting
from tests.bench.folding import folding
from tests.bench.forecast import forecast
from tests.bench.listing import listing
from tests.bench.startup import start_up
from tests.bench.today import today_lines

PARTS = {
    "start": start_up,
    "fold": folding,
    "append": appending,
    "critical": critical,
    "cutting": cutting,
    "forecast": forecast,
    "listing": listing,
    "today": today_lines,
}


def main(names: list[str]) -> int:
    """Print the ratios of the parts named, or of all."""
    if set(names) - set(PARTS):
        print(f"bench: choose from {', '.join(PARTS)}", file=sys.stderr)
        return 2
    print(f"Python {platform.python_version()} on {platform.system()} {platform.machine()}")
    for name in names or PARTS:
        # Not in the temporary folder of the system, which may be memory: fsync would cost nothing.
        with TemporaryDirectory(dir=Path.cwd(), prefix=".bench-") as folder:
            for line in PARTS[name](Path(folder)):
                print(line, flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
