"""``closein runs``: the wire schedule, worked out again."""

from __future__ import annotations

import argparse
from typing import Any

from tracker.cli.desk import Desk
from tracker.cli.options import reading

SUMMARY = "The wire schedule: drop, ampacity and protection of every run, worked out again."
EXAMPLES = """\
  closein runs               every run
  closein runs --recheck     those that fail; exit status 1 when there are any
  closein runs --recheck && echo fit"""
HEADS = ["run", "feeds", "size", "length", "load", "drop", "carries", "device", ""]


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument(
        "--recheck", action="store_true", help="show those that fail; exit status 1 when any does"
    )
    reading(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Print the schedule."""
    from tracker.app.views.runs import runs_view

    rows = runs_view(desk.session(fallback=True, quiet=args.json))
    failing = [row for row in rows if row["verdict"] == "fails"]
    unknown = [row for row in rows if row["verdict"] == "unknown"]
    status = 1 if args.recheck and failing else 0
    if desk.as_json:
        desk.json(
            {
                "runs": failing if args.recheck else rows,
                "checked": len(rows),
                "failing": len(failing),
                "unknown": [row["run"] for row in unknown],
            }
        )
        return status
    if not rows:
        desk.say("no runs yet; 'closein item add run NAME FIELD=VALUE' adds one")
        return 0
    shown = failing if args.recheck else rows
    if shown:
        desk.table([_cells(row) for row in shown], HEADS)
    for row in failing:
        for reason in row["fails"]:
            desk.wrapped(f"{row['run']}: {reason}", "    ", "  ! ")
    fails = f"{len(failing)} of {len(rows)} runs fail" if failing else f"{len(rows)} runs, no fail"
    more = f"; of {len(unknown)} too little is known: {', '.join(row['run'] for row in unknown)}"
    desk.wrapped(fails + (more if unknown else ""))
    desk.wrapped(
        "Worked out for 60 C insulation, two conductors together and, where a run is buried, foam, "
        "unless it was sized with something else. Check the cable's own sheet."
    )
    return status


def _cells(row: dict[str, Any]) -> list[str]:
    drop = ""
    if row["drop_percent"] is not None:
        percent = row["drop_percent"]
        lost = f"{percent:.2g}" if percent < 99.5 else f"{percent:.0f}"
        drop = f"{lost}/{row['drop_allowed_percent']:g} %"
    words = {"ok": "ok", "signal": "carries signals", "unknown": "unknown"}
    verdict = words.get(row["verdict"], "FAILS")
    if row["unknown"] and row["verdict"] != "signal":
        verdict += f" ({', '.join(row['unknown'])} unknown)"
    return [
        row["run"],
        str(row["to"] or row["title"] or "")[:22],
        str(row["gauge"] or "?")[:8],
        _number(row["length_m"], "m"),
        _number(row["load_a"], "A"),
        drop,
        _number(row["ampacity_a"], "A") if row["ampacity_a"] is not None else "",
        _number(row["protection_a"], "A"),
        verdict,
    ]


def _number(value: float | None, unit: str) -> str:
    return "?" if value is None else f"{value:.3g} {unit}"
