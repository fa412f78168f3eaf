"""Loading: a small template of our own, and one sentence for each rule it can break."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from tracker.errors import BadFile, UnknownName
from tracker.templates.load import load, read, shipped

GOOD = """[phase]
name = "roof-box"
title = "Roof box"
order = 5
edition = 1
after = ["framing", "cabinetry"]
summary = "A box on the roof."

[[holdpoint]]
key = "box-shut"
title = "Box shut"
text = "The box is closed for good."
gates = "panelling"
closed_by = "shut-box"
buries = ["run", "gas-line"]
valid_h = 12

[[task]]
key = "cut-box"
title = "Cut"
crew = 1
hours = {low = [0.5, 0.0], likely = [1.0, 0.1], high = [2.0, 0.1]}
needs = ["rough-in-wiring/drill-holes", "cabinetry/mock-up"]

[[task]]
key = "shut-box"
title = "Shut"
crew = 2
hours = {low = [1, 0], likely = [1, 0], high = [1, 0]}
needs = ["cut-box"]
parts = [{part = "screw", per = "run", qty = 4, unit = "each"}]

[[check]]
key = "box-label"
say = "tag"
text = "It has a label."
class = "hold"
each = "run"
where = {critical = [true, "unknown"], system = "dc"}
before = "box-shut"
how = "look"
watches = ["to", "station_m"]
missed = "Nobody knows."
basis = "common practice"

[[check]]
key = "box-length"
text = "It is long enough."
class = "hold"
each = "run"
before = "pre-foam"
how = "measure"
limit = {min = 1.0, sign_min = 0.5, unit = "m"}
missed = "Too short."
basis = "standard"
standard = "A standard, as summarised by others"
"""


def test_a_template_loads_with_its_references_made_ids() -> None:
    phase = load(GOOD, "roof-box")
    assert phase.after == ("phase:framing", "phase:cabinetry")
    assert phase.hash == hashlib.sha256(GOOD.encode()).hexdigest()
    (hold,) = phase.holdpoints
    assert (hold.gates, hold.closed_by) == ("phase:panelling", "task:roof-box/shut-box")
    assert (hold.buries, hold.valid_h, hold.dry) == (("run", "gas-line"), 12.0, False)
    cut, shut = phase.tasks
    assert cut.needs == ("task:rough-in-wiring/drill-holes", "task:cabinetry/mock-up")
    assert shut.needs == ("task:roof-box/cut-box",)
    assert cut.hours == {"low": (0.5, 0.0), "likely": (1.0, 0.1), "high": (2.0, 0.1)}
    label, length = phase.checks
    assert (label.before, label.class_) == ("hold:roof-box/box-shut", "hold")
    assert (length.before, length.waive) == ("hold:insulation/pre-foam", True)
    assert length.limit == {"min": 1.0, "sign_min": 0.5, "unit": "m"}


def test_a_file_is_loaded_under_its_own_name(tmp_path: Path) -> None:
    path = tmp_path / "roof-box.toml"
    path.write_text(GOOD)
    assert load(path) == load(GOOD, "roof-box")


def test_a_template_may_take_the_place_of_a_shipped_one() -> None:
    text = GOOD.replace('name = "roof-box"', 'name = "deck"').replace(
        'key = "cut-box"', 'key = "mark-bows"'
    )
    text = text.replace('needs = ["cut-box"]', 'needs = ["mark-bows"]')
    assert load(text, "deck").tasks[0].key == "mark-bows"


def swapped(old: str, new: str) -> tuple[str, int]:
    assert GOOD.count(old) == 1, old
    return GOOD.replace(old, new), GOOD[: GOOD.index(old)].count("\n") + 1


FAULTS = [
    ('name = "roof-box"', 'name = "roof"', ["name is 'roof'", "'roof-box'"]),
    ("order = 5", "order = 14", ["order in [phase] is 14", "13 or less"]),
    ("edition = 1", "edition = 0", ["edition in [phase] is 0", "1 or more"]),
    ('after = ["framing", "c', 'after = ["framings", "c', ["'framings'", "mean framing?"]),
    ('after = ["framing", "c', 'after = ["roof-box", "c', ["roof-box can't come after itself"]),
    ('gates = "panelling"', 'gates = "paneling"', ["'paneling'", "no phase", "mean panelling"]),
    ('closed_by = "shut-box"', 'closed_by = "shut"', ["no task of roof-box", "shut-box"]),
    ('closed_by = "shut-box"', 'closed_by = "deck/shut"', ["'deck/shut'", "no task of deck"]),
    ('closed_by = "shut-box"', 'closed_by = "dek/shut"', ["'dek'", "no phase", "mean deck"]),
    ('buries = ["run", "g', 'buries = ["runs", "g', ["'runs'", "did you mean run"]),
    ('buries = ["run", "g', 'buries = ["bay", "g', ["buries in [[holdpoint]] has 'bay'"]),
    ("valid_h = 12", "valid_h = 0", ["valid_h in [[holdpoint]] is 0", "1 or more"]),
    ("valid_h = 12", "valid = 12", ["unknown key 'valid'", "did you mean valid_h?"]),
    ('key = "cut-box"', 'key = "spray"', ["key 'spray' is taken", "insulation"]),
    ('key = "shut-box"', 'key = "cut-box"', ["taken by the [[task]] at line 18"]),
    ('key = "box-shut"', 'key = "pre-foam"', ["key 'pre-foam' is taken", "insulation"]),
    ('key = "box-label"', 'key = "label-both-ends"', ["is taken by a [[check]] of insulation"]),
    ("crew = 2", "crew = 0", ["crew in [[task]] is 0", "1 or more"]),
    ("crew = 2", "crew = 1.5", ["crew in [[task]] is 1.5", "a whole number"]),
    ("likely = [1.0, 0.1]", "likely = [3.0, 0.1]", ["hours must rise from low"]),
    ("low = [0.5, 0.0]", "low = [0.5]", ["low in hours is [0.5]", "[hours, hours per metre]"]),
    ("low = [0.5, 0.0]", "low = [-0.5, 0]", ["low in hours in [[task]] is -0.5", "0 or more"]),
    ("low = [0.5, 0.0]", "low = [0, 0]", ["no task takes no time"]),
    ("low = [0.5, 0.0], ", "", ["hours in [[task]] lacks the key 'low'"]),
    ("/drill-holes", "/drill-hole", ["no task of rough-in-wiring", "mean drill-holes"]),
    ('needs = ["cut-box"]', 'needs = ["shut-box"]', ["circle", "shut-box needs roof-box/shut-box"]),
    ('per = "run"', 'per = "runs"', ["per in parts is 'runs'", "did you mean run"]),
    ("qty = 4", "qty = 0", ["qty in parts in [[task]] is 0"]),
    ('unit = "each"', 'unit = "box"', ["unit in parts in [[task]] is 'box'", "allowed: each"]),
    ('say = "tag"', 'say = "ok"', ["say is 'ok'", "kept by the entry line"]),
    ('say = "tag"', 'say = "two words"', ["say in [[check]] is 'two words'"]),
    ('system = "dc"', 'system = "dd"', ["system = 'dd'", "allowed: dc, ac", "unknown"]),
    ('system = "dc"', 'systm = "dc"', ["'systm', which is no field of run", "mean system"]),
    ("critical = [true,", "critical = [1,", ["critical = 1", "true, false, unknown"]),
    ('before = "box-shut"', 'vehicle = 3\nbefore = "box-shut"', ["vehicle is 3", "a table"]),
    (
        'before = "box-shut"',
        'vehicle = {bodi = "van"}\nbefore = "box-shut"',
        ["'bodi', which is no field of the vehicle", "did you mean body?"],
    ),
    (
        'key = "cut-box"',
        'vehicle = {body = "unknown"}\nkey = "cut-box"',
        ["vehicle asks for body = 'unknown'", "allowed: bus, van"],
    ),
    (
        "limit = {min = 1.0, sign_min = 0.5, ",
        'limit = {min_profile = "gas_loss", ',
        ["min_profile in limit is 'gas_loss'", "a number in m of the vehicle's profile"],
    ),
    (
        "limit = {min = 1.0, sign_min = 0.5, ",
        'limit = {min = 1.0, min_profile = "length_m", ',
        ["min_profile in limit is 'length_m'", "there is a min too; drop one"],
    ),
    ("where = {critical", "where = 3 # {critical", ["where is 3", "a table"]),
    ('before = "box-shut"', 'before = "prefoam"', ["no hold point", "did you mean pre-foam"]),
    ('how = "look"', 'how = "lok"', ["how in [[check]] is 'lok'", "did you mean look"]),
    ('watches = ["to", ', 'watches = ["too", ', ["watches in [[check]] has 'too'", "mean to"]),
    ('basis = "common practice"', 'basis = "habit"', ["basis in [[check]] is 'habit'", "standard"]),
    ('basis = "common practice"', 'basis = "standard"', ["no key 'standard' names it"]),
    ('basis = "standard"', 'basis = "common practice"', ["a standard is named"]),
    ('text = "It is long enough."', 'text = "It has a label."', ["text says the same", "line 33"]),
    ("min = 1.0, sign_min = 0.5", "sign_min = 0.5", ["limit has none of min, max"]),
    ("sign_min = 0.5", "sign_min = 1.0", ["sign_min in limit must be below its min"]),
    ("min = 1.0,", "min = 1.0, max = 0.9,", ["min in limit is above its max"]),
    ('unit = "m"}', 'unit = "foot"}', ["unit in limit in [[check]] is 'foot'", "Mohm"]),
    (', unit = "m"}', "}", ["limit in [[check]] lacks the key 'unit'"]),
    ("sign_min = 0.5,", 'max_field = "to",', ["max_field in limit is 'to'", "a number in m"]),
    ("sign_min = 0.5,", 'max_field = "drop_max_pct",', ["'drop_max_pct'", "a number in m"]),
    ("sign_min = 0.5,", 'max = 2.0, max_field = "length_m",', ["there is a max too"]),
    ("sign_min = 0.5,", 'function = "lead_from_rib",', ["gives the min, and only of a run"]),
    ("sign_min = 0.5,", 'function = "lead",', ["function in limit in [[check]] is 'lead'"]),
    ('how = "measure"', 'how = "second person"', ["a limit needs a number", "'second person'"]),
]


@pytest.mark.parametrize(("old", "new", "words"), FAULTS)
def test_a_broken_rule_is_one_sentence_at_its_line(old: str, new: str, words: list[str]) -> None:
    text, line = swapped(old, new)
    with pytest.raises(BadFile) as caught:
        load(text, "roof-box")
    message = str(caught.value)
    assert [word for word in words if word not in message] == []
    about = caught.value.line
    expected = {
        "standard is named": line + 1,
        "a limit needs": line + 1,
        "no key 'standard'": line,
    }
    assert about == next((at for sign, at in expected.items() if sign in message), line)
    assert message.startswith(f"roof-box.toml:{about}: ")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('each = "run"\nwhere', 'each = "runs"\nwhere', "each is 'runs' (did you mean run"),
        ('each = "run"\nwhere', 'each = "person"\nwhere', "each is 'person'"),
        ('say = "tag"', 'say = "box-length"', "say says the same as the [[check]] at line"),
    ],
)
def test_subjects_and_words_are_held_to(old: str, new: str, words: str) -> None:
    text = GOOD.replace(old, new)
    if "box-length" in new:
        text = text.replace('before = "pre-foam"', 'before = "box-shut"')
        text = text.replace('key = "box-length"', 'key = "box-length"\nsay = "box-length"')
    with pytest.raises(BadFile) as caught:
        load(text, "roof-box")
    assert words in str(caught.value)


def test_a_circle_through_two_tasks_names_them_in_turn() -> None:
    text = GOOD.replace('"rough-in-wiring/drill-holes"', '"shut-box"')
    with pytest.raises(BadFile) as caught:
        load(text, "roof-box")
    circle = "roof-box/cut-box needs roof-box/shut-box needs roof-box/cut-box"
    assert circle in str(caught.value)


def test_a_circle_through_a_shipped_template_is_seen() -> None:
    text = GOOD.replace('name = "roof-box"', 'name = "deck"').replace("cut-box", "mark-bows")
    text = text.replace('"rough-in-wiring/drill-holes"', '"insulation/mask"')
    text = text.replace("shut-box", "hose-roof")
    with pytest.raises(BadFile, match="deck/mark-bows needs insulation/mask needs deck/hose-roof"):
        load(text, "deck")


def test_a_missing_phase_table_is_said() -> None:
    with pytest.raises(BadFile, match=r"the table \[phase\] is missing"):
        load("", "roof-box")


def test_files_that_cannot_be_read_are_said_in_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(BadFile, match=r"absent\.toml: can't be read: no such file"):
        load(tmp_path / "absent.toml")
    with pytest.raises(BadFile, match="can't be read: is a directory"):
        load(tmp_path)
    path = tmp_path / "latin.toml"
    path.write_bytes(b"# one\n# two\n# caf\xe9\n")
    with pytest.raises(BadFile, match=r"latin.toml:3: not UTF-8 text"):
        load(path)


def test_an_unknown_shipped_template_offers_the_nearest() -> None:
    with pytest.raises(UnknownName, match="did you mean insulation"):
        read("insulaton")


def test_shipped_templates_come_in_the_order_of_work() -> None:
    assert [read(name).order for name in shipped()] == sorted(read(n).order for n in shipped())
    assert {"framing", "deck", "rough-in-wiring", "insulation"} <= set(shipped())


def test_a_check_may_be_asked_of_what_the_person_sees_to_besides_the_work() -> None:
    text = GOOD.replace('each = "run"\nbefore = "pre-foam"', 'each = "loan"\nbefore = "pre-foam"')
    text = text.replace(
        'how = "measure"\nlimit = {min = 1.0, sign_min = 0.5, unit = "m"}\n', 'how = "look"\n'
    )

    assert load(text, "roof-box").checks[1].each == "loan"
