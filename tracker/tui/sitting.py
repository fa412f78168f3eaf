"""One sitting at the screen: what is shown of the build, and what is done to it. Draws nothing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tracker.act import Act
from tracker.app.session import Session
from tracker.app.views.closing import closing_view, zones_of
from tracker.app.views.inbox import inbox_view
from tracker.app.views.log import act_row, act_words
from tracker.app.views.parts import parts_view
from tracker.app.views.phases import phase_line
from tracker.app.views.strip import strip_view
from tracker.app.views.walk import blockers_view, walk_view
from tracker.app.views.words.acts import Words
from tracker.app.wants.say import read
from tracker.errors import BadInput, CloseinError
from tracker.tui.actions import VIEWS
from tracker.tui.asks import Asking, asking
from tracker.tui.marks import SIGNS
from tracker.tui.wanting import wanted

ACTS_SHOWN = 300
"""The log shows so many of the newest acts."""


class Sitting:
    """Holds what the screen shows and what was typed but not saved.

    Parameters
    ----------
    session: the build, open.
    """

    def __init__(self, session: Session) -> None:
        self.session = session
        self.hold: str | None = None
        self.zone: str | None = None
        self.only_open = False
        self.filters: dict[str, str] = dict.fromkeys(VIEWS, "")
        self.drafts: dict[tuple[str, str], dict[str, str]] = {}
        self.second = ""
        self.message = ""
        self.failed = False
        self.passing = False
        self.cut_off = ""
        self.walk: dict[str, Any] | None = None
        self.blockers: list[dict[str, Any]] = []
        self.phases: list[dict[str, Any]] = []
        self.strip: dict[str, Any] = {}
        self.parts: list[dict[str, Any]] = []
        self.acts: list[dict[str, Any]] = []
        self.inbox: list[dict[str, Any]] = []
        self.today: dict[str, Any] | None = None
        self.today_asked: object = None
        self.buying = False
        self.asked: dict[str, object] = {}
        self.found: dict[str, tuple[object, dict[str, Any] | None]] = {}
        self.read()

    def read(self) -> None:
        """Make every view model anew from the state."""
        session = self.session
        try:
            self.walk = walk_view(session, self.hold, self.zone)
        except BadInput:  # what was shown is gone, or there is no hold point yet
            self.hold = self.zone = None
            self.walk = walk_view(session) if session.cover.holds else None
        self.blockers = self.walk["blockers"] if self.walk else blockers_view(session)
        self.phases = phase_line(session)
        self.strip = strip_view(session)
        self.parts = parts_view(session)
        words, build = Words(session.build, session.names), session.build
        self.inbox = inbox_view(session)
        self.acts = [act_row(build, words, act) for act in reversed(build.acts[-ACTS_SHOWN:])]

    def look(self) -> bool:
        """Take in what others wrote; True where something has to be drawn anew."""
        try:
            news = self.session.changed() and self.session.refresh()
        except CloseinError as error:
            self.cut_off = str(error)
            return self.say(self.cut_off, failed=True)
        back = bool(self.cut_off) and self.message == self.cut_off
        self.cut_off = ""
        if back:
            self.say("the build can be read again")
        if news:
            self.read()
            if self.acts and not self.failed:
                newest = self.acts[0]
                self.say(f"from {newest['by']}: {newest['words'][0]}")
        elif self.session.now().date().isoformat() != self.strip["date"]:
            self.read()  # another day: what is due in how many days has changed
            news = True
        return news or back

    def say(self, text: str, failed: bool = False) -> bool:
        """Put a sentence into the strip; True where it is another than before."""
        news = (text, failed) != (self.message, self.failed)
        self.message, self.failed, self.passing = text, failed, False
        return news

    def attempt(self, deed: Callable[[], Act]) -> Act | None:
        """Do something to the build and say what was saved, or why it was not."""
        try:
            act = deed()
        except CloseinError as error:
            self.say(str(error), failed=True)
            return None
        self.read()
        self.say(f"saved: {act_words(self.session, act)}")
        return act

    def asks(self, action: str, view: str, row: dict[str, Any]) -> Asking | None:
        """What must be asked before an action."""
        hold = self.walk["hold_point"]["slug"] if self.walk else ""
        if action == "sort":
            row = {**row, "problem": read(self.session, row["text"], self.session.user).problem}
        return asking(action, view, row, self.strip["date"], self.second, hold)

    def put_aside(self, ask: Asking, typed: dict[str, str]) -> None:
        """Keep a half-typed answer for the next time the same is asked."""
        self.drafts[ask.action, ask.about] = typed

    def draft(self, ask: Asking) -> dict[str, str]:
        """What was typed to the same question before and not saved."""
        return self.drafts.get((ask.action, ask.about), {})

    def do(
        self,
        action: str,
        row: dict[str, Any],
        typed: dict[str, str] | None = None,
        ask: Asking | None = None,
    ) -> bool:
        """Do an action to a row; what was typed is forgotten only once it is saved."""
        said = typed or {}
        session = self.session
        act = self.attempt(lambda: session.do(wanted(action, row, said, session)))
        if act is None:
            return False
        if ask is not None:
            self.drafts.pop((ask.action, ask.about), None)
        self.second = said.get("second", "").strip() or self.second
        if action == "measure":
            self._say_verdict(row)
        elif action == "book" and "" < said["day"].strip() < self.strip["date"]:
            self.say(f"{self.message}; that day is past, book it again if it was a slip")
        return True

    def misread(self, ask: Asking, typed: dict[str, str]) -> bool:
        """Was a label read that is not the one on record? Then it can't be guessed again blind."""
        said = typed.get("read", "").strip().casefold()
        if not (ask.blind and said and typed.get("second", "").strip()):
            return False
        if said == str(ask.row["subject"]).casefold():
            return False
        self.drafts.pop((ask.action, ask.about), None)
        return True

    def zones(self, hold: str) -> list[str]:
        """The zones by which a hold point is released; none where it is as a whole."""
        return zones_of(self.session, hold)

    def choose_zone(self, name: str) -> bool:
        """Show one zone of the hold point; False where there is none of that name."""
        try:
            zone = self.session.names.find(name, ("zone",), "zone")
        except CloseinError as error:
            self.say(str(error), failed=True)
            return False
        self.zone = self.session.names.name(zone.id)
        self.read()
        return True

    def gate_row(self, action: str, hold: str) -> dict[str, Any]:
        """How a hold point stands in the zone shown, and what it covers there."""
        if action == "book" and self.zone is None and self.walk:  # for all zones at once
            return {"hold_point": hold, "zone": None, "booked": self.walk["hold_point"]["booked"]}
        return closing_view(self.session, hold, self.zone)

    def would(self, action: str, row: dict[str, Any]) -> None:
        """Raise what the build's rules would refuse whatever is answered; nothing is written."""
        if action == "book":
            return
        user = self.session.user
        sure = row["zone"] or row["hold_point"]
        said = {"by": user, "second": f"{user} and another", "why": "because", "sure": sure}
        wanted(action, row, said, self.session)(self.session.build)

    def today_key(self) -> object:
        """Stays the same as long as the plan of the day does: within the hour, for cures end."""
        acts = self.session.build.acts
        return acts[-1:], len(acts), self.session.now().strftime("%Y-%m-%d %H")

    def reckoned(self, what: str) -> tuple[dict[str, Any] | None, bool]:
        """The dates or the buy list as found last, and whether they are of an older state."""
        key, view = self.found.get(what, (None, None))
        return view, key is None or key != self.asked.get(what)

    def line(self, text: str) -> bool:
        """Take a line of the day; says what it was taken as, or why it waits in the inbox."""
        from tracker.app.wants import say

        taken = ""

        def deed() -> Act:
            nonlocal taken
            intent, taken = say.understand(self.session, text, self.session.user)
            return self.session.do(intent)

        act = self.attempt(deed)
        if act is not None and say.KEPT in taken:
            self.say(taken.replace("\n", "; "), failed=True)
        return act is not None

    def undo(self) -> bool:
        """Undo the newest thing done here."""
        return self.attempt(self.session.undo) is not None

    def redo(self) -> bool:
        """Bring back what was undone last."""
        return self.attempt(self.session.redo) is not None

    def next_hold(self) -> None:
        """Show the next hold point in order."""
        names = [hold["slug"] for phase in self.phases for hold in phase["hold_points"]]
        if self.walk is not None and names:
            at = names.index(self.walk["hold_point"]["slug"])
            self.hold, self.zone = names[(at + 1) % len(names)], None
            self.read()

    def next_zone(self) -> None:
        """Show the next zone of the hold point, and after the last all of them."""
        cover, name = self.session.cover, self.session.names.name
        zones: list[str | None] = [None, *(name(zone.id) for zone in cover.zones)]
        at = zones.index(self.zone) if self.zone in zones else 0
        self.zone = zones[(at + 1) % len(zones)]
        self.read()

    def _say_verdict(self, row: dict[str, Any]) -> None:
        for place in self.walk["places"] if self.walk else ():
            for now in place["points"]:
                if (now["check"], now["subject"]) == (row["check"], row["subject"]):
                    sign, word = SIGNS[now["state"]]
                    self.say(f"{sign} {word}: {now['check']} on {now['subject']}, {now['limit']}")
