from __future__ import annotations

import re
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tests.app.views.words.scene import SCENE, act, answer, told
from tracker.act import act_id
from tracker.app.views.words.acts import SAYINGS, Words
from tracker.build.fold import APPLIERS, fold
from tracker.build.names import Names
from tracker.build.state import Build


def test_every_kind_of_fact_is_told() -> None:
    assert set(SAYINGS) == set(APPLIERS)


def test_answers_that_are_alike_share_a_line() -> None:
    facts = [answer(f"run{number}", "good") for number in (1, 2, 3, 5)]

    assert told(*facts, answer("run4", "bad")) == ["label on L1-L3 L5: good", "label on L4: bad"]


def test_a_phase_is_told_by_what_is_in_it() -> None:
    rows = [
        {"id": "t", "kind": "task", "slug": "a", "fields": {}},
        {"id": "c", "kind": "check", "slug": "b", "fields": {}},
        {"id": "d", "kind": "check", "slug": "e", "fields": {}},
    ]
    fact = {"f": "phase.adopted", "phase": {"id": "p", "slug": "deck", "fields": {}}, "items": rows}

    assert told(fact) == ["adopted the phase deck: 1 task, 2 checks, 0 hold points"]


def test_undoing_and_bringing_back_tell_what_was_undone() -> None:
    done = act(2, answer("run1", "good"))
    undone = act(3, {"f": "undo", "acts": [done.id]})
    back = act(4, {"f": "undo", "acts": [undone.id]})
    build = fold([SCENE, done, undone, back])
    words = Words(build, Names(build))

    assert words.act(undone) == ["undid aaaa-2: label on L1: good"]
    assert words.act(back) == ["brought back aaaa-2: label on L1: good"]


def test_an_act_that_says_it_undoes_itself_or_a_stranger_is_told() -> None:
    itself = act_id(1002, "aaaabbbb", 2)

    assert told({"f": "undo", "acts": [itself, "nobody"]}) == [
        "undid an act that is not here",
        "undid an act that is not here",
    ]


def test_a_removed_item_keeps_its_name() -> None:
    removed = {"f": "item.removed", "id": "run1", "why": "cut"}

    assert told(answer("run1", "good"), removed) == ["label on L1: good", "removed L1: cut"]


JUNK: st.SearchStrategy[Any] = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=9),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=6,
)
KEYS = st.sampled_from(
    re.findall(
        r"\S+",
        """id kind slug fields set why phase items check subject result by second value unit saw
        hold zone basis covered task fraction hours next part place count lengths level quantity due
        supplier for surface_c rain people from_h to_h text on line into key acts""",
    )
)


@given(st.sampled_from(sorted(APPLIERS)), st.dictionaries(KEYS, JUNK, max_size=6))
def test_no_fact_however_broken_breaks_the_log(kind: str, junk: dict[str, Any]) -> None:
    said = act(2, {**junk, "f": kind})
    build = Build(acts=(SCENE, said))

    lines = Words(build, Names(build)).act(said)

    assert lines and all(isinstance(line, str) and "\n" not in line for line in lines)
