"""``closein verify``: look over every file of the record; changes nothing."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import reading

SUMMARY = """\
Walk every file of the record, name file and line of each fault, change no byte.
Exit status 0 where nothing is amiss but a line not all there yet; 1 otherwise."""
EXAMPLES = """\
  closein verify
  closein --build heron verify && echo whole
"""
HARMLESS = ("torn", "torn-complete", "arriving")
UNPROVEN = (
    "Lost last lines can be noticed only for files this computer has seen before; names are "
    "statements, not proof of who wrote them."
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    reading(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Walk, then say what was met."""
    from tracker.app.verifying import look_over
    from tracker.app.views.words.counting import counted

    found = look_over(desk.folder(fallback=True))
    whole = all(fault.kind in HARMLESS for fault in found.faults)
    if desk.as_json:
        desk.json(
            {
                "build": found.name,
                "folder": str(found.folder),
                "whole": whole,
                "files": found.files,
                "acts": found.acts,
                "faults": [
                    {
                        "kind": fault.kind,
                        "file": fault.file,
                        "line": fault.line,
                        "text": fault.text,
                        "key": fault.key,
                        "accepted": fault.key in found.accepted,
                    }
                    for fault in found.faults
                ],
            }
        )
        return 0 if whole else 1
    for fault in found.faults:
        kind = "notice" if fault.kind in HARMLESS else fault.kind
        reason = found.accepted.get(fault.key)
        accepted = f" (accepted: {reason})" if reason else ""
        desk.wrapped(f"{fault.text}{accepted}", "    ", f"{kind}: ")
    desk.wrapped(
        f"{found.name}: {counted(found.acts, 'act')} in {counted(found.files, 'file')}, "
        + ("whole" if whole else "not whole; what can be read counts, nothing was changed")
    )
    desk.wrapped(UNPROVEN)
    return 0 if whole else 1
