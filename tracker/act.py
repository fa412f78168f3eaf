"""What happened, one act at a time: the one value that the journal and the build share.

An act is a list of plain facts under one id. It is written as a whole, undone as a whole, and
the state of a build is nothing but its acts applied in the order of their ids.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

Fact = Mapping[str, Any]
"""One thing that happened: a flat JSON object whose key ``f`` names its kind."""

VERSION = 1
"""The newest version of an act's body that this release writes and understands."""


class Act(NamedTuple):
    """One act: what a person did at one moment.

    Parameters
    ----------
    id: sorts in the order of doing; see :func:`act_id`. Never read as a date.
    at: when it was typed, ISO 8601 with offset.
    by: who typed it. A statement, not authentication.
    facts: what it says, in order; fact ``i`` is known elsewhere as ``ref(i)``.
    when: when it happened, where that was earlier than ``at``; ISO 8601 with offset.
    v: version of the body, 1 or more.
    """

    id: str
    at: str
    by: str
    facts: tuple[Fact, ...]
    when: str | None = None
    v: int = VERSION

    def ref(self, index: int) -> str:
        """The name of fact ``index`` (from 0) of this act, as other facts mention it."""
        return f"{self.id}/{index}"

    @property
    def happened(self) -> str:
        """When it happened: ``when``, else ``at``."""
        return self.when or self.at


def act_id(stamp_ms: int, writer: str, sequence: int) -> str:
    """The id of an act: a stamp that only rises (ms), its writer, its place in the writer's file.

    The stamp has a fixed width in hexadecimal, so ids compare as plain text.
    """
    return f"{stamp_ms:012x}-{writer}-{sequence}"


def stamp_of(identifier: str) -> int:
    """The rising stamp (ms) inside an act's id; for ordering and for 'ahead' alone."""
    return int(identifier.split("-", 1)[0], 16)


def short_id(identifier: str) -> str:
    """What people read and type for an act: the start of its writer and its number."""
    _, writer, sequence = identifier.split("-", 2)
    return f"{writer[:4]}-{sequence}"
