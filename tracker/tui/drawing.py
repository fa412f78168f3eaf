"""Drawing: puts the words and lines of a sitting into the widgets. All text goes in literally."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from textual.content import Content
from textual.widgets import Static

from tracker.build.names import clean
from tracker.tui.actions import (
    BLOCKERS,
    CHECKS,
    DATES,
    INBOX,
    LOG,
    MAIN,
    PARTS,
    TODAY,
    VIEWS,
    footer,
)
from tracker.tui.asker import Asker
from tracker.tui.buying_rows import BUY_COLUMNS, BUYING, buy_lines, buying_told
from tracker.tui.dates_rows import RECKONING, date_detail, date_lines, dates_told
from tracker.tui.panes import Pane
from tracker.tui.phaseline import phase_line_text
from tracker.tui.rows import (
    PART_COLUMNS,
    blocker_lines,
    check_lines,
    inbox_lines,
    log_lines,
    part_lines,
)
from tracker.tui.sorting import Sorting
from tracker.tui.tabs import Told, tabs
from tracker.tui.today_rows import day_line, today_lines, today_told
from tracker.tui.words import (
    blocker_words,
    check_words,
    hold_line,
    lapse_words,
    nothing_open,
    part_words,
    some,
    strip_words,
)

ASKING_KEYS = "enter goes on, and is the answer after the last question  esc puts it aside"
TYPING_KEYS = {
    "entry": "enter saves the line  esc goes back to the list and keeps it  f1 help",
    "filter": "enter keeps the filter  esc clears it  f1 help",
}
"""Stand below the screen while keys are typed text and no commands."""
FILTER_CELLS = 20
NOTHING = {
    PARTS: "No parts yet: 'closein part add' adds one.",
    BLOCKERS: "Nothing is in the way. s raises a blocker.",
    LOG: "Nothing is written down yet.",
    TODAY: "The plan of the day is being worked out.",
    INBOX: "No line waits to be sorted.",
    DATES: "The dates could not be reckoned.",
    BUYING: "Nothing is to be bought. g goes back to all parts.",
}


class Drawing(Sorting):
    """The part of the screen that draws."""

    def pane(self, view: str) -> Pane:
        """The pane of a view."""
        return self.query_one(f"#pane-{view}", Pane)

    def put(self, selector: str, *parts: str | Content | tuple[str, str]) -> None:
        """Put text, cleaned and never read as markup, into a widget."""
        cleaned = [
            (clean_lines(part[0]), part[1])
            if isinstance(part, tuple)
            else clean_lines(part)
            if isinstance(part, str)
            else part
            for part in parts
        ]
        self.query_one(selector, Static).update(Content.assemble(*cleaned))

    def tell(self, text: str, failed: bool = False) -> None:
        """Put a sentence into the strip."""
        self.sitting.say(text, failed)
        self.draw_message()

    def draw(self) -> None:
        """Everything anew; what is in hand stays in hand."""
        self.draw_head()
        self.draw_lists()
        self.draw_detail()
        self.draw_foot()

    def draw_head(self) -> None:
        """The phase line and the hold point shown."""
        sitting, width = self.sitting, self.app.size.width - 2
        text, start, end = phase_line_text(sitting.phases, width)
        if text:
            here = (text[start:end], "bold $accent")
            self.put("#phase-line", (text[:start], "$quiet"), here, (text[end:], "$quiet"))
        else:
            self.put("#phase-line", (f"{sitting.session.marked.name}: no phases yet", "bold"))
        lapse = lapse_words(sitting.walk)
        self.put(
            "#hold-line", hold_line(sitting.walk, width), (f" · {lapse}" if lapse else "", "$error")
        )

    def draw_lists(self) -> None:
        """The lists of all views and their titles."""
        sitting, filters = self.sitting, self.sitting.filters
        walk = sitting.walk
        places = walk["places"] if walk else []
        dates, dates_old = sitting.reckoned(DATES)
        buy, buy_old = sitting.reckoned(BUYING)
        lists = {
            CHECKS: check_lines(places, filters[CHECKS], sitting.only_open),
            PARTS: part_lines(sitting.parts, filters[PARTS]),
            BLOCKERS: blocker_lines(sitting.blockers, filters[BLOCKERS]),
            LOG: log_lines(sitting.acts, filters[LOG]),
            TODAY: today_lines(sitting.today, filters[TODAY]),
            INBOX: inbox_lines(sitting.inbox, filters[INBOX]),
            DATES: date_lines(dates, filters[DATES], dates_old),
        }
        if sitting.buying:
            lists[PARTS] = buy_lines(buy, filters[PARTS], buy_old)
        self.pane(PARTS).lines.columns = BUY_COLUMNS if sitting.buying else PART_COLUMNS
        still = walk["points"]["open"] + walk["points"]["bad"] if walk else 0
        short, open_, waiting = (
            sitting.strip["shortages"],
            len(sitting.blockers),
            len(sitting.inbox),
        )
        counts = {
            CHECKS: (f"{still} to do" + (", only those" if sitting.only_open else ""), str(still)),
            PARTS: (some(short, "shortage"), str(short or "")),
            BLOCKERS: (f"{open_} open" if open_ else "none", str(open_ or "")),
            LOG: ("", ""),
            TODAY: today_told(sitting.today),
            INBOX: (some(waiting, "line"), str(waiting)) if waiting else ("", ""),
            DATES: dates_told(dates, dates_old and DATES in sitting.asked),
        }
        if sitting.buying:
            counts[PARTS] = buying_told(buy, buy_old)
        for view in VIEWS:
            if limit := filters[view]:
                counts[view] = (f"filter: {clean(limit[:FILTER_CELLS])}", "filtered")
        main = Content.assemble(*self.tab_parts(counts, MAIN, self.app.size.width * 3 // 5))
        for number, view in enumerate(VIEWS, 1):
            title = main if view in MAIN else Content(f"{number} {view}  {counts[view][0]}")
            empty = NOTHING.get(view) or nothing_open(walk)
            if (view == PARTS and sitting.buying and buy_old) or (view == DATES and dates_old):
                empty = RECKONING
            elif view == PARTS and sitting.buying:
                empty = NOTHING[BUYING]
            if filters[view]:
                empty = f"Nothing here holds '{filters[view]}'; Esc clears the filter."
            self.pane(view).show(title, lists[view], clean(empty))
        self.put("#tabs", *self.tab_parts(counts, VIEWS, self.app.size.width - 2))

    def tab_parts(
        self, counts: Mapping[str, Told], views: Sequence[str], width: int
    ) -> list[tuple[str, str]]:
        """The views there are, the one in hand in brackets; a filter stands for the count."""
        told = {view: counts[view] for view in views}
        numbers = [VIEWS.index(view) + 1 for view in views]
        return [
            (text, "bold $primary" if here else "$quiet")
            for text, here in tabs(told, numbers, self.view, width)
        ]

    def draw_detail(self) -> None:
        """What is in hand, in full."""
        row = self.row
        if self.view == CHECKS and row:
            text, missed, basis = check_words(row)
            self.put(
                "#detail", (f"{text}\n", "bold"), (f"{missed}\n", "$accent"), (basis, "$quiet")
            )
        elif self.view == CHECKS:
            self.put("#detail", nothing_open(self.sitting.walk))
        elif self.view == DATES and "spread" in row:
            width, height = self.app.size.width - 2, self.detail_height()
            dates, _ = self.sitting.reckoned(DATES)
            today = dates["date"] if dates else self.sitting.strip["date"]
            self.put("#detail", *date_detail(row, today, width, height))
        elif (self.view == PARTS and row and self.sitting.buying) or self.view == DATES:
            self.put("#detail", *self._told_in_full(row))
        elif self.view == PARTS and row:
            title, lies, stops = part_words(row)
            self.put("#detail", (f"{title}\n", "bold"), f"{lies}\n", stops)
        elif self.view == BLOCKERS and row:
            title, owes, stops = blocker_words(row)
            self.put("#detail", (f"{title}\n", "bold"), f"{owes}\n", stops)
        elif self.view == TODAY:
            view = self.sitting.today
            empty = day_line(view) if view and not row else ""
            self.put("#detail", *self._told_in_full(row, empty))
        elif self.view == INBOX and row:
            said = f"{row['text']}\n", "bold"
            self.put("#detail", said, f"{row['by']}, {row['when'][:16].replace('T', ' ')}")
        elif row and self.view == LOG:
            words = "\n".join(row["words"])
            self.put("#detail", (f"{row['name']} by {row['by']}, {row['when'][:16]}\n", ""), words)
        else:
            self.put("#detail", "")

    def detail_height(self) -> int:
        """The lines there are for what is in hand."""
        return self.query_one("#detail", Static).size.height

    def _told_in_full(self, row: Mapping[str, Any], empty: str = "") -> list[str | tuple[str, str]]:
        """The line in hand in full, or ``empty`` where none is."""
        if not row:
            return [empty]
        first, *rest = row["said"]
        told = [(text, look) for text, look in zip(rest, ("", "$quiet"), strict=False) if text]
        return [(f"{first}\n", "bold"), *((f"{text}\n", look) for text, look in told)]

    def draw_message(self) -> None:
        """The last sentence: what was saved, or what went wrong, until the next one."""
        sitting = self.sitting
        sign, look = ("✗", "bold $error") if sitting.failed else ("·", "$success")
        self.put("#message", (f"{sign} {sitting.message}" if sitting.message else "", look))

    def draw_foot(self) -> None:
        """The message, the strip and the keys."""
        self.draw_message()
        self.put("#strip", strip_words(self.sitting.strip, self.app.size.width - 2))
        self.draw_keys()

    def draw_keys(self) -> None:
        """The keys that do something where the next one goes."""
        typing = TYPING_KEYS.get(getattr(self.focused, "id", None) or "")
        asking = self.query_one(Asker).asking is not None
        keys = footer(self.view, self.app.size.width - 2)
        self.put("#footer", typing or (ASKING_KEYS if asking else keys))


def clean_lines(text: str) -> str:
    """Text without control characters, its own line ends kept."""
    return "\n".join(clean(line) for line in text.split("\n"))
