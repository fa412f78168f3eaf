"""The page that ``closein todo`` prints: folded lists, then what is in the way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tracker.app.views.words.counting import natural, ranges
from tracker.cli.desk import Desk

Row = Mapping[str, Any]

FOLD_AT = 12
"""With more checks than this, each gets a line of its own and no more, unless asked for."""

STATES = {
    "bad": "bad",
    "conflict": "in conflict",
    "stale": "out of date",
}
STATE_HEADS = {
    "bad": "Bad: put right and answered again, or waived",
    "conflict": "In conflict: two answers, neither knew of the other; 'closein settle'",
    "stale": "Out of date: something changed since they were answered",
}
CLASS_HEADS = {
    "hold": "Open and holding the release",
    "witness": "Open, to be witnessed",
    "surveillance": "Open, to be looked at in passing",
    "review": "Open, to be read through",
}


class Page:
    """One page.

    Parameters
    ----------
    view: from ``todo_view``.
    by_bay: group what is open by bay.
    full: say of each check what it asks and what happens when it is missed.
    bay: the bay it is about alone, or None.
    """

    def __init__(
        self, desk: Desk, view: Row, *, by_bay: bool = False, full: bool = False, bay: str | None
    ) -> None:
        self.desk, self.view, self.by_bay, self.bay = desk, view, by_bay, bay
        checks = {row["check"] for row in view["open"]}
        self.full = full or len(checks) <= FOLD_AT
        self.folded = not self.full and not by_bay

    def print(self) -> None:
        """Print it all, what is in the way last, so that it stays in sight."""
        self._head()
        self._bullets("Lapsed", self.view["lapsed_because"])
        self._waivers()
        if self.by_bay:
            self._open_by_bay()
        else:
            self._open_by_check()
        self._conflicts()
        self._late()
        self._shortages()
        self._unknowns()
        self._decisions()
        self._blockers()
        self._reservations()
        self._foot()

    def _head(self) -> None:
        hold, points = self.view["hold_point"], self.view["points"]
        where = f", {hold['zone']}" if hold["zone"] else ""
        self.desk.wrapped(
            f"{self.view['build']}: {hold['slug']}{where} is {hold['state']}", head=True
        )
        self.desk.wrapped(f"{hold['title']}; {booked_words(hold)}", "  ")
        zones = [row for row in self.view["zones"] if row["zone"]]
        if len(zones) > 1:
            told = ", ".join(f"{row['zone']} {row['state']} ({row['open']} open)" for row in zones)
            self.desk.wrapped(f"by zone: {told}", "  ")
        what = f"answers in bay {self.bay}" if self.bay else "answers"
        self.desk.wrapped(
            f"{points['total']} {what}: {points['good']} good, {points['bad']} bad, "
            f"{points['waived']} waived, {points['na']} not applicable, {points['open']} open",
            "  ",
        )
        if self.view["light"]["on"]:
            self.desk.wrapped(light_words(self.view["light"]), "  ")

    def _section(self, title: str, count: int | None = None) -> None:
        self.desk.say()
        self.desk.wrapped(title if count is None else f"{title} ({count})", head=True)

    def _bullets(self, title: str, texts: Sequence[str]) -> None:
        if texts:
            self._section(title, len(texts))
            for text in texts[:20]:
                self.desk.wrapped(text, "    ", "  - ")
            if len(texts) > 20:
                self.desk.say(f"  and {len(texts) - 20} more; --json lists them all")

    def _waivers(self) -> None:
        texts = [
            f"{row['check']} on {row['subject']}: {row['why']} "
            f"({row['was']}{', second ' + row['second'] if row['second'] else ''})"
            for row in self.view["waivers"]
        ]
        self._bullets("Waived", texts)

    def _open_by_check(self) -> None:
        rows = self.view["open"]
        for state, head in STATE_HEADS.items():
            found = [row for row in rows if row["state"] == state]
            if found:
                self._section(head, len(found))
                for row in found[:20]:
                    self._one(row)
                if len(found) > 20:
                    self.desk.say(f"  and {len(found) - 20} more; --json lists them all")
        for kind, head in CLASS_HEADS.items():
            found = [r for r in rows if r["class"] == kind and r["state"] not in STATE_HEADS]
            if found:
                self._section(head, len(found))
                self._checks(found)
        if self.folded and rows:
            self.desk.say("  --full says what each check asks and what happens when it is missed")

    def _checks(self, rows: Sequence[Row]) -> None:
        """One line a check; below it, where there is room, what it asks."""
        groups = by(rows, "check")
        if not self.full:
            self.desk.table([(f"  {name}", r[0]["how"], subjects(r)) for name, r in groups.items()])
            return
        for name, group in groups.items():
            self.desk.wrapped(subjects(group), "      ", f"  {name}  {group[0]['how']}  ")
            self._asks(group)

    def _asks(self, group: Sequence[Row]) -> None:
        first = group[0]
        self.desk.wrapped(str(first["text"]), "      ")
        limits = by([row for row in group if row["limit"]], "limit")
        for limit, rows in limits.items():
            whose = "" if len(limits) == 1 else f" for {subjects(rows)}"
            self.desk.wrapped(f"limit{whose}: {limit}", "        ", "      ")
        reopened = [row for row in group if row["because"]]
        for row in reopened:
            self.desk.wrapped(f"{row['subject']} {row['because']}", "        ", "      ")
        if first["missed"]:
            self.desk.wrapped(f"if missed: {first['missed']}", "        ", "      ")

    def _one(self, row: Row) -> None:
        """A point that was answered and counts no more, or is bad."""
        if row["state"] == "bad":
            note = f", {row['note']}" if row["note"] else ""
            said = f"{row['was']}{note}" + (f"; limit {row['limit']}" if row["limit"] else "")
        elif row["state"] == "conflict":
            said = row["because"]
        else:
            said = f"{row['because']}; it was {row['was']}"
        self.desk.wrapped(f"{row['check']} on {row['subject']}: {said}", "      ", "  ")
        if row["state"] == "bad" and row["missed"]:
            self.desk.wrapped(f"if missed: {row['missed']}", "        ", "      ")

    def _open_by_bay(self) -> None:
        bays = sorted(
            by(self.view["open"], "bay").items(),
            key=lambda pair: (pair[0] is None, natural(pair[0] or "")),
        )
        for bay, rows in bays:
            self._section(f"Bay {bay}" if bay else "In no bay, or the whole vehicle", len(rows))
            lines = []
            for name, group in by(rows, "check").items():
                for state, alike in by(group, "state").items():
                    words = STATES.get(state, "")
                    lines.append((f"  {name}", alike[0]["how"], words, subjects(alike)))
            self.desk.table(lines)

    def _conflicts(self) -> None:
        texts = [
            f"{row['item']}: {row['field']} is {' or '.join(map(str, row['values']))}; "
            f"'closein settle {row['item']} {row['field']} VALUE'"
            for row in self.view["conflicts"]
        ]
        self._bullets("Said differently by two people", texts)

    def _late(self) -> None:
        found = self.view["not_known_at_close_in"]
        if found:
            self._bullets("Not known at close-in", [ranges(found)])

    def _shortages(self) -> None:
        self._bullets("Short of", [shortage_words(row) for row in self.view["shortages"]])

    def _unknowns(self) -> None:
        groups: dict[tuple[str, str], list[str]] = {}
        for row in self.view["unknowns"]:
            key = (row["kind"], ", ".join(row["fields"]))
            groups.setdefault(key, []).append(row["item"])
        texts = [
            f"vehicle: {fields}"
            if kind == "vehicle"
            else f"{kind} {ranges(sorted(items, key=natural))} ({len(items)}): {fields}"
            for (kind, fields), items in groups.items()
        ]
        self._bullets("Unknown, and due before it is buried", texts)

    def _decisions(self) -> None:
        texts = [decision_words(row) for row in self.view["decisions"]]
        self._bullets("To be decided", texts)

    def _blockers(self) -> None:
        self._bullets("Stuck", [blocker_words(row) for row in self.view["blockers"]])

    def _reservations(self) -> None:
        texts = [
            f"{row['text']} ('closein accept {row['key']} --why TEXT')"
            for row in self.view["reservations"]
        ]
        self._bullets("Reservations: no release while one stands", texts)

    def _foot(self) -> None:
        self.desk.say()
        self.desk.wrapped(f"{self.view['hours_left']:g} crew-hours of work before it, as planned")


def booked_words(hold: Row) -> str:
    """When the close-in is booked, and how far off that is."""
    if not hold["booked"]:
        return f"not booked ('closein book {hold['slug']} DATE')"
    days = hold["days"]
    far = "today" if days == 0 else f"in {days} days" if days > 0 else f"{-days} days ago"
    if abs(days) == 1:
        far = far.replace("days", "day")
    return f"booked for {hold['booked']}, {far}"


def light_words(light: Row) -> str:
    """What light mode does not show."""
    away = light["not_shown"]
    if not away:
        return "light: only the checks that stop a release; nothing else is open or answered"
    told = ", ".join(f"{count} {kind}" for kind, count in sorted(away.items()))
    return (
        f"light: only the checks that stop a release; {sum(away.values())} others not shown "
        f"({told}), {light['open']} of them open; --all shows them"
    )


def decision_words(row: Row) -> str:
    """A decision that presses: by when, between what, by whom, and what waits for it."""
    text, days = f"{row['name']}: {row['text']}", row["days"]
    if days is not None:
        far = "today" if days == 0 else f"in {days} days" if days > 0 else f"{-days} days over"
        if abs(days) == 1:
            far = far.replace("days", "day")
        text += f"; last day {row['last_day']}, {far}"
    if row["options"]:
        text += f"; {' or '.join(row['options'])}"
    if row["owes"]:
        text += f"; decides: {row['owes']}"
    return f"{text}; waits for it: {', '.join(row['stops'])}" if row["stops"] else text


def shortage_words(row: Row) -> str:
    """A part that is short: how much is there, is missing, comes when, lies where, stops what."""
    unit = "" if row["unit"] in (None, "each") else f" {row['unit']}"
    have = row["on_hand"]
    text = f"{row['part']}: {have if isinstance(have, str) else f'{have:g}{unit} here'}"
    if row["needed"] is not None:
        text += f" of {row['needed']:g}{unit} needed"
    if row["missing"] is not None:
        text += f", {row['missing']:g}{unit} missing"
    if row["on_order"]:
        due = f" due {row['due']}" if row["due"] else ", no date"
        due += " and late" if row["late"] else ""
        text += f", {row['on_order']:g}{unit} on order{due}"
    if row["where"]:
        text += f", at {', '.join(row['where'])}"
    return f"{text}; stops {', '.join(row['stops'])}" if row["stops"] else text


def blocker_words(row: Row) -> str:
    """A blocker: what it stops, who owes the next step, by when."""
    text = f"{row['slug']}: {row['text']}"
    if row["kind"]:
        text += f" ({row['kind']})"
    if row["stops"]:
        text += f"; stops {', '.join(row['stops'])}"
    if row["owes"]:
        text += f"; next step: {row['owes']}"
    if row["expected"]:
        text += f"; expected {row['expected']}"
    return text + ("; stands against this release" if row["stops_this"] else "")


def by(rows: Sequence[Row], key: str) -> dict[Any, list[Row]]:
    """Rows grouped by one of their values, in order of first appearance."""
    groups: dict[Any, list[Row]] = {}
    for row in rows:
        groups.setdefault(row[key], []).append(row)
    return groups


def subjects(rows: Sequence[Row]) -> str:
    """The subjects of rows in few words, and how many: ``L1-L4 L7 (5)``; '' for the vehicle."""
    names = sorted((str(row["subject"]) for row in rows), key=natural)
    if names == ["vehicle"]:
        return ""
    return f"{ranges(names)} ({len(names)})" if len(names) > 1 else names[0]
