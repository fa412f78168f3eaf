"""Where something is, from few words: ``ceiling,4.1m,right``."""

from __future__ import annotations

from tracker.build.names import clean
from tracker.errors import BadInput, did_you_mean
from tracker.quantity import parse

LYING = ("floor", "ceiling", "roof", "under")
"""Faces on which left and right are sides of the middle line."""

UPRIGHT = ("left", "right", "front", "rear")
SIDES = ("left", "middle", "right")
MEASURES = {"height": "height_m", "up": "height_m", "depth": "depth_m", "station": "station_m"}


def place_of(text: str) -> dict[str, object]:
    """The fields of a place that some words state, in any order.

    Parameters
    ----------
    text: a face, a station from the datum, a side of the middle line for what lies on a floor,
        ceiling or roof, ``height 1.2m``, ``depth 20mm``; separated by commas.

    Raises
    ------
    BadInput: a word that is none of these, or one said twice.
    """
    found: dict[str, object] = {}
    words: list[str] = []
    for piece in filter(None, (each.strip().casefold() for each in clean(text).split(","))):
        if piece in (*LYING, *UPRIGHT, "middle", "centre", "center"):
            words.append("middle" if piece.startswith("cent") else piece)
            continue
        head, _, rest = piece.partition(" ")
        name = MEASURES.get(head, "station_m")
        _put(found, name, parse(rest if head in MEASURES else piece, "m"), piece)
    lying = [word for word in words if word in LYING]
    for word in words:
        side = word in SIDES and (bool(lying) or word == "middle")
        _put(found, "side" if side else "face", word, word)
    if "side" in found and "face" not in found:
        near = did_you_mean("middle", LYING)
        raise BadInput(f"--at says the middle, but of no floor, ceiling or roof{near}")
    return found


def _put(found: dict[str, object], name: str, value: object, said: str) -> None:
    if name in found:
        raise BadInput(f"--at says the {name.removesuffix('_m')} twice, the second time '{said}'")
    found[name] = value
