"""What the shipped templates must say, taken together."""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations

import pytest

from tracker.templates.load import read, shipped
from tracker.templates.phase import Check, Task

PHASES = [read(name) for name in shipped()]
CHECKS: list[Check] = [check for phase in PHASES for check in phase.checks]
TASKS: dict[str, Task] = {
    f"task:{phase.name}/{task.key}": task for phase in PHASES for task in phase.tasks
}
HOLDS = {f"hold:{phase.name}/{hold.key}": hold for phase in PHASES for hold in phase.holdpoints}
PRE_FOAM = [check for check in read("insulation").checks if check.before.endswith("/pre-foam")]

ROWS = {"P04": 11, "P05": 12, "P06": 15, "P08": 13}


def one(key: str) -> Check:
    (found,) = (check for check in CHECKS if check.key == key)
    return found


def twice(values: list) -> list:
    return [value for value, count in Counter(values).items() if count > 1]


def test_every_row_of_the_pre_foam_walk_is_carried_by_the_insulation_template_alone() -> None:
    named = {row for check in PRE_FOAM for row in check.trade}
    assert [row for row in (f"2.{n}" for n in range(1, 46)) if row not in named] == []


def test_every_row_of_the_four_phases_is_carried() -> None:
    named = {row for check in CHECKS for row in check.trade}
    wanted = [f"{prefix}-{n}" for prefix, last in ROWS.items() for n in range(1, last + 1)]
    assert [row for row in wanted if row not in named] == []


def test_rows_are_named_in_one_form_and_exist() -> None:
    for check in CHECKS:
        for row in check.trade:
            if row.startswith("2."):
                assert 1 <= int(row[2:]) <= 45, (check.key, row)
            else:
                prefix, number = row.split("-")
                assert 1 <= int(number) <= {**ROWS, "P07": 13}[prefix], (check.key, row)


def test_no_name_is_used_twice_over_all_templates() -> None:
    names = [phase.name for phase in PHASES] + [hold.key for hold in HOLDS.values()]
    names += [task.key for task in TASKS.values()] + [check.key for check in CHECKS]
    assert twice(names) == []


def test_no_word_of_the_entry_line_is_used_twice_for_the_same_subjects() -> None:
    assert twice([(check.before, check.each, check.say or check.key) for check in CHECKS]) == []
    assert [check.key for check in CHECKS if not check.say or len(check.say) > 10] == []


def words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"\w+", text.lower()))


@pytest.mark.parametrize("part", ["text", "missed"])
def test_no_two_checks_say_alike(part: str) -> None:
    sentences = [(check.key, getattr(check, part)) for check in CHECKS]
    assert twice([sentence for _, sentence in sentences]) == []
    bags = [(key, words(sentence)) for key, sentence in sentences]
    alike = [
        (first, second)
        for (first, a), (second, b) in combinations(bags, 2)
        if len(a & b) > 0.5 * len(a | b)
    ]
    assert alike == []


def test_texts_are_whole_sentences_that_end() -> None:
    for check in CHECKS:
        for sentence in (check.text, check.missed, check.caution or "Yes."):
            assert sentence[0].isupper() or sentence[0].isdigit(), check.key
            assert sentence.endswith((".", "?")), check.key
            assert sentence == " ".join(sentence.split()), check.key


def test_words_that_people_never_meet_are_not_used() -> None:
    banned = {"fold", "adopt", "float", "torn", "foreign", "left", "right", "safe"}
    for check in CHECKS:
        for sentence in (check.text, check.missed, check.caution or ""):
            assert words(sentence) & banned == frozenset(), check.key


def test_hold_checks_say_how_what_follows_and_on_what_ground() -> None:
    hold = [check for check in CHECKS if check.class_ == "hold"]
    assert len(hold) > 50
    assert [c.key for c in hold if not (c.how and c.missed and c.basis and c.text)] == []


def test_standards_are_named_as_others_summarise_them() -> None:
    named = [check for check in CHECKS if check.basis == "standard"]
    assert len(named) > 20
    ending = ", as summarised by others; check the edition in force"
    assert [check.key for check in named if not (check.standard or "").endswith(ending)] == []


NEVER_WAIVED = {
    "gas tightness": {"gas-stub-test", "gas-low-test", "gas-no-joint", "gas-after"},
    "exits": {
        "exits-planned",
        "exit-path",
        "exit-opens",
        "exit-short-side",
        "exit-long-side",
        "exit-free",
        "roof-exit-opens",
    },
    "belt and airbag cavities": {"no-fill-shut", "airbags-mapped", "no-fill-free"},
    "people and animals": {"people-out", "sprayers-protected", "fresh-air", "reentry-kept"},
    "hot work": {"hot-work-finished"},
}


def test_what_can_never_be_waived_is_just_this() -> None:
    never = {check.key for check in CHECKS if not check.waive}
    assert never == set().union(*NEVER_WAIVED.values())
    assert {check.class_ for check in CHECKS if not check.waive} == {"hold"}


def test_tests_and_measures_are_never_among_what_may_be_marked_in_bulk() -> None:
    for check in CHECKS:
        if check.limit:
            assert check.how in ("measure", "continuity", "insulation", "water", "air"), check.key
        if check.each == "run" and any(row in check.trade for row in ("2.12", "2.13", "2.14")):
            assert check.how in ("continuity", "insulation"), check.key


def test_the_limits_are_those_of_the_field_notes() -> None:
    assert one("insulation-resistance").limit == {"min": 20.0, "sign_min": 1.0, "unit": "Mohm"}
    assert one("insulation-after").limit == one("insulation-resistance").limit
    assert one("lead-length").limit == {"function": "lead_from_rib", "unit": "m"}
    assert one("loaded-drop").limit == {"max_field": "drop_max_pct", "unit": "%"}
    assert one("critical-drop").limit == {"max": 3.0, "unit": "%"}
    assert one("polarity").limit is None
    for key in ("insulation-resistance", "lead-length", "loaded-drop", "vented-heat"):
        assert one(key).memory, key


def test_limits_in_metric_are_no_laxer_than_their_sources_in_inches_and_pounds() -> None:
    inch, psi = 25.4, 6894.757
    assert one("clipped").limit["max"] <= 18 * inch
    assert one("screw-lanes").limit["min"] >= 1.25 * inch
    assert one("exit-short-side").limit["min"] >= 17 * inch
    assert one("exit-long-side").limit["min"] >= 24 * inch
    assert one("exit-path").limit["min"] >= 13 * inch
    assert one("ac-apart").limit["min"] >= 0.5 * inch
    assert one("source-length").limit["min"] * 1000 >= 24 * inch
    assert one("solar-tail").limit["min"] * 1000 >= 36 * inch
    assert one("height-measured").limit["max"] * 1000 <= 159 * inch
    assert one("width-measured").limit["max"] * 1000 <= 102 * inch
    assert one("gas-stub-test").limit["max"] <= 0.1 * psi
    assert one("below-trim-line").limit["min"] >= 0.75 * inch
    assert one("pipe-on-warm-side").limit["min"] >= inch
    assert one("lifts-thin").limit["max"] <= 1.5 * inch
    assert one("surface-temperature").limit["min"] >= (50 - 32) / 1.8
    assert one("dew-point-margin").limit["min"] >= 5 / 1.8


def test_the_weather_checks_agree_with_what_voids_them() -> None:
    hold = HOLDS["hold:insulation/pre-foam"]
    assert hold.dry and hold.valid_h == 48.0
    assert one("surface-temperature").limit["min"] == hold.min_surface_c
    assert one("dew-point-margin").limit["min"] == hold.min_margin_k
    weather = {check.key for check in CHECKS if check.lapse == "weather"}
    assert weather >= {"surface-dry", "surface-temperature", "dew-point-margin", "wood-dry"}
    assert {c.before for c in CHECKS if c.lapse} == {"hold:insulation/pre-foam"}


def test_the_hold_points_gate_and_are_closed_as_the_work_runs() -> None:
    assert {key: (hold.gates, hold.closed_by) for key, hold in HOLDS.items()} == {
        "hold:framing/layout-frozen": ("phase:rough-in-wiring", "task:rough-in-wiring/drill-holes"),
        "hold:deck/roof-tight": ("phase:insulation", "task:insulation/spray"),
        "hold:insulation/pre-foam": ("phase:insulation", "task:insulation/spray"),
        "hold:insulation/after-foam": ("phase:panelling", "task:panelling/hang-panels"),
    }
    assert set(TASKS["task:insulation/spray"].buries) == set(
        HOLDS["hold:insulation/pre-foam"].buries
    )
    assert {check.before for check in CHECKS} == set(HOLDS)


def before(task: str) -> set[str]:
    """Every task that must be done before this one."""
    found: set[str] = set()
    todo = [task]
    while todo:
        for need in TASKS[todo.pop()].needs:
            if need not in found:
                found.add(need)
                todo.append(need)
    return found


def test_every_need_is_a_task_and_no_task_waits_for_itself() -> None:
    for key, task in TASKS.items():
        assert [need for need in task.needs if need not in TASKS] == []
        assert key not in before(key)


def test_everything_that_foam_buries_is_done_before_the_spray() -> None:
    earlier = before("task:insulation/spray")
    for key in (
        "task:framing/fix-backing",
        "task:framing/build-boxes",
        "task:framing/buck-windows",
        "task:deck/bed-feet",
        "task:deck/hose-roof",
        "task:rough-in-wiring/test-runs",
        "task:rough-in-wiring/spare-strings",
        "task:rough-in-wiring/redline-wiring",
        "task:insulation/walk-down",
        "task:insulation/spray-patch",
    ):
        assert key in earlier, key
    hot = {key for key, task in TASKS.items() if task.hot_work}
    assert hot and hot <= earlier


def test_nobody_works_inside_before_the_foam_has_cured() -> None:
    spray = TASKS["task:insulation/spray"]
    assert spray.cure_h is not None and spray.cure_h >= 24
    later = [key for key in TASKS if "task:insulation/spray" in before(key)]
    assert all("task:insulation/air-out" in {key, *before(key)} for key in later)


def test_hours_grow_from_low_to_high_and_say_where_they_come_from() -> None:
    for key, task in TASKS.items():
        for length_m in (3.0, 7.6, 12.0):
            low, likely, high = (
                task.hours[band][0] + task.hours[band][1] * length_m
                for band in ("low", "likely", "high")
            )
            assert 0.0 < low <= likely <= high < 40.0, key
        assert task.basis and task.memory, key
