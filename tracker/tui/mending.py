"""Which of several answers an error is about, so that the cursor can be put there."""

from __future__ import annotations

from collections.abc import Mapping

from tracker.tui.asks import Asking

SPEAK_OF = {
    "second": ("--second", "second person", "second name", "two people", "two names", "next day"),
    "by": ("--by",),
    "why": ("--why", "--note", "reason"),
    "value": ("--value", "number", " below ", " above "),
    "text": ("what is in the way", "the note"),
    "answer": ("count",),
    "place": ("where", "place"),
    "expected": ("expected", "date"),
    "lost_h": ("hours",),
    "on": ("date",),
    "day": ("date", "booked"),
    "read": ("what the label reads",),
    "sure": ("write ",),
}
"""What an error says that is about the answer to the question of that name."""


def faulty(asking: Asking, typed: Mapping[str, str], error: str) -> str | None:
    """The name of the question whose answer an error is about, or None where that is not clear.

    An answer the error quotes comes first, then one it speaks of, a missing one before one that
    was given, then one it repeats.
    """
    names = [question.name for question in asking.questions]
    said = error.casefold()
    answers = {name: typed.get(name, "").strip().casefold() for name in names}
    quoted = [name for name in names if answers[name] and f"'{answers[name]}'" in said]
    spoken = [
        name
        for name in names
        if any(word in said for word in (f"{name}:", *SPEAK_OF.get(name, ())))
    ]
    repeated = [name for name in names if len(answers[name]) > 1 and answers[name] in said]
    missing = [name for name in spoken if not answers[name]]
    return next(iter([*quoted, *missing, *spoken, *repeated]), None)
