"""One act as one line of bytes, and back. Pure.

A line is ``<checksum> <body>\\n``: the body is JSON without a raw newline, the checksum is the
hash of the body's bytes in hexadecimal and is compared as it stands, never as a number. The
newline is what commits the act.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime
from json import JSONDecoder, JSONEncoder
from typing import Any, NoReturn

from tracker.act import VERSION, Act, Fact

try:  # the same hash without the start-up cost of hashlib, which loads a whole crypto library
    from _blake2 import blake2b
except ImportError:
    from hashlib import blake2b

CHECKSUM_BYTES = 16
BODY_START = 2 * CHECKSUM_BYTES + 1

GREATEST_STAMP_MS = 0xEFFF_FFFF_FFFF
"""No stamp is greater; should one ever come near it, later ones stay there."""

is_writer = re.compile(r"[a-z2-7]{8}").fullmatch
_is_id = re.compile(r"[0-9a-e][0-9a-f]{11}-[a-z2-7]{8}-[1-9][0-9]{0,8}").fullmatch


class Unreadable(ValueError):
    """A line does not hold what was once written there."""


def _refuse_constant(name: str) -> NoReturn:
    raise Unreadable(f"{name} is no number that a journal holds")


_parse = JSONDecoder(parse_constant=_refuse_constant).raw_decode
_format = JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode


def checksum_of(data: bytes) -> str:
    """The hash of some bytes: 32 lower-case hexadecimal digits."""
    return blake2b(data, digest_size=CHECKSUM_BYTES).hexdigest()


def root_checksum(build_id: str, writer: str) -> str:
    """What the first line of a writer's file names as the line before it."""
    return checksum_of(f"{build_id} {writer}".encode())


def encode(
    identifier: str, prev: str, at: str, when: str | None, by: str, facts: Sequence[Fact]
) -> bytes:
    """The line of an act, newline included, in this release's version of the body.

    Raises as :func:`encode_act`.
    """
    return encode_act(identifier, prev, at, when, by, facts)[0]


def encode_act(
    identifier: str, prev: str, at: str, when: str | None, by: str, facts: Sequence[Fact]
) -> tuple[bytes, str, Act]:
    """The line of an act, its checksum, and the act as everybody will read it.

    Raises ``UnicodeEncodeError`` for text that no file in UTF-8 can hold, ``TypeError`` or
    ``ValueError`` for facts that are not plain JSON and for moments without offset.
    """
    body: dict[str, object] = {"v": VERSION, "id": identifier, "prev": prev, "at": at}
    if when is not None:
        body["when"] = when
    body["by"] = by
    body["facts"] = [dict(fact) for fact in facts]
    text = _format(body)
    data = text.encode()
    checksum = checksum_of(data)
    act = _act_of(text, _parse(text)[0])  # what can't be read back must not be written
    return b"%s %s\n" % (checksum.encode(), data), checksum, act


def decode(line: bytes) -> tuple[str, str, Act]:
    """What a line without its newline says: its checksum, that of the line before, the act.

    An act of a newer version comes back with its id and version alone, for the rest of its body
    may mean anything. Raises :class:`Unreadable` for whatever no closein ever wrote.
    """
    try:
        text = line.decode()
        checksum = blake2b(line[BODY_START:], digest_size=CHECKSUM_BYTES).hexdigest()
        if text[:BODY_START] != checksum + " ":
            raise Unreadable("the checksum is not that of the body")
        body, end = _parse(text, BODY_START)
        if end != len(text):
            raise Unreadable("something stands behind the body")
        prev = body["prev"]
        if type(prev) is not str or not _is_id(body["id"]):
            raise Unreadable("the body is not that of an act")
        return checksum, prev, _act_of(text, body)
    except Unreadable:
        raise
    except (ValueError, LookupError, TypeError, RecursionError) as error:
        raise Unreadable(str(error)) from error


def _act_of(text: str, body: dict[str, Any]) -> Act:
    """The act that a body says, where ``text`` holds that body."""
    version = body["v"]
    if type(version) is not int or version < 1:
        raise Unreadable("the version is none")
    if version > VERSION:
        return Act(body["id"], "", "", (), None, version)
    at, when, by, facts = body["at"], body.get("when"), body["by"], body["facts"]
    if type(by) is not str or type(facts) is not list or not _has_offset(at):
        raise Unreadable("the body is not that of an act")
    for fact in facts:
        if type(fact) is not dict:
            raise Unreadable("a fact is not an object")
    if when is not None and not _has_offset(when):
        raise Unreadable("the time it happened can't be read")
    if "\\ud" in text or "\\uD" in text:
        _format(body).encode()  # half a surrogate pair would break whoever prints it
    return Act(body["id"], at, by, tuple(facts), when, version)


def _has_offset(moment: str) -> bool:
    return datetime.fromisoformat(moment).tzinfo is not None
