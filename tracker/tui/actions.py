"""The one table of what can be done: keys, footer, help and palette are made from it."""

from __future__ import annotations

from dataclasses import dataclass

CHECKS, PARTS, BLOCKERS, LOG, TODAY, INBOX, DATES = VIEWS = (
    "checks",
    "parts",
    "blockers",
    "log",
    "today",
    "inbox",
    "dates",
)
"""The views, in the order of their number keys."""

MAIN = (CHECKS, TODAY, INBOX, DATES)
"""The views that share the larger place of a wide screen; the others stand beside it."""

KEY_NAMES = {
    "space": "space",
    "plus": "+",
    "minus": "-",
    "slash": "/",
    "question_mark": "?",
    "colon": ":",
    "full_stop": ".",
    "left_square_bracket": "[",
    "right_square_bracket": "]",
}


@dataclass(frozen=True, slots=True)
class Action:
    """One thing that can be done.

    Parameters
    ----------
    name: the screen's method is ``action_`` and this.
    keys: the keys, the one shown first.
    word: one or two words for the footer.
    help: one sentence for the help and the palette.
    """

    name: str
    keys: tuple[str, ...]
    word: str
    help: str

    @property
    def key(self) -> str:
        """The first key as people read it."""
        return KEY_NAMES.get(self.keys[0], self.keys[0])

    @property
    def all_keys(self) -> str:
        """All keys as people read them."""
        return " ".join(KEY_NAMES.get(key, key) for key in self.keys)


ACTIONS: tuple[Action, ...] = (
    Action(
        "good",
        ("space", "plus"),
        "good",
        "The check in hand is good; steps on, never takes it back.",
    ),
    Action("bad", ("b", "minus"), "bad", "The check in hand is bad; it stays open to mend."),
    Action(
        "measure",
        ("m",),
        "measure",
        "Type what was measured; the limit decides good or bad.",
    ),
    Action("waive", ("w",), "waive", "Let it pass for a reason; two names where it holds."),
    Action("undo", ("z",), "undo", "Undo the newest thing done here."),
    Action(
        "line",
        ("enter", "colon"),
        "line",
        "Type a line of the day; Esc goes back and keeps it.",
    ),
    Action("not_applicable", ("n",), "n/a", "It does not apply here, for a reason."),
    Action("take_back", ("r",), "take back", "Take an answer back, for a reason."),
    Action("count", ("c",), "count", "Count the part in hand in a place."),
    Action(
        "stuck",
        ("s",),
        "stuck",
        "Something is in the way: raise a blocker.",
    ),
    Action("unstuck", ("u",), "unstuck", "The blocker in hand is out of the way."),
    Action("note", ("N", "a"), "note", "Write a note about what is in hand."),
    Action("redo", ("y",), "redo", "Bring back what was undone last."),
    Action("filter", ("slash",), "filter", "Show only the rows that hold these words."),
    Action("only_open", ("o",), "only open", "Show only the checks still to do, or all."),
    Action("next_open", ("full_stop", "j"), "next open", "Go to the next check still to do."),
    Action("next_bay", ("right_square_bracket",), "next bay", "Go to the next bay."),
    Action("previous_bay", ("left_square_bracket",), "bay before", "Go to the bay before."),
    Action("next_hold", ("h",), "hold point", "Show the next hold point."),
    Action("next_zone", ("v",), "zone", "Show the next zone, then all of them."),
    Action("release", ("R",), "release", "Two people sign a hold point, zone by zone."),
    Action("withdraw", ("W",), "withdraw", "Take a release back, for a reason."),
    Action("close_in", ("C",), "close in", "A zone is closed in: what it covers is buried."),
    Action("reopen", ("O",), "reopen", "A closed zone is opened again, for a reason."),
    Action("book", ("B",), "book", "Book the day of a close-in, or drop it."),
    Action("sort", ("e",), "say again", "Say the line in hand so that it can be placed."),
    Action("keep", ("k",), "as note", "Keep the line in hand as a note."),
    Action("drop", ("d",), "drop", "The line in hand means nothing; it stays on record."),
    Action("adopt", ("p",), "phases", "Take up phases: their tasks, checks and hold points."),
    Action("view('checks')", ("1",), "checks", "Go to the checks."),
    Action("view('parts')", ("2",), "parts", "Go to the parts."),
    Action("view('blockers')", ("3",), "blockers", "Go to the blockers."),
    Action("view('log')", ("4",), "log", "Go to the log."),
    Action("view('today')", ("5", "t"), "today", "Go to the plan of the day."),
    Action("view('inbox')", ("6", "i"), "inbox", "Go to the lines that wait to be sorted."),
    Action("view('dates')", ("7", "D"), "dates", "Go to the dates and how sure they are."),
    Action("buying", ("g",), "to buy", "What to buy, today's orders on top; again for all parts."),
    Action("next_view", ("tab",), "next view", "Go to the next view, or the next question."),
    Action("previous_view", ("shift+tab",), "view before", "Go to the view before."),
    Action("daylight", ("T",), "daylight", "Dark colours, or light ones for the sun."),
    Action("help", ("question_mark", "f1"), "help", "Show all keys."),
    Action("leave", ("q", "ctrl+c"), "quit", "Quit; everything acknowledged is kept."),
)

FOOTERS: dict[str, tuple[str, ...]] = {
    CHECKS: (
        *("good", "bad", "measure", "waive", "undo", "line", "not_applicable", "filter"),
        *("release", "close_in"),
    ),
    PARTS: ("count", "buying", "stuck", "undo", "line", "filter", "note"),
    BLOCKERS: ("stuck", "unstuck", "undo", "line", "filter", "note"),
    LOG: ("note", "undo", "redo", "line", "filter"),
    TODAY: ("line", "stuck", "note", "undo", "filter"),
    INBOX: ("sort", "keep", "drop", "undo", "line", "filter"),
    DATES: ("book", "line", "stuck", "note", "undo", "filter"),
}
"""The actions whose keys stand below each view, those that matter most first."""

GAP = "  "


def footer(view: str, width: int) -> str:
    """The keys that matter in a view, never wider than ``width`` cells.

    Help and quit come last and are kept; of the others as many as fit, first come first.
    """
    by_name = {action.name: f"{action.key} {action.word}" for action in ACTIONS}
    others = [by_name[name] for name in FOOTERS[view]]
    kept = [by_name[name] for name in ("help", "leave")]
    while others and len(GAP.join([*others, *kept])) > width:
        others.pop()
    return GAP.join([*others, *kept])[:width]


def help_rows() -> list[tuple[str, str]]:
    """Every action's keys and what it does."""
    return [(action.all_keys, action.help) for action in ACTIONS]
