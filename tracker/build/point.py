"""Answers: what was found when a check was held against its subject.

A point is a check's id and a subject's id. Its answer is good, bad, a measured value (whether
that is good is computed, never typed), waived, not applicable, or taken back. Two answers given
by people who did not know of each other's are a conflict, and the point counts as open.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from tracker.act import Act, Fact
from tracker.build.values import number, table, text

if TYPE_CHECKING:
    from tracker.build.state import Build

RESULTS = ("good", "bad", "measured", "waived", "na", "reopened")
"""What an answer may say; ``na`` is 'not applicable', ``reopened`` takes the answer back."""

TEXTS = ("by", "second", "present", "why", "read", "photo", "unit")
"""What an answer may say besides, in words."""


class Answer(NamedTuple):
    """One answer in force.

    Parameters
    ----------
    ref: the fact that gave it.
    result: one of ``RESULTS``.
    when: when it was found, ISO 8601 with offset.
    by: who answered.
    fact: the whole fact: value, unit, why, second, present, read, saw, photo.
    """

    ref: str
    result: str
    when: str
    by: str
    fact: Fact

    @property
    def value(self) -> float | None:
        """The measured value in the unit of the check's limit, or None."""
        value = self.fact.get("value")
        return float(value) if value is not None else None

    @property
    def second(self) -> str | None:
        """The second person's name, or None."""
        return self.fact.get("second")

    @property
    def why(self) -> str | None:
        """The reason given, or None."""
        return self.fact.get("why")


def apply_answered(draft: Build, fact: Fact, ref: str, act: Act) -> None:
    """An answer takes the place of those it names; any other that stands makes a conflict."""
    check, subject, result = fact["check"], fact["subject"], fact["result"]
    draft.need(check, subject)
    if result not in RESULTS:
        raise ValueError(result)
    for name in TEXTS:
        if name in fact:
            text(fact[name])
    if "value" in fact:
        number(fact["value"])
    if "saw" in fact:
        table(fact["saw"])
    answer = Answer(ref, result, act.when or act.at, fact.get("by") or act.by, fact)
    key = (check, subject)
    replaced = draft.living(fact.get("over", ()), "over")
    heads = draft.answers.get(key)
    if heads is None:
        draft.answers[key] = (answer,)
        return
    standing = [head for head in heads if head.ref not in replaced]
    draft.answers[key] = (*standing, answer)


def answer(
    build: Build,
    check: str,
    subject: str,
    result: str,
    saw: dict[str, Any],
    **details: Any,
) -> Fact:
    """The fact that answers a point; it names all answers that stand now, so it settles them.

    Parameters
    ----------
    check, subject: ids.
    result: one of ``RESULTS``.
    saw: the watched fields and the limit as they were when it was answered.
    details: value (in the limit's unit), unit, why, second, present, read, photo, by; those that
        are None are left out.
    """
    fact: dict[str, Any] = {
        "f": "point.answered",
        "check": check,
        "subject": subject,
        "result": result,
    }
    fact.update({name: value for name, value in details.items() if value is not None})
    if saw:
        fact["saw"] = saw
    over = [head.ref for head in build.answers.get((check, subject), ())]
    if over:
        fact["over"] = over
    return fact
