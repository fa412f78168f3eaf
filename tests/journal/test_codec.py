"""One line: what goes in comes out, and whatever nobody wrote is refused in one way."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.journal.desk import AT
from tracker.act import act_id
from tracker.journal.codec import Unreadable, checksum_of, decode, encode, encode_act, root_checksum

ID = act_id(1_740_820_272_000, "waaaaaaa", 1)
PREV = root_checksum("b", "waaaaaaa")

plain_text = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False)
    | plain_text,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(plain_text, inner, max_size=3),
    max_leaves=8,
)  # fmt: skip
facts_of_any_kind = st.lists(st.dictionaries(plain_text, values, max_size=4), max_size=4)


def line_of(body: object, raw: str | None = None) -> bytes:
    """A line with the right checksum, whatever its body is."""
    data = (raw if raw is not None else json.dumps(body)).encode("utf-8", "surrogatepass")
    return checksum_of(data).encode() + b" " + data


def body(**changes: object) -> dict[str, object]:
    return {"v": 1, "id": ID, "prev": PREV, "at": AT, "by": "Ida", "facts": []} | changes


@given(facts_of_any_kind, plain_text, st.sampled_from([None, AT]))
def test_an_act_comes_back_as_it_was_written(facts, by, when):
    line, said, read_back = encode_act(ID, PREV, AT, when, by, facts)

    checksum, prev, act = decode(line[:-1])

    assert (said, read_back) == (checksum, act)
    assert line == encode(ID, PREV, AT, when, by, facts)
    assert line.count(b"\n") == 1
    assert line.startswith(checksum.encode() + b" ")
    assert (prev, act.id, act.at, act.when, act.by) == (PREV, ID, AT, when, by)
    assert list(act.facts) == facts


def test_a_line_is_the_same_bytes_in_every_release():
    line = encode(ID, PREV, AT, None, "Ida", [{"f": "note.written", "text": "größer\nals"}])

    assert line.decode() == (
        "1e2a8edfd3477e6084f77421b92eb824 "
        '{"v":1,"id":"019550f95380-waaaaaaa-1","prev":"' + PREV + '",'
        '"at":"2025-03-01T10:11:12+01:00","by":"Ida",'
        '"facts":[{"f":"note.written","text":"größer\\nals"}]}\n'
    )


@given(st.binary(max_size=80))
def test_bytes_that_nobody_wrote_are_unreadable_and_nothing_else(data):
    with pytest.raises(Unreadable):
        decode(data)


@given(values)
def test_json_under_a_right_checksum_that_is_no_act_is_unreadable(value):
    with pytest.raises(Unreadable):
        decode(line_of(value))


@pytest.mark.parametrize(
    "wrong",
    [
        body(v=0),
        body(v=True),
        body(v="1"),
        body(id="0195517f5f80-waaaaaaa-0"),
        body(id="0195517f5f80-WAAAAAAA-1"),
        body(id="f195517f5f80-waaaaaaa-1"),
        body(id="0195517f5f80-waaaaaaa-1\n"),
        body(id=7),
        body(prev=None),
        body(at="yesterday"),
        body(at="2025-03-01T10:11:12"),
        body(at=12),
        body(when="2025-03-01"),
        body(by=None),
        body(facts={}),
        body(facts=["note"]),
        {k: v for k, v in body().items() if k != "facts"},
    ],
)
def test_a_body_with_one_wrong_field_is_unreadable(wrong):
    with pytest.raises(Unreadable):
        decode(line_of(wrong))


@pytest.mark.parametrize(
    "raw",
    [
        json.dumps(body(facts=[{"n": 1}])).replace("1}", "NaN}"),
        json.dumps(body(facts=[{"n": 1}])).replace("1}", "-Infinity}"),
        json.dumps(body(facts=[{"n": 1}])).replace("1}", "9" * 5000 + "}"),
        json.dumps(body()).replace("[]", "[" * 100_000),
        json.dumps(body(by="\ud800")),
        json.dumps(body()) + " ",
        json.dumps(body()) + "\r",
        " " + json.dumps(body()),
        json.dumps(body()) * 2,
        "",
    ],
    ids=["nan", "infinite", "huge", "deep", "half-pair", "space", "cr", "lead", "twice", "empty"],
)
def test_what_json_readers_may_let_pass_is_unreadable(raw):
    with pytest.raises(Unreadable):
        decode(line_of(None, raw))


def test_a_whole_pair_written_as_escapes_is_text_like_any_other():
    assert decode(line_of(body(by="\U0001f6e0")))[2].by == "\U0001f6e0"


def test_the_checksum_is_compared_as_bytes():
    line = encode(ID, PREV, AT, None, "Ida", [])[:-1]

    with pytest.raises(Unreadable):
        decode(line[:32].upper() + line[32:])
    with pytest.raises(Unreadable):
        decode(line[:32] + b"\t" + line[33:])


def test_of_a_newer_version_only_the_id_and_the_version_are_read():
    act = decode(line_of({"v": 9, "id": ID, "prev": PREV, "deeds": "?"}))[2]

    assert (act.id, act.v, act.facts) == (ID, 9, ())


def test_a_journal_never_takes_a_number_that_is_none():
    with pytest.raises(ValueError):
        encode(ID, PREV, AT, None, "Ida", [{"f": "x", "n": float("nan")}])
