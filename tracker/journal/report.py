"""What reading a journal brings to light: acts, and the faults that were met, as sentences."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.act import VERSION, Act
from tracker.journal.codec import checksum_of

# kind: (the word in the key that people type to accept it, does it stand until accepted, sentence)
_FAULTS: dict[str, tuple[str, bool, str]] = {
    "torn": (
        "unfinished",
        False,
        "the last act was cut off while it was being written and was never confirmed as saved; "
        "what there is of it is put aside at your next act",
    ),
    "torn-complete": (
        "unfinished",
        False,
        "the last act lacks only the end of its line; it counts, and your next act ends the line",
    ),
    "arriving": (
        "arriving",
        False,
        "the last line is not all here yet; it counts once the rest has been copied",
    ),
    "damaged": (
        "damaged",
        True,
        "{extent} can't be read, for the bytes are not those that were written; all else is kept; "
        "fetch this file from a copy that is whole, or accept the loss with a reason",
    ),
    "gap": (
        "gap",
        True,
        "the line that was written before this one is missing or stands elsewhere; what is here "
        "is kept; fetch this file from a copy that is whole, or accept it with a reason",
    ),
    "shorter": (
        "shorter",
        True,
        "acts that were seen here before are missing from the end of this file; fetch it from a "
        "copy that is whole, or accept the loss with a reason",
    ),
    "stranger": (
        "stranger",
        True,
        "this file belongs to another build, so nothing in it counts; move it out of the journal "
        "folder, or accept that it lies there",
    ),
    "foreign": (
        "newer",
        True,
        "this act was written by a newer closein (journal version {extent}, this one reads up to "
        f"{VERSION}); it is kept but does not count here until closein is upgraded",
    ),
    "repeated": (
        "repeated",
        False,
        "{extent} acts that stand elsewhere in the journal too; each counts once",
    ),
    "clash": (
        "clash",
        True,
        "this act has the number of another one with other contents ({extent}); only one of them "
        "counts; compare the two lines and accept it with a reason",
    ),
    "ahead": (
        "ahead",
        False,
        "from here on acts are stamped over an hour ahead of this computer's clock; check the "
        "clock here and there; their order still holds",
    ),
}


@dataclass(frozen=True, slots=True)
class Fault:
    """Something met on reading that is not as it should be.

    Parameters
    ----------
    kind: torn, torn-complete, arriving, damaged, gap, shorter, stranger, foreign, repeated,
        clash or ahead.
    file: name inside the journal folder.
    line: from 1.
    text: one sentence for people, with file and line.
    key: its name, by which it is accepted; the same wherever the same bytes are seen.
    reservation: it stands until it is accepted; otherwise it is a notice only.
    """

    kind: str
    file: str
    line: int
    text: str
    key: str
    reservation: bool


@dataclass(frozen=True, slots=True)
class Reading:
    """A journal as it was found.

    Parameters
    ----------
    acts: every act that counts, once, in the order of their ids.
    faults: what was met, file by file.
    """

    acts: tuple[Act, ...]
    faults: tuple[Fault, ...]


def fault(kind: str, file: str, line: int, evidence: bytes, extent: str = "") -> Fault:
    """The fault of a kind at a line.

    Parameters
    ----------
    kind: see :class:`Fault`.
    file: name inside the journal folder.
    line: from 1.
    evidence: the bytes that make this fault what it is; they go into its key.
    extent: what the sentence of this kind says besides.
    """
    word, reservation, sentence = _FAULTS[kind]
    name = file.encode("utf-8", "replace").decode()
    seal = checksum_of(f"{kind}:{name}:{line}:".encode() + evidence)[:10]
    text = f"journal/{name}:{line}: {sentence.format(extent=extent)}"
    return Fault(kind, name, line, text, f"{word}-{seal}", reservation)
