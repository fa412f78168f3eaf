"""What the shipped templates must say, taken together."""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations

import pytest

from tracker.build.item import Item
from tracker.build.limit import judge, limit_of
from tracker.templates import shape
from tracker.templates.load import read, shipped
from tracker.templates.phase import Check

PHASES = [read(name) for name in shipped()]
CHECKS: list[Check] = [check for phase in PHASES for check in phase.checks]
HOLDS = {f"hold:{phase.name}/{hold.key}": hold for phase in PHASES for hold in phase.holdpoints}
TRIED = ("measure", "continuity", "insulation", "water", "air", "function")
PRE_FOAM = [check for check in read("insulation").checks if check.before.endswith("/pre-foam")]

ROWS = {
    "strip-out": ("P01", 10),
    "shell": ("P02", 12),
    "subfloor": ("P03", 10),
    "framing": ("P04", 11),
    "deck": ("P05", 12),
    "rough-in-wiring": ("P06", 15),
    "rough-in-plumbing-gas": ("P07", 13),
    "insulation": ("P08", 13),
    "panelling": ("P09", 9),
    "cabinetry": ("P10", 9),
    "finish-electrical": ("P11", 13),
    "finish-plumbing-gas": ("P12", 10),
    "commissioning": ("P13", 11),
}
"""The rows of the trade notes that each phase has: how they begin, and how many there are."""


def one(key: str) -> Check:
    (found,) = (check for check in CHECKS if check.key == key)
    return found


def twice(values: list) -> list:
    return [value for value, count in Counter(values).items() if count > 1]


def test_every_row_of_the_pre_foam_walk_is_carried_by_the_insulation_template_alone() -> None:
    named = {row for check in PRE_FOAM for row in check.trade}
    assert [row for row in (f"2.{n}" for n in range(1, 46)) if row not in named] == []


def test_the_rows_are_known_for_every_phase_of_the_trade() -> None:
    assert tuple(ROWS) == shape.PHASES
    assert set(shipped()) <= set(ROWS)


@pytest.mark.parametrize("name", shipped())
def test_every_row_of_a_phase_is_carried(name: str) -> None:
    named = {row for check in CHECKS for row in check.trade}
    prefix, last = ROWS[name]
    assert [row for n in range(1, last + 1) if (row := f"{prefix}-{n}") not in named] == []


def test_rows_are_named_in_one_form_and_exist() -> None:
    known = {f"{prefix}-{n}" for prefix, last in ROWS.values() for n in range(1, last + 1)}
    known |= {f"2.{n}" for n in range(1, 46)}
    assert [(c.key, row) for c in CHECKS for row in c.trade if row not in known] == []


def test_no_name_is_used_twice_over_all_templates() -> None:
    names = [phase.name for phase in PHASES] + [hold.key for hold in HOLDS.values()]
    names += [task.key for phase in PHASES for task in phase.tasks] + [
        check.key for check in CHECKS
    ]
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
    shown = [check for check in hold if check.limit or check.how in TRIED]
    print(f"{len(shown)} of {len(hold)} hold checks are measures or tests")
    assert len(shown) > 0.4 * len(hold)


def test_standards_are_named_as_others_summarise_them() -> None:
    named = [check for check in CHECKS if check.basis == "standard"]
    assert len(named) > 20
    ending = ", as summarised by others; check the edition in force"
    assert [check.key for check in named if not (check.standard or "").endswith(ending)] == []


NEVER_WAIVED = {
    "gas tightness": {
        "gas-stub-test",
        "gas-low-test",
        "gas-no-joint",
        "gas-after",
        "gas-shut-apart",
        "gas-gauge",
        "gas-hours",
        "gas-depth",
        "service-gauge",
        "service-hours",
        "appliances-tight",
        "regulator-drop",
        "joints-soaped",
        "gas-after-road",
    },
    "exits": {
        "exits-planned",
        "exit-path",
        "exit-opens",
        "exit-short-side",
        "exit-long-side",
        "exit-free",
        "roof-exit-opens",
        "ways-out-while-stripping",
        "exit-after-bedding",
        "floor-way-out",
        "furnished-path",
        "furnished-exit-short",
        "furnished-exit-long",
        "exit-drilled",
    },
    "belt and airbag cavities": {"no-fill-shut", "airbags-mapped", "no-fill-free"},
    "people and animals": {"people-out", "sprayers-protected", "fresh-air", "reentry-kept"},
    "hot work": {"hot-work-finished", "shell-sparks-listed"},
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
    assert one("exit-path").limit["min"] >= 13 * inch
    assert one("ac-apart").limit["min"] >= 0.5 * inch
    assert one("source-length").limit["min"] * 1000 >= 24 * inch
    assert one("solar-tail").limit["min"] * 1000 >= 36 * inch
    assert one("height-measured").limit["max"] * 1000 <= 159 * inch
    assert one("width-measured").limit["max"] * 1000 <= 102 * inch
    assert one("gas-gauge-fine").limit["max"] <= 0.1 * psi
    assert one("gas-depth").limit["min"] >= 1.5 * inch
    assert one("pipe-clipped").limit["max"] <= 32 * inch
    assert one("board-thickness").limit["max"] <= inch / 16
    assert one("joint-step").limit["max"] <= inch / 16
    assert one("floor-way-out").limit["min"] >= 13 * inch
    assert one("coat-margin").limit["min"] >= 5 / 1.8
    assert one("coat-humidity").limit["max"] < 85
    assert one("below-trim-line").limit["min"] >= 0.75 * inch
    assert one("pipe-on-warm-side").limit["min"] >= inch
    assert one("dew-point-margin").limit["min"] >= 5 / 1.8


@pytest.mark.parametrize(
    ("key", "field"),
    [
        ("gas-gauge", "gas_pressure_pa"),
        ("gas-hours", "gas_hold_h"),
        ("gas-stub-test", "gas_loss_pa"),
        ("gas-low-test", "gas_low_loss_pa"),
        ("gas-after", "gas_loss_pa"),
        ("water-gauge", "water_pressure_pa"),
        ("water-hours", "water_hold_h"),
        ("waste-fall", "drain_fall_pct"),
        ("surface-temperature", "foam_surface_c"),
        ("night-forecast", "foam_surface_c"),
        ("kit-warm", "can_low_c"),
        ("kit-warm", "can_high_c"),
        ("lifts-thin", "lift_mm"),
        ("reentry-kept", "reentry_h"),
        ("sealant-cured", "sealant_cure_h"),
        ("coat-cured", "coat_cure_h"),
        ("service-gauge", "gas_service_pressure_pa"),
        ("service-gauge", "gas_service_high_pa"),
        ("service-hours", "gas_service_hold_h"),
        ("appliances-tight", "gas_service_loss_pa"),
        ("gas-after-road", "gas_service_loss_pa"),
        ("burners-fed", "gas_running_low_pa"),
        ("burners-fed", "gas_running_high_pa"),
        ("gas-sized", "gas_pipe_drop_pa"),
        ("pipe-drop-lit", "gas_pipe_drop_pa"),
        ("main-fuse-near", "fuse_reach_mm"),
        ("packs-equal", "battery_match_v"),
        ("battery-vents", "battery_vent_m2"),
        ("exit-short-side", "exit_short_mm"),
        ("exit-long-side", "exit_long_mm"),
        ("furnished-exit-short", "exit_short_mm"),
        ("furnished-exit-long", "exit_long_mm"),
    ],
)
def test_what_depends_on_rules_or_products_is_never_a_number_in_a_template(
    key: str, field: str
) -> None:
    limit = one(key).limit
    assert limit is not None
    assert field in limit.values() and not {"min", "max"} & set(limit)
    sources = shape.fields_of("once")[field].sources
    assert len(sources) > 1, "sources that agree need no profile"


@pytest.mark.parametrize(
    ("field", "least", "most"),
    [
        ("exit_short_mm", 13 * 25.4, None),
        ("exit_long_mm", 17.75 * 25.4, None),
        ("gas_service_loss_pa", 0.0, 1000.0),
        ("fuse_reach_mm", 0.0, 72 * 25.4 + 0.5),
    ],
)
def test_nobody_can_state_a_profile_laxer_than_the_laxest_source_read(
    field: str, least: float, most: float | None
) -> None:
    stated = shape.fields_of("once")[field]
    assert stated.low is not None and stated.low >= least
    assert most is None or (stated.high is not None and stated.high <= most)


def test_a_check_never_waived_can_not_pass_while_its_profile_is_unstated() -> None:
    bare = Item("vehicle", "vehicle", "vehicle", {"gas": True}, "")
    resting = [
        check
        for check in CHECKS
        if not check.waive and any(end.endswith("_profile") for end in check.limit or {})
    ]
    assert len(resting) > 10
    for check in resting:
        asked = Item(check.key, "check", check.key, {"limit": check.limit}, "")
        limit = limit_of(asked, bare, bare)
        assert limit is not None and limit.missing, check.key
        assert {judge(limit, value, "Ola", "why") for value in (0.0, 1.0, 1e9)} == {"unknown"}


def test_the_weather_checks_agree_with_what_voids_them() -> None:
    hold = HOLDS["hold:insulation/pre-foam"]
    assert hold.dry and hold.valid_h == 48.0
    assert one("surface-temperature").limit == {"min_profile": "foam_surface_c", "unit": "C"}
    assert one("dew-point-margin").limit["min"] == hold.min_margin_k
    weather = {check.key for check in CHECKS if check.lapse == "weather"}
    assert weather >= {"surface-dry", "surface-temperature", "dew-point-margin", "wood-dry"}
    assert {c.before for c in CHECKS if c.lapse} == {"hold:insulation/pre-foam"}
