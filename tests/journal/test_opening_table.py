"""Each row of the table of what may be found on opening."""

from __future__ import annotations

import json

import pytest

from tests.journal.desk import AT, BUILD, NOW, Desk, kinds, note, reservations, texts
from tracker.act import act_id
from tracker.journal import Memory, verify
from tracker.journal.codec import checksum_of, encode, root_checksum
from tracker.journal.report import _FAULTS

HOUR_MS = 3_600_000


def test_a_folder_without_a_journal_is_an_empty_reading(desk):
    assert desk.read().acts == ()
    assert desk.read().faults == ()


def test_clean_is_read(desk):
    acts = tuple(desk.write(n) for n in "abc")

    assert desk.read().acts == acts
    assert desk.read().faults == ()
    assert verify(desk.folder, BUILD) == ()


def test_torn_is_a_notice_that_the_owner_puts_aside_at_the_next_act(desk):
    desk.write("a")
    whole = desk.log().read_bytes()
    desk.log().write_bytes(whole + b"0123 torn")
    desk.open()

    assert kinds(desk.read()) == ["torn"]
    assert reservations(desk.read()) == []
    assert desk.log().read_bytes() == whole + b"0123 torn"
    desk.write("b")

    assert desk.texts() == ["a", "b"]
    assert desk.read().faults == ()
    assert desk.log().with_name("waaaaaaa.rest-1").read_bytes() == b"0123 torn"
    assert desk.log().read_bytes().startswith(whole)


def test_a_second_torn_act_goes_to_a_second_side_file(desk):
    for n in (1, 2):
        desk.write(n)
        with desk.log().open("ab") as file:
            file.write(b"torn %d" % n)
        desk.write("more")

    assert desk.log().with_name("waaaaaaa.rest-2").read_bytes() == b"torn 2"
    assert desk.texts() == ["1", "more", "2", "more"]


def test_torn_complete_counts_and_the_owner_ends_the_line(desk):
    desk.write("a")
    desk.write("b")
    whole = desk.log().read_bytes()
    desk.log().write_bytes(whole[:-1])
    desk.open()

    assert kinds(desk.read()) == ["torn-complete"]
    assert desk.texts() == ["a", "b"]
    desk.write("c")

    assert desk.texts() == ["a", "b", "c"]
    assert desk.read().faults == ()
    assert desk.log().read_bytes().startswith(whole)
    assert [f.name for f in desk.log().parent.iterdir()] == ["waaaaaaa.log"]


def test_an_act_that_was_never_confirmed_but_lacks_only_its_newline_counts_too(desk, tmp_path):
    desk.write("a")
    before = (tmp_path / "memory.json").read_bytes()
    desk.write("b")
    desk.log().write_bytes(desk.log().read_bytes()[:-1])
    (tmp_path / "memory.json").write_bytes(before)

    again = Desk(desk.folder, tmp_path / "memory.json", "x")
    assert kinds(again.read()) == ["torn-complete"]
    again.now = desk.now
    again.write("c")

    assert again.texts() == ["a", "b", "c"]
    assert [f.name for f in desk.log().parent.iterdir()] == ["waaaaaaa.log"]


def test_the_rest_of_another_writers_file_is_arriving_and_never_touched(desk, tmp_path):
    desk.write("a")
    desk.write("b")
    cut = desk.log().read_bytes()[:-1]
    desk.log().write_bytes(cut)

    other = Desk(desk.folder, tmp_path / "other.json", "x")
    assert kinds(other.read()) == ["arriving"]
    assert not reservations(other.read())
    other.write("c")

    assert other.texts() == ["a", "c"]
    assert desk.log().read_bytes() == cut
    desk.log().write_bytes(cut + b"\n")
    assert sorted(other.texts()) == ["a", "b", "c"]
    assert other.read().faults == ()


def test_a_damaged_line_leaves_the_others_and_seals_its_file(desk):
    for n in "abc":
        desk.write(n)
    data = bytearray(desk.log().read_bytes())
    data[data.index(b'"b"') + 1] ^= 1
    desk.log().write_bytes(data)

    assert desk.texts() == ["a", "c"]
    (fault,) = reservations(desk.read())
    assert (fault.kind, fault.file, fault.line) == ("damaged", "waaaaaaa.log", 2)
    assert fault.text.startswith("journal/waaaaaaa.log:2: this line can't be read")
    desk.write("d")

    assert desk.texts() == ["a", "c", "d"]
    assert desk.log().read_bytes() == data
    assert desk.log("waaaaaab").exists()
    assert reservations(desk.read()) == [fault]


def test_a_damaged_last_line_is_not_said_to_be_missing_too(desk):
    for n in "abc":
        desk.write(n)
    data = bytearray(desk.log().read_bytes())
    data[-10] ^= 1
    desk.log().write_bytes(data)

    assert kinds(desk.read()) == ["damaged"]


def test_neighbouring_damaged_lines_are_one_fault(desk):
    for n in "abcd":
        desk.write(n)
    lines = desk.log().read_bytes().split(b"\n")
    lines[1], lines[2] = b"\xff\xfe", b"{}"
    desk.log().write_bytes(b"\n".join(lines))

    (fault,) = reservations(desk.read())
    assert "lines 2 to 3" in fault.text
    assert desk.texts() == ["a", "d"]


def test_a_gap_keeps_both_neighbours(desk):
    for n in "abc":
        desk.write(n)
    lines = desk.log().read_bytes().splitlines(keepends=True)
    desk.log().write_bytes(lines[0] + lines[2])

    assert [f.kind for f in verify(desk.folder, BUILD)] == ["gap"]
    assert desk.texts() == ["a", "c"]
    assert kinds(desk.read()) == ["gap"]


def test_lost_last_lines_are_noticed_where_they_are_remembered(desk, tmp_path):
    for n in "abc":
        desk.write(n)
    lines = desk.log().read_bytes().splitlines(keepends=True)
    desk.log().write_bytes(b"".join(lines[:2]))

    (fault,) = reservations(desk.read())
    assert (fault.kind, fault.line) == ("shorter", 3)
    assert verify(desk.folder, BUILD) == ()
    assert kinds(verify(desk.folder, BUILD, memory=Memory(tmp_path / "memory.json"))) == ["shorter"]


def test_a_shorter_own_file_is_not_carried_on_and_stays_a_reservation_until_it_is_back(desk):
    for n in "abc":
        desk.write(n)
    whole = desk.log().read_bytes()
    desk.log().write_bytes(whole[: whole.index(b"\n") + 1])
    (fault,) = reservations(desk.read())
    desk.write("d")
    desk.write("e")

    assert desk.texts() == ["a", "d", "e"]
    assert reservations(desk.read()) == [fault]
    desk.log().write_bytes(whole)
    assert desk.read().faults == ()
    assert desk.texts() == ["a", "b", "c", "d", "e"]


def test_a_file_of_others_that_went_or_shrank_is_noticed_even_if_it_grew_again(desk, tmp_path):
    other = Desk(desk.folder, tmp_path / "other.json", "x")
    for n in "abc":
        other.write(n)
    desk.write("d")
    log = desk.log("xaaaaaaa")
    lines = log.read_bytes().splitlines(keepends=True)
    log.unlink()

    assert kinds(desk.read()) == ["shorter"]
    assert desk.read().faults[0].file == "xaaaaaaa.log"
    log.write_bytes(lines[0] + lines[1])
    desk.write("e")
    assert kinds(desk.read()) == ["shorter"]
    forked = encode(act_id(NOW, "xaaaaaaa", 3), lines[1][:32].decode(), AT, None, "Ida", note("x"))
    log.write_bytes(lines[0] + lines[1] + forked * 2)
    assert "shorter" in kinds(desk.read())
    log.write_bytes(b"".join(lines))
    assert desk.read().faults == ()


def test_another_builds_file_does_not_count(desk, tmp_path):
    desk.write("a")
    elsewhere = Desk(tmp_path / "elsewhere", None, "x")
    elsewhere.folder.mkdir()
    with elsewhere.open().writing() as pen:
        line = encode(
            act_id(NOW + 9 * HOUR_MS, "xaaaaaaa", 1), root_checksum("other", "xaaaaaaa"), AT, None,
            "Bo", note("not ours"),
        )  # fmt: skip
        assert pen.reading.acts == ()
    desk.log("xaaaaaaa").write_bytes(line)

    assert desk.texts() == ["a"]
    (fault,) = desk.read().faults
    assert (fault.kind, fault.file, fault.reservation) == ("stranger", "xaaaaaaa.log", True)
    desk.write("b")
    assert desk.texts() == ["a", "b"]
    assert desk.read().faults == (fault,)


def newer(prev: str, sequence: int) -> bytes:
    body = json.dumps(
        {"v": 2, "id": act_id(NOW, "xaaaaaaa", sequence), "prev": prev, "what": []},
        separators=(",", ":"),
    ).encode()
    return checksum_of(body).encode() + b" " + body + b"\n"


def test_a_newer_version_is_kept_and_skipped_and_named(desk, tmp_path):
    desk.write("a")
    first = newer(root_checksum(BUILD, "xaaaaaaa"), 1)
    second = encode(act_id(NOW + 1, "xaaaaaaa", 2), first[:32].decode(), AT, None, "B", note("old"))
    desk.log("xaaaaaaa").write_bytes(first + second)

    assert desk.texts() == ["old", "a"]
    (fault,) = reservations(desk.read())
    assert (fault.kind, fault.line) == ("foreign", 1)
    assert "journal version 2" in fault.text
    desk.write("b")
    assert desk.log("xaaaaaaa").read_bytes() == first + second


def test_an_act_that_follows_a_newer_one_is_stamped_after_it(desk):
    folder = desk.folder / "journal"
    folder.mkdir()
    line = newer(root_checksum(BUILD, "xaaaaaaa"), 1)
    desk.log("xaaaaaaa").write_bytes(line)
    desk.now = 5

    assert desk.write("a").id > act_id(NOW, "xaaaaaaa", 1)


def test_a_repeated_line_counts_once(desk):
    for n in "abc":
        desk.write(n)
    lines = desk.log().read_bytes().splitlines(keepends=True)
    desk.log("copied").write_bytes(lines[0] + lines[1])

    assert desk.texts() == ["a", "b", "c"]
    (fault,) = desk.read().faults
    assert (fault.kind, fault.reservation) == ("repeated", False)
    assert "2 lines repeat acts" in fault.text


@pytest.mark.parametrize("names", [("xaaaaaaa", "yaaaaaaa"), ("yaaaaaaa", "xaaaaaaa")])
def test_of_two_bodies_under_one_id_the_same_one_counts_everywhere(desk, names):
    root = root_checksum(BUILD, "xaaaaaaa")
    same_id = act_id(NOW, "xaaaaaaa", 1)
    lines = [encode(same_id, root, AT, None, "Bo", note(text)) for text in ("one", "two")]
    (desk.folder / "journal").mkdir()
    for name, line in zip(names, lines, strict=True):
        desk.log(name).write_bytes(line)

    assert desk.texts() == [texts(desk.read())[0]] == ["two" if min(lines) == lines[1] else "one"]
    (fault,) = reservations(desk.read())
    assert fault.kind == "clash"


def test_an_act_stamped_over_an_hour_ahead_is_a_notice_and_still_in_order(desk):
    desk.write("a")
    desk.now += 2 * HOUR_MS
    desk.write("b")
    desk.now -= 2 * HOUR_MS

    assert desk.texts() == ["a", "b"]
    (fault,) = desk.read().faults
    assert (fault.kind, fault.line, fault.reservation) == ("ahead", 2, False)
    assert desk.journal.read().faults == ()
    desk.write("c")
    assert desk.texts() == ["a", "b", "c"]
    assert kinds(desk.read()) == ["ahead"]


def test_exactly_an_hour_ahead_is_no_fault(desk):
    act = desk.write("a")

    assert desk.journal.read(int(act.id[:12], 16) - HOUR_MS).faults == ()
    assert kinds(desk.journal.read(int(act.id[:12], 16) - HOUR_MS - 1)) == ["ahead"]


def test_the_greatest_stamp_there_can_be_does_not_stop_recording(desk):
    identifier = act_id(0xEFFFFFFFFFFF, "xaaaaaaa", 1)
    line = encode(identifier, root_checksum(BUILD, "xaaaaaaa"), AT, None, "Bo", note("far"))
    (desk.folder / "journal").mkdir()
    desk.log("xaaaaaaa").write_bytes(line)

    desk.write("a")
    desk.write("b")
    assert sorted(desk.texts()) == ["a", "b", "far"]
    assert sorted(texts(desk.open().read())) == ["a", "b", "far"]


def test_the_same_bytes_give_the_same_keys_on_every_computer(desk, tmp_path):
    for n in "abcd":
        desk.write(n)
    lines = desk.log().read_bytes().splitlines(keepends=True)
    desk.log().write_bytes(lines[0] + b"?" + lines[1] + lines[3])
    here = verify(desk.folder, BUILD)
    copy = tmp_path / "copy"
    (copy / "journal").mkdir(parents=True)
    (copy / "journal" / "waaaaaaa.log").write_bytes(desk.log().read_bytes())

    assert [f.key for f in verify(copy, BUILD)] == [f.key for f in here]
    assert len({f.key for f in here}) == len(here) > 0
    (copy / "journal" / "waaaaaaa.log").write_bytes(lines[0] + b"!" + lines[1] + lines[3])
    assert verify(copy, BUILD)[0].key != here[0].key


def test_words_that_people_never_meet_are_in_no_sentence():
    said = {
        word.strip(".,;:()-{}")
        for key, _, sentence in _FAULTS.values()
        for word in f"{key} {sentence}".split()
    }
    assert "act" in said
    assert said.isdisjoint({"torn", "foreign", "fold", "entry", "point", "adopt", "float", "left"})


def test_files_that_are_no_journal_are_not_read(desk):
    desk.write("a")
    for name in ("._waaaaaaa.log", "waaaaaaa.log.tmp", "notes.txt"):
        desk.log().with_name(name).write_bytes(b"nonsense\n")
    desk.log("folder").mkdir()
    desk.log("dangling").symlink_to("nowhere")

    assert desk.open().read().faults == ()
    assert desk.texts() == ["a"]
