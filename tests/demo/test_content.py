"""What the demo holds: enough of everything, and all of it hanging together."""

from __future__ import annotations

import tomllib
from collections import Counter
from datetime import datetime, timedelta

import pytest

from tests.demo.copies import NOW
from tracker.act import Act
from tracker.app.demo import ITEMS, PARTS, STORY, folder
from tracker.app.session import Session
from tracker.app.views.conflicts import conflicts_view
from tracker.app.views.todo import todo_of, todo_view
from tracker.build.item import VEHICLE, Item, as_list
from tracker.build.kinds import kinds
from tracker.build.release import closed_zones, hold_standing
from tracker.build.stock import lots_of

COPPER_OHM_MM2_M = 0.017241
"""Resistivity of annealed copper at 20 C, ohm mm2 / m. Source: IEC 60028."""


def _of(session: Session, kind: str) -> list[Item]:
    return session.cover.by_kind.get(kind, [])


@pytest.mark.parametrize(
    ("kind", "count"),
    [("bay", 14), ("zone", 3), ("run", 32), ("hole", 40), ("backing", 18), ("opening", 9)],
)
def test_there_are_as_many_as_promised(demo: Session, kind: str, count: int) -> None:
    assert len(_of(demo, kind)) == count


@pytest.mark.parametrize(
    "kind",
    [
        "person",
        "part",
        "fixture",
        "box",
        "pipe",
        "gas-line",
        "chase",
        "drain",
        "anchor",
        "no-fill",
        "harness",
        "heat-maker",
        "appliance",
        "blocker",
        "phase",
        "task",
        "check",
        "holdpoint",
        "decision",
        "receipt",
        "duty",
        "weigh-slip",
        "loan",
    ],
)
def test_there_is_some_of_every_kind_that_commands_can_show(demo: Session, kind: str) -> None:
    assert _of(demo, kind)


def test_it_is_marked_as_invented_wherever_it_is_met(demo: Session) -> None:
    assert "invented" in demo.marked.name
    assert any("invented" in note.text for note in demo.build.notes)
    for file in (ITEMS, PARTS, STORY, "ABOUT.md"):
        head = (folder() / file).read_text("utf-8").splitlines()[:3]
        assert "invented" in " ".join(head), file


def test_short_names_are_used_once_in_a_kind(demo: Session) -> None:
    for kind, items in demo.cover.by_kind.items():
        again = [slug for slug, times in Counter(item.slug for item in items).items() if times > 1]
        assert again == [], kind


def test_every_reference_leads_to_an_item_of_the_right_kind(demo: Session) -> None:
    items = demo.build.items
    for item in items.values():
        kind = kinds().get(item.kind)
        for field in kind.fields.values() if kind else ():
            if field.type != "names" or item.id.startswith("task:"):
                continue
            for identifier in as_list(item.get(field.name)):
                found = items[identifier]
                assert field.kind in ("any", found.kind), (item.slug, field.name)
    for note in demo.build.notes:
        assert set(note.on) <= set(items)


def test_every_bay_lies_in_exactly_one_zone(demo: Session) -> None:
    placed = [bay for bays in demo.cover.zone_bays.values() for bay in bays]

    assert sorted(placed) == sorted(bay.id for bay in _of(demo, "bay"))


def test_everything_that_gets_buried_has_a_bay_on_its_own_face_and_lies_inside(
    demo: Session,
) -> None:
    length_m = demo.build.items[VEHICLE].fields["length_m"]
    hold = todo_of(demo, "pre-foam").hold
    buried = demo.cover.covered_items(hold, "")
    assert len(buried) > 100
    for item in buried:
        assert demo.cover.bays_of(item), item.slug
        assert 0 <= item.fields["station_m"] <= length_m, item.slug
        bays = [demo.build.items[bay] for bay in demo.cover.bays_of(item)]
        here = [
            bay
            for bay in bays
            if bay.fields["station_m"] <= item.fields["station_m"]
            and item.fields["station_m"] <= bay.get("to_m", length_m)
            and item.fields["face"] in (bay.fields["face"], "rear")
        ]
        assert here, item.slug


def test_every_hole_but_that_of_the_exhaust_carries_a_run(demo: Session) -> None:
    loose = [hole.slug for hole in _of(demo, "hole") if not hole.get("carries")]

    assert loose == ["H7"]


def test_loss_and_load_of_every_run_are_within_what_it_is_allowed(demo: Session) -> None:
    for run in _of(demo, "run"):
        load_a, protection_a = run.get("load_a"), run.get("protection_a")
        if load_a is None:
            assert run.slug == "L32"
            continue
        assert load_a <= protection_a, run.slug
        area_mm2 = float(run.fields["gauge"].removesuffix("mm2"))
        there_and_back_ohm = 2 * run.fields["length_m"] * COPPER_OHM_MM2_M / area_mm2
        loss_pct = 100 * load_a * there_and_back_ohm / run.fields["volts_v"]
        assert loss_pct <= (3.0 if run.get("critical") else 10.0), run.slug


def test_protection_never_rises_while_the_wire_gets_thinner(demo: Session) -> None:
    most: dict[float, float] = {}
    for run in _of(demo, "run"):
        if run.get("protection_a") is not None:
            area_mm2 = float(run.fields["gauge"].removesuffix("mm2"))
            most[area_mm2] = max(most.get(area_mm2, 0.0), run.fields["protection_a"])
    amperes = [most[area_mm2] for area_mm2 in sorted(most)]

    assert amperes == sorted(amperes)
    assert all(most[area_mm2] <= 4.0 * area_mm2 for area_mm2 in most)  # 4 A/mm2: our own, careful


def test_the_walk_before_foam_is_next_and_half_done(demo: Session) -> None:
    view = todo_view(demo)

    hold, points = view["hold_point"], view["points"]
    assert (hold["slug"], hold["state"], hold["days"]) == ("pre-foam", "open", 16)
    assert (points["bad"], points["waived"]) == (1, 1)
    assert points["good"] > 250
    assert points["open"] > 250
    states = [row["state"] for row in view["open"] if row["state"] != "open"]
    assert sorted(states) == ["bad", "conflict", "stale"]
    assert [row["check"] for row in view["waivers"]] == ["spare-ways"]
    assert view["waivers"][0]["second"] == "Ola"
    assert view["hours_left"] > 10


def test_a_lengthened_run_made_its_measured_lead_out_of_date(demo: Session) -> None:
    stale = [row for row in todo_view(demo)["open"] if row["state"] == "stale"]

    assert [(row["check"], row["subject"]) for row in stale] == [("lead-length", "L14")]
    assert stale[0]["because"] == "length_m was 6.5, now 7.1"


def test_three_blockers_stand_and_one_was_cleared(demo: Session) -> None:
    standing = [item for item in _of(demo, "blocker") if not item.get("cleared")]
    cleared = [item for item in _of(demo, "blocker") if item.get("cleared")]

    assert len(standing) == len({item.fields["kind"] for item in standing}) == 3
    assert [item.get("lost_h") for item in cleared] == [4.0]
    assert {row["stops_this"] for row in todo_view(demo)["blockers"]} == {True, False}


def test_some_parts_are_short_some_on_order_and_one_box_lies_at_a_helpers_home(
    demo: Session,
) -> None:
    short = todo_view(demo)["shortages"]

    assert 5 <= len(short) <= 15
    assert any(row["on_order"] for row in short)
    assert any(not row["on_order"] for row in short)
    assert any(row["stops"] for row in short)
    grommet = demo.names.find("grommet", ("part",))
    assert lots_of(demo.build, grommet)["Bram's home"].quantity == 25.0


@pytest.mark.parametrize("hold", ["rust-closed", "layout-frozen", "roof-tight"])
def test_the_hold_points_behind_were_released_by_two_and_closed(demo: Session, hold: str) -> None:
    found = demo.names.find(hold, ("holdpoint",))
    events = demo.build.holds[found.id, ""]

    assert [event.kind for event in events] == ["released", "closed"]
    assert (events[0].by, events[0].fact["second"]) == ("Runa", "Ola")
    assert "why" not in events[1].fact  # the release held when it was closed
    assert closed_zones(demo.build, found) == {""}
    assert todo_of(demo, hold).counts["open"] == 0


def test_the_first_phases_are_done_with_hours_and_those_before_foam_are_half_done(
    demo: Session,
) -> None:
    done: dict[str, list[float]] = {}
    for task in demo.cover.by_kind["task"]:
        progress = demo.build.work.get(task.id)
        phase = task.fields["phase"].removeprefix("phase:")
        done.setdefault(phase, []).append(progress.fraction if progress else 0.0)
        assert progress is None or progress.hours > 0

    share = {phase: sum(values) / len(values) for phase, values in done.items()}
    assert len(share) == 13
    assert [share[phase] for phase in ("strip-out", "shell", "subfloor", "deck")] == [1.0] * 4
    assert share["framing"] > 0.85
    assert 0.4 < share["rough-in-wiring"] < 0.75
    assert 0.4 < share["rough-in-plumbing-gas"] < 0.75
    assert {phase for phase, value in share.items() if value == 0.0} == {
        "insulation",
        "panelling",
        "cabinetry",
        "finish-electrical",
        "finish-plumbing-gas",
        "commissioning",
    }


def test_the_log_speaks_of_four_months_in_several_voices(demo: Session) -> None:
    days = {act.happened[:10] for act in demo.build.acts}
    first = datetime.fromisoformat(min(days))

    assert (NOW.replace(tzinfo=None) - first).days > 115
    assert len(days) >= 45
    assert {act.by for act in demo.build.acts} == {"Runa", "Ola", "Bram"}
    assert len(demo.build.notes) >= 40
    assert demo.build.conditions and demo.build.days and demo.build.dead and demo.build.inbox


def test_one_zone_is_released_by_two_and_holds_until_tomorrow_noon(demo: Session) -> None:
    hold = demo.names.find("pre-foam", ("holdpoint",))
    zone = demo.names.find("bulkhead", ("zone",))
    (event,) = demo.build.holds[hold.id, zone.id]

    assert (event.kind, event.by, event.fact["second"]) == ("released", "Runa", "Ola")
    for hours, state in ((0, "released"), (28, "released"), (29, "lapsed")):
        stand = hold_standing(demo.cover, hold, zone.id, NOW + timedelta(hours=hours))
        assert stand.state == state
    states = {row["zone"]: row["state"] for row in todo_view(demo)["zones"]}
    assert states.pop("bulkhead") == "released"
    assert set(states.values()) == {"open"}


def test_two_people_disagree_about_one_box_and_about_nothing_else(demo: Session) -> None:
    (conflict,) = conflicts_view(demo)

    assert (conflict["check"], conflict["subject"]) == ("box-fits", "X7")
    assert [row["by"] for row in conflict["values"]] == ["Runa", "Bram"]
    overhead = todo_of(demo, "pre-foam", "overhead")
    assert [p.subject.slug for p in overhead.open_points if p.state == "conflict"] == ["X7"]


def test_every_part_has_cost_and_mass_and_nearly_all_have_a_place(demo: Session) -> None:
    parts = _of(demo, "part")

    assert 65 <= len(parts) <= 80
    for part in parts:
        assert part.get("unit_cost", 0.0) > 0 and part.get("mass_kg", 0.0) > 0, part.slug
        assert part.get("supplier") and part.get("needed"), part.slug
    placed = [part for part in parts if lots_of(demo.build, part)]
    assert len(placed) > 0.85 * len(parts)


def test_the_weigh_slip_adds_up_by_axle_and_by_side(demo: Session) -> None:
    (slip,) = _of(demo, "weigh-slip")

    assert slip.fields["state"] == "stripped"
    assert slip.fields["front_kg"] + slip.fields["rear_kg"] == slip.fields["total_kg"]
    assert slip.fields["left_kg"] + slip.fields["right_kg"] == slip.fields["total_kg"]


def test_some_decisions_wait_with_a_last_day_and_one_was_made(demo: Session) -> None:
    decisions = _of(demo, "decision")
    waiting = [item for item in decisions if not item.get("decided")]

    assert len(waiting) == len(decisions) - 1 == 2
    assert all(item.fields["last_day"] > NOW.date().isoformat() for item in waiting)
    assert [row["name"] for row in todo_view(demo)["decisions"]] == ["washroom-fan"]


def test_duties_stand_in_an_order_that_was_kept_so_far(demo: Session) -> None:
    duties = {item.id: item for item in _of(demo, "duty")}

    assert sorted(item.fields["order"] for item in duties.values()) == [1, 2, 3, 4]
    for item in duties.values():
        for before in map(duties.__getitem__, as_list(item.get("after"))):
            assert before.fields["order"] < item.fields["order"]
            assert before.get("done_on") or not item.get("done_on")


def test_nobody_says_that_a_thing_is_done_before_it_is(demo: Session) -> None:
    past = ("done_on", "decided", "returned", "paid", "weighed", "lent_on", "cleared")
    stated = [
        (act.happened[:10], name, value)
        for act in demo.build.acts
        for fact in act.facts
        for name, value in {**fact.get("fields", {}), **fact.get("set", {})}.items()
        if name in past and value
    ]

    assert len(stated) > 15
    assert [row for row in stated if row[2] > row[0]] == []


def test_some_lent_tools_came_back_and_some_are_still_here(demo: Session) -> None:
    back = [bool(loan.get("returned")) for loan in _of(demo, "loan")]

    assert set(back) == {True, False}


def test_the_plan_states_no_name_and_no_field_that_an_import_would_not_take() -> None:
    for file in (ITEMS, PARTS):
        tables = tomllib.loads((folder() / file).read_text("utf-8"))

        assert set(tables) <= set(kinds())
        assert all("name" in row for rows in tables.values() for row in rows)


def test_everything_known_is_written_by_somebody_who_works_on_it(demo: Session) -> None:
    people = {person.slug for person in _of(demo, "person")}
    seconds = {fact["second"] for act in demo.build.acts for fact in act.facts if "second" in fact}

    assert seconds <= people
    assert {act.by for act in _acts(demo)} <= people


def _acts(session: Session) -> tuple[Act, ...]:
    assert session.now() == NOW
    return session.build.acts
