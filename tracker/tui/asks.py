"""What has to be asked before something can be done: plain values, made from the row in hand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tracker.tui.actions import BLOCKERS, CHECKS, INBOX, PARTS, TODAY

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Question:
    """One question: its name, what people read, what is filled in already, an example."""

    name: str
    label: str
    filled: str = ""
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Asking:
    """What is asked before ``action`` is done to ``row``.

    Parameters
    ----------
    about: names the row among those of its action, so that a half-typed answer finds it again.
    title: what is about to be done.
    warning: a rule that speaks against it, or ''.
    blind: is the row hidden meanwhile, so that somebody can read without knowing what it says?
    """

    action: str
    row: Row
    about: str
    title: str
    questions: tuple[Question, ...]
    warning: str = ""
    blind: bool = False


REASON = Question("why", "reason")


def asking(action: str, view: str, row: Row, today: str, second: str, hold: str) -> Asking | None:
    """What must be asked, or None where nothing has to be.

    Parameters
    ----------
    row: the row in hand, {} where there is none.
    today: ISO date. second: the second person named last, or ''. hold: the hold point shown.
    """
    if action in ("good", "measure", "waive", "not_applicable", "take_back"):
        return _about_check(action, row, second)
    if action == "count":
        return _count(row)
    if action == "stuck":
        return _stuck(view, row, hold)
    if action == "unstuck":
        questions = (
            Question("on", "since which day", today, "2027-03-02"),
            Question("lost_h", "hours it cost, if known", "", "2.5"),
        )
        return Asking(action, row, row["slug"], f"{row['text']}: out of the way", questions)
    if action == "note":
        named = row.get("subject") or row.get("part") or row.get("task") or ""
        subject = str(named) if view not in (BLOCKERS, INBOX) else ""
        on = "" if subject == "vehicle" else subject
        questions = (Question("text", "note"), Question("on", "about (a name, or empty)", on))
        return Asking(action, row, on, "note", questions)
    if action == "sort":
        line = Question("line", "say it so", row["text"], "12 label ok, or any words for a note")
        because = "It can't be placed as it stands: " + (row.get("problem") or "say it otherwise")
        return Asking(action, row, row["ref"], f"where it belongs: {row['text']}", (line,), because)
    if action == "adopt":
        hint = "framing deck rough-in-wiring insulation"
        return Asking(action, row, "", "take up phases", (Question("names", "names", "", hint),))
    return None


def _about_check(action: str, row: Row, second: str) -> Asking | None:
    name = f"{row['check']} on {row['subject']}"
    # Never filled in: a cold thumb on Enter would sign with the name of somebody who is not there.
    last = f"a name; last time {second}" if second else "a name"
    person = Question("second", "second person", "", last)
    if action == "measure" or (action == "good" and row.get("measured")):
        unit, limit = row.get("unit") or "", row.get("limit")
        value = Question("value", "measured", "", EXAMPLES.get(unit, f"a number in {unit}"))
        band = (person, REASON) if row.get("band") else ()
        return Asking(
            "measure", row, name, f"{name}: {limit or 'it asks for no number'}", (value, *band)
        )
    if action == "good":
        if row.get("how") != "second person":
            return None
        if row.get("label_read"):
            return _reading(row, name, person)
        return Asking(action, row, name, f"{name} is good, read by a second person", (person,))
    if action == "take_back":
        return Asking(action, row, name, f"take back the answer of {name}", (REASON,))
    if action == "not_applicable":
        return Asking(action, row, name, f"{name} does not apply", (REASON,))
    missed = f"If missed: {row.get('missed')}" if row.get("missed") else ""
    warning = missed if row.get("may_be_waived") else f"This can never be waived. {missed}"
    two = (REASON, person) if row.get("class") == "hold" else (REASON,)
    return Asking("waive", row, name, f"waive {name}", two, warning)


def _reading(row: Row, name: str, person: Question) -> Asking:
    """A label read by somebody who is not told what it should say."""
    where = f" in {row['bay']}" if row.get("bay") else ""
    return Asking(
        "good",
        row,
        name,
        f"{row['check']}{where}: point at the label; the second person reads and types it",
        (person, Question("read", "the label reads", "", "letter by letter, as it stands there")),
        "What the record says is hidden until then; the two are compared.",
        blind=True,
    )


EXAMPLES = {
    "m": "0.42 m, 42 cm or 16.5 in",
    "mm": "25 mm or 1 in",
    "C": "12 C or 54 F",
    "K": "3.5 K",
    "%": "2.4",
    "": "2.4",
}


def _count(row: Row) -> Asking:
    where = [lot["place"] for lot in row.get("lots", ())]
    questions = (
        Question("answer", "what is there", "", "12, or 4.2m,3.1m, or plenty, low, out, unknown"),
        Question("place", "where", where[0] if where else "", "shelf, bin, whose vehicle"),
    )
    return Asking("count", row, str(row["part"]), f"count {row['part']}", questions)


def _stuck(view: str, row: Row, hold: str) -> Asking:
    part = str(row.get("part", "")) if view == PARTS else ""
    stops = str(row.get({CHECKS: "check", TODAY: "task"}.get(view, ""), hold))
    questions = (
        Question("text", "what is in the way", f"out of {part}" if part else ""),
        Question(
            "kind",
            "kind",
            "part" if part else "",
            "part person weather tool decision information inspection money predecessor vehicle",
        ),
        Question("stops", "what it stops", stops),
        Question("owes", "who owes the next step"),
        Question("expected", "expected, if known", "", "2027-03-02"),
    )
    return Asking("stuck", {"part": part}, part, "something is in the way", questions)
