"""The wire schedule: every run with its drop, ampacity and protection worked out again."""

from __future__ import annotations

from typing import Any

from tracker.app.session import Session
from tracker.build.item import Item
from tracker.build.kinds import kind_of
from tracker.errors import BadInput
from tracker.sizing.ampacity import device_cap_a
from tracker.sizing.choosing import Circuit, try_size
from tracker.sizing.copper import wire_of

CRITICAL_PERCENT = 3.0
"""Drop allowed on a critical run. ABYC E-11 11.14.2.6, as quoted by others."""

SIGNALS = ("data", "sender", "antenna")
"""Systems whose wires carry no load worth sizing."""

NEEDED = ("gauge", "length_m", "load_a", "volts_v", "protection_a")
LENIENT = {"ambient_c": 30.0, "bundled": 2, "rules": "33cfr183"}


def runs_view(session: Session) -> list[dict[str, Any]]:
    """Every run in the order it was added.

    Each has what the record says, ``drop_v``, ``drop_percent``, ``ampacity_a``, ``verdict`` (ok,
    fails, unknown or signal), the reasons ``fails`` and what is ``unknown``.
    """
    return [_row(session, run) for run in session.cover.by_kind.get("run", [])]


def _row(session: Session, run: Item) -> dict[str, Any]:
    fields = kind_of("run").fields
    allowed = run.get("drop_max_pct", fields["drop_max_pct"].default)
    if run.get("critical"):
        allowed = min(CRITICAL_PERCENT, allowed)
    sized = run.get("sized")
    row: dict[str, Any] = {
        "run": session.names.name(run.id),
        "title": run.get("title"),
        "from": run.get("from"),
        "to": run.get("to"),
        **{name: run.get(name) for name in NEEDED},
        "conductors": run.get("conductors", fields["conductors"].default),
        "drop_allowed_percent": allowed,
        "drop_v": None,
        "drop_percent": None,
        "ampacity_a": None,
        "sized_by": sized.get("table_version") if isinstance(sized, dict) else None,
        "taken": {},
        "fails": [],
        "unknown": [name for name in NEEDED if run.get(name) is None],
    }
    if run.get("system") in SIGNALS:
        row["verdict"] = "signal"
        return row
    row["fails"] = _check(session, run, row, allowed)
    row["verdict"] = "fails" if row["fails"] else "unknown" if row["unknown"] else "ok"
    return row


def _check(session: Session, run: Item, row: dict[str, Any], allowed: float) -> list[str]:
    """Fill in what can be worked out; say what fails."""
    if any(run.get(name) is None for name in ("gauge", "length_m", "load_a", "volts_v")):
        return []
    try:
        wire = wire_of(str(run.get("gauge")))
        chosen = _inputs(session, run)
        circuit = Circuit(
            float(run.get("load_a")),
            float(run.get("length_m")) * (1 if chosen["return_path"] == "chassis" else 2),
            float(run.get("volts_v")),
            float(allowed),
            int(chosen["insulation"]),
            float(chosen["ambient_c"]),
            int(chosen["bundled"]),
            bool(chosen["in_foam"]),
            bool(chosen["sheathed"]),
            bool(chosen["continuous"]),
            str(chosen["rules"]),
        )
        trial = try_size(wire, circuit)
    except (BadInput, TypeError, ValueError) as error:
        return [str(error)]
    row["taken"] = chosen
    row["drop_v"] = trial.drop_v
    row["drop_percent"] = 100 * trial.drop_v / circuit.volts_v
    found = trial.ampacity
    row["ampacity_a"] = found.corrected_a if found else None
    fails = [words for words in trial.fails if not words.startswith("the device")]
    device_a = run.get("protection_a")
    if device_a is not None and found is not None:
        most_a = min(found.corrected_a, device_cap_a(circuit.rules, found.row)[0])
        if device_a > most_a * (1 + 1e-9):
            fails.append(f"protection ({device_a:g} A, but the wire allows {most_a:.4g} A)")
        if device_a < circuit.rated_a * (1 - 1e-9):
            fails.append(f"protection ({device_a:g} A, but the load needs {circuit.rated_a:g} A)")
    return fails


def _inputs(session: Session, run: Item) -> dict[str, Any]:
    """What a run was sized with, else what is taken: 60 C insulation, and foam where it is buried.

    What another program wrote there and can't be taken counts as not written.
    """
    from tracker.sizing.spec import helper, taken

    chosen: dict[str, Any] = {
        "insulation": "60",
        "in_foam": session.cover.buried_at(run) is not None,
        "sheathed": False,
        "continuous": False,
        "return_path": "wire",
        **LENIENT,
    }
    sized = run.get("sized")
    if not isinstance(sized, dict) or sized.get("helper") != "conductor":
        return chosen
    inputs = sized.get("inputs")
    wanted = [each for each in helper("conductor").inputs if each.name in chosen]
    try:
        found = taken(wanted, inputs if isinstance(inputs, dict) else {})
    except (BadInput, AttributeError, TypeError):
        return chosen
    found["in_foam"] = chosen["in_foam"] or found["in_foam"]
    return chosen | {name: value for name, value in found.items() if value is not None}
