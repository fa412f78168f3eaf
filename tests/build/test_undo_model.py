"""Fields and answers under undo and redo by two writers, against a plain dict."""

from __future__ import annotations

from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from tests.build.making import Yard, check, ground, run
from tracker.act import Act
from tracker.build import item, undo
from tracker.build.fold import fold

WRITERS = ("aaaaaaaa", "bbbbbbbb")
writers = st.sampled_from(WRITERS)
runs = st.sampled_from(["L1", "L2"])
fields = st.sampled_from(["to", "load_a"])


class Deed:
    """One thing done: what it sets, what counted then and so is replaced, whether it counts."""

    def __init__(
        self, writer: str, act: Act, key: tuple[str, str], value: Any, replaced: list[Deed]
    ) -> None:
        self.writer, self.act, self.key, self.value = writer, act, key, value
        self.replaced, self.live = replaced, True


class UndoAndRedo(RuleBasedStateMachine):
    """The model: deeds in order, the undone ones passed over, and what each writer may redo."""

    def __init__(self) -> None:
        super().__init__()
        self.yard = Yard(*ground(), run("L1"), run("L2"), check("label"))
        self.deeds: list[Deed] = []
        self.undone: dict[str, list[Deed]] = {writer: [] for writer in WRITERS}

    def _did(self, writer: str, act: Act, key: tuple[str, str], value: Any) -> None:
        self.deeds.append(Deed(writer, act, key, value, self._counting(key)))
        self.undone[writer].clear()

    def _counting(self, key: tuple[str, str]) -> list[Deed]:
        return [deed for deed in self.deeds if deed.live and deed.key == key]

    def _standing(self, slug: str, name: str) -> list[Deed]:
        """The deeds that count and that no other that counts replaced; several are a conflict."""
        counting = self._counting((slug, name))
        return [deed for deed in counting if not any(deed in each.replaced for each in counting)]

    @rule(writer=writers, slug=runs, name=fields, value=st.integers(1, 3))
    def set_a_field(self, writer: str, slug: str, name: str, value: int) -> None:
        fact = item.change(self.yard.item(slug), {name: value})
        self._did(writer, self.yard.do(fact, writer=writer), (slug, name), value)

    @rule(writer=writers, slug=runs)
    def forget_a_field(self, writer: str, slug: str) -> None:
        fact = item.change(self.yard.item(slug), {"to": None})
        self._did(writer, self.yard.do(fact, writer=writer), (slug, "to"), None)

    @rule(writer=writers, slug=runs, result=st.sampled_from(["good", "bad", "reopened"]))
    def answer_a_check(self, writer: str, slug: str, result: str) -> None:
        why = {"why": "look again"} if result == "reopened" else {}
        facts = self.yard.marked("label", slug, result, **why)
        self._did(writer, self.yard.do(*facts, writer=writer), (slug, "label"), result)

    @precondition(lambda self: any(deed.live for deed in self.deeds))
    @rule(writer=writers)
    def undo_the_newest(self, writer: str) -> None:
        mine = [deed for deed in self.deeds if deed.live and deed.writer == writer]
        if mine:
            self.yard.do(*undo.undo(self.yard.build, writer), writer=writer)
            mine[-1].live = False
            self.undone[writer].append(mine[-1])

    @rule(writer=writers)
    def redo_the_last_undone(self, writer: str) -> None:
        if self.undone[writer]:
            self.yard.do(*undo.redo(self.yard.build, writer), writer=writer)
            self.undone[writer].pop().live = True

    @precondition(lambda self: any(deed.live for deed in self.deeds))
    @rule(data=st.data())
    def undo_one_by_name_and_bring_it_back_by_name(self, data: st.DataObject) -> None:
        deed = data.draw(st.sampled_from([deed for deed in self.deeds if deed.live]))
        self.yard.do(*undo.undo(self.yard.build, "cccccccc", deed.act.id), writer="cccccccc")
        deed.live = False
        self._agrees()
        self.yard.do(*undo.redo(self.yard.build, "cccccccc", deed.act.id), writer="cccccccc")
        deed.live = True

    @invariant()
    def _agrees(self) -> None:
        for slug in ("L1", "L2"):
            subject = self.yard.item(slug)
            for name in ("to", "load_a"):
                standing = self._standing(slug, name)
                values = [deed.value for deed in standing]
                assert subject.fields.get(name) == (values[-1] if values else None)
                assert list(subject.rivals.get(name, {}).values()) == values * (len(values) > 1)
            heads = self.yard.build.answers.get(("check:label", subject.id), ())
            assert [head.result for head in heads] == [
                deed.value for deed in self._standing(slug, "label")
            ]

    @invariant()
    def every_step_comes_to_what_all_acts_come_to(self) -> None:
        assert fold(self.yard.build.acts) == self.yard.build


TestUndoAndRedo = UndoAndRedo.TestCase
TestUndoAndRedo.settings = settings(max_examples=60, stateful_step_count=25, deadline=None)
