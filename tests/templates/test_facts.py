"""The fact that adopts a template."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tracker.templates.facts import facts_of
from tracker.templates.load import load, read, shipped
from tracker.templates.shipped import path_of


@pytest.mark.parametrize("name", shipped())
def test_a_template_is_one_fact_of_plain_values_that_json_gives_back(name: str) -> None:
    fact = facts_of(read(name))
    assert json.loads(json.dumps(fact)) == fact
    assert fact["f"] == "phase.adopted"
    assert fact["phase"]["id"] == f"phase:{name}"
    assert len(fact["hash"]) == 64


@pytest.mark.parametrize("name", shipped())
def test_ids_are_made_of_template_and_key(name: str) -> None:
    phase = read(name)
    items = facts_of(phase)["items"]
    prefix = {"holdpoint": "hold", "task": "task", "check": "check"}
    for item in items:
        assert item["id"] == f"{prefix[item['kind']]}:{name}/{item['slug']}"
        assert item["fields"]["phase"] == f"phase:{name}"
        assert "key" not in item["fields"]
    assert len(items) == len(phase.holdpoints) + len(phase.tasks) + len(phase.checks)
    assert len({item["id"] for item in items}) == len(items)


def test_what_a_check_says_is_in_its_fields() -> None:
    items = {item["slug"]: item["fields"] for item in facts_of(read("insulation"))["items"]}
    resistance = items["insulation-resistance"]
    assert resistance["limit"] == {"min": 20.0, "sign_min": 1.0, "unit": "Mohm"}
    assert resistance["before"] == "hold:insulation/pre-foam"
    assert resistance["class"] == "hold"
    assert resistance["memory"] is True
    assert "waive" not in resistance and "standard" not in resistance
    assert items["no-fill-shut"]["waive"] is False
    assert items["spray"]["hours"]["low"][0] > 0.0
    assert items["mask"]["needs"] == ["task:insulation/clean-shell", "task:deck/hose-roof"]
    assert items["pre-foam"]["closed_by"] == "task:insulation/spray"
    assert items["pre-foam"]["gates"] == "phase:insulation"


def test_adopting_the_same_text_twice_gives_the_same_fact(tmp_path: Path) -> None:
    copy = tmp_path / "deck.toml"
    copy.write_bytes(path_of("deck").read_bytes())
    assert facts_of(load(copy)) == facts_of(read("deck"))
    copy.write_text(copy.read_text() + "# a remark\n")
    assert facts_of(load(copy))["hash"] != facts_of(read("deck"))["hash"]
