"""Start-up of ``closein todo`` on the demo, in fresh processes."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.bench.clock import in_turn, ratio_line

ROUNDS = 25
PASS = "pass"
LIBRARY = "import argparse, json, tomllib, dataclasses, datetime, pathlib"
TODO = "import sys; from tracker.cli.main import main; sys.exit(main(sys.argv[1:]))"


def start_up(folder: Path) -> Iterator[str]:
    """The lines of the report.

    Parameters
    ----------
    folder: an empty folder that the demo may be copied into.
    """
    home = folder / "home"
    home.mkdir()
    # Without PYTHON... settings: one of them may forbid the compiled files that everybody has.
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    environment = {**kept, "HOME": str(home), "XDG_DATA_HOME": str(home / "data")}
    copy = folder / "demo"

    def run(code: str, *words: str) -> Callable[[], None]:
        def once() -> None:
            subprocess.run(
                [sys.executable, "-c", code, *words],
                env=environment,
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                check=True,
            )

        return once

    run(TODO, "demo", "--into", str(copy))()
    took = in_turn(
        ROUNDS,
        {
            "pass": run(PASS),
            "library": run(LIBRARY),
            "todo": run(TODO, "--build", str(copy), "todo"),
            "help": run(TODO, "--help"),
        },
    )
    yield ratio_line("start-up: closein todo", took["todo"], "python -c pass", took["pass"], None)
    yield ratio_line("start-up: closein todo", took["todo"], "its library", took["library"], 1.5)
    yield ratio_line("start-up: closein --help", took["help"], "its library", took["library"], 1.5)
