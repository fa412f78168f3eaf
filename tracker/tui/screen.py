"""The screen: what stands where, which view is in hand, and where typed words go."""

from __future__ import annotations

from typing import Any, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Container, Horizontal, Vertical
from textual.message import Message
from textual.widgets import Input, Static

from tracker.app.session import Session
from tracker.errors import CloseinError
from tracker.tui.actions import ACTIONS, CHECKS, MAIN, TODAY, VIEWS
from tracker.tui.asker import Asker
from tracker.tui.box import Box
from tracker.tui.dates_rows import DATE_COLUMNS
from tracker.tui.lines import Lines
from tracker.tui.panes import Pane
from tracker.tui.reckoning import Reckoning
from tracker.tui.rows import (
    BLOCKER_COLUMNS,
    CHECK_COLUMNS,
    INBOX_COLUMNS,
    LOG_COLUMNS,
    PART_COLUMNS,
    SETTLED,
)
from tracker.tui.sitting import Sitting
from tracker.tui.today_rows import TODAY_COLUMNS

LOOK_EVERY_S = 0.5
COLUMNS = dict(
    zip(
        VIEWS,
        (
            CHECK_COLUMNS,
            PART_COLUMNS,
            BLOCKER_COLUMNS,
            LOG_COLUMNS,
            TODAY_COLUMNS,
            INBOX_COLUMNS,
            DATE_COLUMNS,
        ),
        strict=True,
    )
)
LEAVING_KEYS = ("q", "ctrl+q", "ctrl+c")
ENTRY_HINT = "12 label ok · out glands · 3 people 8-16 dry 6C · or a note"


class WorkedOut(Message):
    """The plan of the day was worked out, or could not be."""

    def __init__(self, key: object, today: dict[str, Any] | None, problem: str) -> None:
        super().__init__()
        self.key, self.today, self.problem = key, today, problem


class BuildScreen(Reckoning):
    """Everything of a build on one screen."""

    BINDINGS: ClassVar = [
        *(
            Binding(",".join(action.keys), action.name, action.help, show=False)
            for action in ACTIONS
        ),
        Binding("escape", "back", show=False),
    ]

    def __init__(self, sitting: Sitting) -> None:
        super().__init__()
        self.sitting = sitting
        self.view = CHECKS
        self.leaving = False

    def compose(self) -> ComposeResult:
        """Phase line, hold point, views, what is in hand, questions, entry line, strip, keys."""
        yield Static(id="phase-line", markup=False)
        yield Static(id="hold-line", markup=False)
        yield Static(id="tabs", markup=False)
        with Container(id="views"):
            with Vertical(id="main"):
                for view in MAIN:
                    yield Pane(view, COLUMNS[view])
            with Vertical(id="side"):
                for view in VIEWS:
                    if view not in MAIN:
                        yield Pane(view, COLUMNS[view])
        yield Static(id="detail", markup=False)
        yield Asker(self.answered, self.put_aside)
        with Horizontal(id="filter-row"):
            yield Static("filter /", classes="sign", markup=False)
            yield Box(self.keep_filter, id="filter")
        with Horizontal(id="entry-row"):
            yield Static("›", classes="sign", markup=False)
            yield Box(self.take_line, id="entry", placeholder=ENTRY_HINT)
        yield Static(id="message", markup=False)
        yield Static(id="strip", markup=False)
        yield Static(id="footer", markup=False)

    def on_mount(self) -> None:
        """Open on the first check still to do, and look for others' acts from now on."""
        self.draw()
        self.action_view(CHECKS)
        if self.row.get("state") in SETTLED:
            self.action_next_open()
        self.set_interval(LOOK_EVERY_S, self.look)

    def look(self) -> None:
        """Draw anew where others wrote, or where the day changed."""
        if self.sitting.look():
            self.draw()

    def draw(self) -> None:
        """Everything anew, and the plan of the day where it is looked at."""
        super().draw()
        key = self.sitting.today_key()
        if self.view == TODAY and key != self.sitting.today_asked:
            self.sitting.today_asked = key
            still = self.sitting.session.still()
            self.run_worker(
                lambda: self.work_out(key, still), thread=True, exclusive=True, group="today"
            )

    def work_out(self, key: object, still: Session) -> None:
        """Work the plan of the day out, in a thread: it takes longer than a key may."""
        from tracker.app.views.today import today_view

        try:
            self.post_message(WorkedOut(key, today_view(still), ""))
        except CloseinError as error:
            self.post_message(WorkedOut(key, None, str(error)))

    @on(WorkedOut)
    def worked_out(self, event: WorkedOut) -> None:
        """Show the plan, unless the build has changed meanwhile and another is on its way."""
        if event.key == self.sitting.today_asked:
            self.sitting.today = event.today
            if event.problem:
                self.tell(event.problem, failed=True)
            self.draw_lists()
            self.draw_detail()

    def key_came(self, key: str) -> None:
        """What was only said in passing goes with the next key, and so does half a will to quit."""
        if key not in LEAVING_KEYS or (key == "q" and isinstance(self.focused, Input)):
            self.leaving = False
        if self.sitting.passing:
            self.tell("")

    @property
    def box(self) -> Box:
        """The entry line."""
        return self.query_one("#entry", Box)

    def on_resize(self, event: events.Resize) -> None:
        """The lines of words depend on the width."""
        self.draw_head()
        self.call_after_refresh(self.draw_detail)
        self.draw_foot()

    @on(Lines.InHand)
    def in_hand(self, event: Lines.InHand) -> None:
        """Say more of what is in hand."""
        if event.lines is self.lines:
            self.draw_detail()

    @on(events.DescendantFocus)
    def follow(self, event: events.DescendantFocus) -> None:
        """The keys below go with where they are typed; a click into a list makes it the view."""
        self.draw_keys()
        if isinstance(event.widget, Lines) and event.widget.id != self.view:
            self.action_view(str(event.widget.id))

    def action_line(self) -> None:
        """Type a line of the day."""
        self.leaving = False
        self.set_focus(self.box)

    def take_line(self, box: Box) -> None:
        """Take the line; it is cleared only once it is saved."""
        if not box.value.strip():
            self.set_focus(self.lines)
            return
        if self.sitting.line(box.lines):
            box.clear()
        self.draw()

    def action_filter(self) -> None:
        """Type the words that rows must hold."""
        box = self.query_one("#filter", Box)
        box.value = self.sitting.filters[self.view]
        self.query_one("#filter-row").display = True
        self.set_focus(box)

    @on(Input.Changed, "#filter")
    def refilter(self, event: Input.Changed) -> None:
        """Filter while it is typed."""
        if event.value != self.sitting.filters[self.view]:
            self.sitting.filters[self.view] = event.value
            self.draw()

    def keep_filter(self, box: Box) -> None:
        """Back to the list, filtered."""
        self.query_one("#filter-row").display = False
        self.set_focus(self.lines)

    def action_back(self) -> None:
        """Back to the list; a filter is cleared, a line half typed is kept."""
        at_entry = self.focused is self.box
        if not at_entry and self.sitting.filters[self.view]:
            self.sitting.filters[self.view] = ""
        self.query_one("#filter-row").display = False
        self.sitting.say("")
        self.draw()
        self.set_focus(self.lines)

    def action_daylight(self) -> None:
        """Dark colours or light ones."""
        from tracker.tui.theme import other

        self.app.theme = other(self.app.theme)

    def action_help(self) -> None:
        """All keys on one page."""
        from tracker.tui.help import HelpScreen

        self.app.push_screen(HelpScreen())

    def action_leave(self) -> None:
        """Quit; where something typed is not saved yet, only when asked twice."""
        asker = self.query_one(Asker)
        typed = self.box.value.strip() or asker.begun
        if typed and not self.leaving:
            self.leaving = True
            again = "Ctrl-C" if isinstance(self.focused, Input) else "q"
            self.tell(f"something typed is not saved yet; {again} again quits without it", True)
        else:
            self.app.exit()
