"""Acts that stand in more than one line: the same again, or another under the same id."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from tracker.act import Act
from tracker.journal.logfile import LogFile, repeats
from tracker.journal.report import Fault, fault


class Place(NamedTuple):
    """One line that holds an act, and its checksum."""

    file: str
    line: int
    checksum: str
    act: Act


def settle(files: Iterable[LogFile]) -> tuple[list[Act], list[Fault]]:
    """Every act once, in the order of ids, and what was met.

    Of two bodies under one id the one with the lower checksum counts, so that every copy of the
    journal comes to the same state whatever its files are called.
    """
    places: dict[str, list[Place]] = {}
    for file in sorted(files, key=lambda f: f.name):
        for checksum, number in file.lines.items():
            act = file.acts[number - 1]
            if act is not None and not file.stranger:
                places.setdefault(act.id, []).append(Place(file.name, number, checksum, act))
    acts = []
    faults = []
    again: dict[str, list[int]] = {}
    for _, group in sorted(places.items()):
        chosen = min(group, key=lambda place: place.checksum)
        acts.append(chosen.act)
        known = {chosen.checksum}
        for place in group:
            if place is chosen:
                continue
            if place.checksum in known:
                again.setdefault(place.file, []).append(place.line)
                continue
            known.add(place.checksum)
            evidence = (place.checksum + chosen.checksum).encode()
            other = f"journal/{chosen.file}:{chosen.line} counts"
            faults.append(fault("clash", place.file, place.line, evidence, other))
    faults += [repeats(file, min(lines), len(lines)) for file, lines in again.items()]
    return acts, faults
