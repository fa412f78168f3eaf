"""Reasons in a builder's words."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from tracker.build.names import Names, clean
from tracker.build.state import Build
from tracker.plan.allocation import Lack
from tracker.plan.readiness import Reason, Stand

ONLY_IF = {
    "dry": "it stays dry",
    "cold": "it is warm enough",
    "skill": "somebody who may do it is there",
}


class Saying:
    """Says reasons of one state of a build.

    Parameters
    ----------
    today: the day it is (ISO), against which what should have come is late.
    """

    def __init__(self, build: Build, names: Names, today: str = "") -> None:
        self.build, self.names, self.today = build, names, today

    def stand(self, stand: Stand) -> str:
        """How a task stands, in one sentence."""
        name = self.name(stand.task.id)
        if stand.ready:
            only = [ONLY_IF[each] for each in stand.only_if]
            return f"{name} can begin" + (f", if {' and '.join(only)}" if only else "") + "."
        waits = [self.name(r.what) for r in stand.reasons if r.kind == "task"]
        told = [self.reason(r) for r in stand.reasons if r.kind != "task"]
        if waits:
            told.append(f"{listed(waits)} {'comes' if len(waits) == 1 else 'come'} first")
        sentence = f"{name} can't be done: {'; '.join(told)}."
        if stand.partly:
            sentence = (
                f"{name} can be done in part: {self.part(stand)}. Not all: {'; '.join(told)}."
            )
        return sentence

    def part(self, stand: Stand) -> str:
        """Which part of a task can be done today."""
        if stand.subjects:
            return listed([self.name(each) for each in stand.subjects])
        return f"about {stand.part * 100:.0f} in 100 of it"

    def reason(self, reason: Reason) -> str:
        """One reason, without a full stop."""
        what = self.name(reason.what)
        people = "person" if reason.amount == 1 else "people"
        said = {
            "closed": f"{what} was closed in already",
            "hold": f"{what} holds it until it is released",
            "cure": f"{what} cures until {_moment(reason.until)}",
            "people": f"it takes {reason.amount or 0:g} {people}",
            "skill": f"nobody here may do {what}",
            "tool": f"no {what} here",
            "power": "it needs power",
            "dry": "it needs dry weather",
            "cold": f"it needs at least {reason.amount or 0:g} C",
            "dark": "it needs daylight",
            "task": f"{what} comes first",
        }
        if reason.kind == "blocked":
            return self._blocked(reason)
        if reason.kind == "part":
            return self.lack(reason.lack) if reason.lack else f"there is no {what}"
        return said[reason.kind]

    def _blocked(self, reason: Reason) -> str:
        item = self.build.items[reason.what]
        told = f"{self.name(item.id)} ({clean(item.title)})"
        if reason.who:
            told += f", next step: {clean(reason.who)}"
        return told + (f", expected {reason.until}" if reason.until else "")

    def lack(self, lack: Lack) -> str:
        """What is missing of a part, and where the rest is."""
        unit = "" if lack.unit == "each" else f" {lack.unit}"
        if lack.longest and lack.have >= lack.need:
            told = f"{lack.have:.3g}{unit} of {lack.name} here{_in_lengths(lack)}"
        else:
            need = ceil(lack.need - 1e-9) if lack.unit == "each" else lack.need
            told = f"{lack.have:.3g} of {need:.3g}{unit} of {lack.name} here"
        told += "".join(f", {some:.3g}{unit} at {clean(place)}" for place, some in lack.elsewhere)
        if lack.on_order:
            told += f", {lack.on_order:.3g}{unit} on order"
            if lack.due:
                told += (
                    f" and late, due {lack.due}" if lack.due < self.today else f" for {lack.due}"
                )
        if lack.robbed_by:
            told += f", {listed([self.name(each) for each in lack.robbed_by])} takes it first"
        return told

    def name(self, identifier: str) -> str:
        """What an item is called, or the words themselves."""
        return clean(self.names.name(identifier))


def _in_lengths(lack: Lack) -> str:
    """Why what is there is too little though it is enough in all."""
    many = "one length" if len(lack.remnants) == 1 else f"{len(lack.remnants)} remnants"
    if max(lack.remnants, default=0.0) < lack.longest:
        return f" in {many}, but none reaches {lack.longest:.3g} {lack.unit}"
    return f" in {many}, from which not all the pieces can be cut"


def listed(words: Sequence[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _moment(moment: str | None) -> str:
    return (moment or "nobody knows when")[:16].replace("T", " ")
