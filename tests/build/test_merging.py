"""What several writers did apart comes together to one state."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.build.making import act, added, check, ground, run
from tracker.act import Act
from tracker.build import item
from tracker.build.fold import EMPTY, fold
from tracker.build.state import Build

WRITERS = ("aaaaaaaa", "bbbbbbbb", "cccccccc")


@st.composite
def histories(draw: st.DrawFn) -> list[Act]:
    """What three writers with drifting clocks do, each seeing the others' acts now and then."""
    base = act(1, *ground(), run("L1"), run("L2"), check("label"))
    seen: dict[str, dict[str, Act]] = {writer: {base.id: base} for writer in WRITERS}
    drift = {writer: draw(st.integers(-50, 50)) for writer in WRITERS}
    for moment in range(2, draw(st.integers(3, 14))):
        writer = draw(st.sampled_from(WRITERS))
        if draw(st.booleans()):
            seen[writer] |= seen[draw(st.sampled_from(WRITERS))]
        newest = max(int(each.id[:12], 16) for each in seen[writer].values())
        stamp = max(newest + 1, int(base.id[:12], 16) + 60 * moment + drift[writer])
        done = Act(
            f"{stamp:012x}-{writer}-{moment}",
            base.at,
            writer,
            tuple(draw(deeds(fold(seen[writer].values())))),
        )
        seen[writer][done.id] = done
    return list((seen[WRITERS[0]] | seen[WRITERS[1]] | seen[WRITERS[2]]).values())


@st.composite
def deeds(draw: st.DrawFn, build: Build) -> list[dict[str, Any]]:
    """Something that follows from what its writer knows."""
    which = draw(st.sampled_from(["set", "set", "answer", "answer", "undo", "undo", "add"]))
    subject = build.items[draw(st.sampled_from(["run:L1", "run:L1", "run:L1", "run:L2"]))]
    if which == "set":
        return [dict(item.change(subject, {"to": draw(st.sampled_from(["lamp", "fan"]))}))]
    if which == "answer":
        over = [head.ref for head in build.answers.get(("check:label", subject.id), ())]
        answer = {"f": "point.answered", "check": "check:label", "subject": subject.id}
        return [{**answer, "result": draw(st.sampled_from(["good", "bad"])), "over": over}]
    if which == "undo":
        targets = build.acts[1:][-3:]
        return [{"f": "undo", "acts": [draw(st.sampled_from(targets)).id] if targets else []}]
    return [dict(added("hole", "H1"))]


@given(histories(), st.randoms(use_true_random=False))
@settings(max_examples=150)
def test_what_three_writers_with_drifting_clocks_did_comes_to_one_state_however_it_arrives(
    acts: list[Act], random: Any
) -> None:
    whole = fold(acts)
    arriving = acts[::-1] + random.sample(acts, len(acts) // 2)
    random.shuffle(arriving)
    build = EMPTY
    while arriving:
        size = random.randint(1, 4)
        build, arriving = fold(arriving[:size], build), arriving[size:]

    assert build == whole
    assert fold(acts[::-1] + acts) == whole
    assert sorted(each.id for each in build.acts) == sorted(each.id for each in acts)


@given(histories())
@settings(max_examples=150)
def test_what_stands_is_what_no_living_fact_replaces_seen_through_those_undone(
    acts: list[Act],
) -> None:
    build = fold(acts)

    for subject in ("run:L1", "run:L2"):
        sets = {
            each.ref(0): each.facts[0].get("over", {}).get("to", [])
            for each in acts
            if each.facts[0]["f"] == "item.set" and each.facts[0]["id"] == subject
        }
        answers = {
            each.ref(0): each.facts[0]["over"]
            for each in acts
            if each.facts[0]["f"] == "point.answered" and each.facts[0]["subject"] == subject
        }
        heads = build.items[subject].heads.get("to", ())
        points = build.answers.get(("check:label", subject), ())

        assert set(heads) == _standing(sets, build.dead)
        assert set(build.items[subject].rivals.get("to", ())) == (
            set(heads) if len(heads) > 1 else set()
        )
        assert {head.ref for head in points} == _standing(answers, build.dead)


def _standing(over: dict[str, list[str]], dead: frozenset[str]) -> set[str]:
    """The facts that stand, worked out the slow way from what each names as replaced."""
    living = {ref for ref in over if ref.rpartition("/")[0] not in dead}

    def reached(ref: str) -> set[str]:
        return {
            each for older in over[ref] for each in ({older} if older in living else reached(older))
        }

    return living - {older for ref in living for older in reached(ref)}
