"""What the keys do to what is in hand: each asks first where something has to be asked."""

from __future__ import annotations

from typing import Any

from textual.screen import Screen

from tracker.tui.actions import BLOCKERS, CHECKS, PARTS
from tracker.tui.asker import Asker
from tracker.tui.asks import Asking
from tracker.tui.lines import Lines
from tracker.tui.rows import SETTLED
from tracker.tui.sitting import Sitting
from tracker.tui.wanting import GATES


class Deeds(Screen[None]):
    """The part of the screen that does things to the build."""

    sitting: Sitting
    view: str

    @property
    def lines(self) -> Lines:
        """The list of the view in hand."""
        raise NotImplementedError

    def draw(self) -> None:
        """Draw everything anew."""
        raise NotImplementedError

    def draw_foot(self) -> None:
        """Draw the message, the strip and the keys anew."""
        raise NotImplementedError

    def tell(self, text: str, failed: bool = False) -> None:
        """Put a sentence into the strip."""
        raise NotImplementedError

    def action_view(self, view: str) -> None:
        """Go to a view."""
        raise NotImplementedError

    @property
    def row(self) -> dict[str, Any]:
        """The row in hand, {} where there is none."""
        line = self.lines.line
        return line.row if line is not None and line.row is not None else {}

    def act(self, action: str) -> bool:
        """Do an action to the row in hand, or ask what it needs first; True when it was done."""
        ask = self.sitting.asks(action, self.view, self.row)
        if ask is None:
            done = self.sitting.do(action, self.row)
            self.draw()
            return done
        self.ask(ask)
        return False

    def ask(self, ask: Asking) -> None:
        """Ask; what was typed to it before and put aside stands there again."""
        asker = self.query_one(Asker)
        if asker.asking is not None:
            self.sitting.put_aside(asker.asking, asker.typed)
        asker.ask(ask, self.sitting.draft(ask))
        self.add_class("-asking")
        self.set_class(ask.blind, "-blind")
        self.set_class(ask.action in GATES, "-gate")
        self.sitting.say("")
        self.draw_foot()

    def put_aside(self, ask: Asking, typed: dict[str, str]) -> None:
        """Keep what was typed for the next time."""
        begun = self.query_one(Asker).begun
        self.sitting.put_aside(ask, typed)
        self.no_more_asked()
        self.sitting.say("put aside; what was typed is kept" if begun else "put aside")
        self.sitting.passing = True
        self.draw_foot()

    def no_more_asked(self) -> None:
        """The list has the keys again."""
        self.query_one(Asker).close()
        self.remove_class("-asking", "-blind", "-gate")
        self.set_focus(self.lines)

    def answered(self, ask: Asking, typed: dict[str, str]) -> None:
        """Do what was asked for; on any refusal the questions and answers stay."""
        done = self.sitting.do(ask.action, ask.row, typed, ask)
        if done or self.sitting.misread(ask, typed):
            self.no_more_asked()
        else:
            self.query_one(Asker).mend(self.sitting.message)
        self.draw()
        if done and ask.action in ("good", "measure"):
            self.lines.action_step(1)

    def check(self, action: str) -> bool:
        """Do an action to the check in hand; says so where none is."""
        if self.view == CHECKS and self.row:
            return self.act(action)
        self.tell("no check is in hand; 1 goes to the checks", failed=True)
        return False

    def action_good(self) -> None:
        """The check in hand is good, and on to the next; one that is settled only steps on."""
        if (self.view == CHECKS and self.row.get("state") in SETTLED) or self.check("good"):
            self.lines.action_step(1)

    def action_bad(self) -> None:
        """The check in hand is bad."""
        self.check("bad")

    def action_measure(self) -> None:
        """Ask for the number."""
        if self.view == CHECKS and self.row and not self.row["measured"]:
            self.tell(f"{self.row['check']} asks for no number; space is good, b is bad", True)
        else:
            self.check("measure")

    def action_waive(self) -> None:
        """Ask for the reason and the second name."""
        self.check("waive")

    def action_not_applicable(self) -> None:
        """Ask for the reason."""
        self.check("not_applicable")

    def action_take_back(self) -> None:
        """Ask why the answer is taken back."""
        self.check("take_back")

    def action_count(self) -> None:
        """Ask what is there of the part in hand."""
        self._choose(PARTS, "count", "part")

    def action_unstuck(self) -> None:
        """Ask since when the blocker in hand is out of the way."""
        self._choose(BLOCKERS, "unstuck", "blocker")

    def _choose(self, view: str, action: str, noun: str) -> None:
        here = self.view == view
        if not here:
            self.action_view(view)
        if not self.row:
            self.tell(f"there is no {noun} here", failed=True)
        elif here or len(self.lines.all) == 1:
            self.act(action)
        else:
            self.tell(f"choose the {noun} and press the key again")

    def action_stuck(self) -> None:
        """Ask what is in the way."""
        self.act("stuck")

    def action_note(self) -> None:
        """Ask for the note."""
        self.act("note")

    def action_adopt(self) -> None:
        """Ask which phases to take up."""
        self.act("adopt")

    def action_undo(self) -> None:
        """Undo the newest thing done here."""
        self.sitting.undo()
        self.draw()

    def action_redo(self) -> None:
        """Bring back what was undone last."""
        self.sitting.redo()
        self.draw()
