"""``closein item``: what the build is made of."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any

from tracker.cli.desk import Desk
from tracker.cli.options import reading, writing
from tracker.errors import BadInput

SUMMARY = "Add, change, remove, list or show runs, holes, bays, zones and all the other items."
EXAMPLES = """\
  closein item add run L33 to="reading lamp" length=5.5m bay=B3,B4
  closein item add hole bay=B3 through=rib diameter="3/4 in"      gets the next name free
  closein item change L1-L4 gauge=14AWG
  closein item change L7 length=6.1m --why "moved the lamp"       needed once buried
  closein item list run --bay B3 ; closein item show L7"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    reading(parser)
    words = parser.add_subparsers(dest="word", metavar="add|change|remove|list|show")
    add = words.add_parser("add", help="a new item", description="Add an item of a kind.")
    add.add_argument("kind", metavar="KIND", help="run, hole, bay, zone, backing, person, ...")
    add.add_argument("words", nargs="*", metavar="[NAME] FIELD=VALUE", help="only what is known")
    writing(add)
    change = words.add_parser("change", help="set fields", description="Change fields of items.")
    change.add_argument("name", metavar="NAME", help="a name, a list or a range such as L1-L4")
    change.add_argument("values", nargs="+", metavar="FIELD=VALUE", help="name=NEW renames")
    change.add_argument("--why", metavar="TEXT", help="the reason, needed for what is buried")
    writing(change)
    remove = words.add_parser("remove", help="with the reason", description="Remove items.")
    remove.add_argument("name", metavar="NAME", help="a name, a list or a range")
    remove.add_argument("--why", metavar="TEXT", required=True, help="the reason")
    writing(remove)
    listed = words.add_parser("list", help="items of a kind", description="List items.")
    listed.add_argument("kind", nargs="?", metavar="KIND", help="run, hole, check, task, ...")
    listed.add_argument("--bay", metavar="B", help="only what lies in this bay")
    listed.add_argument("--zone", metavar="Z", help="only what lies in this zone")
    listed.add_argument("--removed", action="store_true", help="what was removed")
    listed.add_argument("--names", action="store_true", help="names alone, one a line")
    reading(listed)
    show = words.add_parser("show", help="one item, all of it", description="Show one item.")
    show.add_argument("name", metavar="NAME", help="its short name, or kind:name")
    reading(show)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Do what the second word says."""
    if args.word in (None, "list"):
        return _list(args, desk)
    if args.word == "show":
        return _show(args, desk)
    from tracker.app.views.log import act_words
    from tracker.app.wants import items

    if args.word == "add":
        name, given = named_values(args.words)
        intent = items.add(args.kind, name, given)
    elif args.word == "change":
        intent = items.change(args.name, values_of(args.values), args.why)
    else:
        intent = items.remove(args.name, args.why)
    session = desk.session()
    act = desk.do(session, intent, args)
    more = {"name": act.facts[0]["slug"]} if args.word == "add" else {}
    desk.saved(act, act_words(session, act), **more)
    return 0


def named_values(words: Sequence[str]) -> tuple[str | None, dict[str, str]]:
    """A name, where the first word is one, and the fields after it."""
    if words and "=" not in words[0]:
        return words[0], values_of(words[1:])
    return None, values_of(words)


def values_of(words: Sequence[str]) -> dict[str, str]:
    """Fields from ``field=value`` words; BadInput names one that is none."""
    values: dict[str, str] = {}
    for word in words:
        field, equals, value = word.partition("=")
        if not equals or not field.strip():
            raise BadInput(f"'{word}' is no FIELD=VALUE; write it like length=5.5m")
        if field.strip() in values:
            raise BadInput(f"{field.strip()} is given twice")
        values[field.strip()] = value
    return values


def _list(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.views.items import all_names, items_view

    kind = getattr(args, "kind", None)
    session = desk.session(fallback=True, quiet=bool(getattr(args, "names", False)))
    if getattr(args, "names", False):
        for name in all_names(session, kind):
            desk.say(name)
        return 0
    rows = items_view(
        session,
        kind,
        bay=getattr(args, "bay", None),
        zone=getattr(args, "zone", None),
        removed=getattr(args, "removed", False),
    )
    if desk.as_json:
        desk.json(rows)
    elif not rows:
        desk.say("nothing of that sort; 'closein item add KIND NAME' adds an item")
    else:
        desk.table([_cells(row, kind) for row in rows], ["kind", "name", "bay", "what is known"])
        desk.say(f"{len(rows)} items" if len(rows) != 1 else "1 item")
    return 0


def _cells(row: dict[str, Any], kind: str | None) -> list[str]:
    told = [row["title"] or ""] + [f"{name} {words}" for name, words in row["fields"].items()]
    if row["removed"]:
        told = [f"removed: {row['removed']}", *told]
    if row["unknown"]:
        told.append(f"unknown: {', '.join(row['unknown'])}")
    words = "; ".join(text for text in told if text)
    return [row["kind"], row["name"], ", ".join(row["bay"]), words]


def _show(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.views.items import item_view

    view = item_view(desk.session(fallback=True), args.name)
    if desk.as_json:
        desk.json(view)
        return 0
    desk.say(f"{view['kind_title']} {view['name']}", head=True)
    rows = list(view["fields"].items())
    if view["bay"]:
        rows.insert(0, ("bay", ", ".join(view["bay"])))
    if view["title"]:
        rows.insert(0, ("title", view["title"]))
    for field, values in view["conflicts"].items():
        rows.append(("in conflict", f"{field}: {' or '.join(values)}"))
    if view["unknown"]:
        rows.append(("still unknown", ", ".join(view["unknown"])))
    if view["buried"]:
        rows.append(("buried", f"since {view['covered_by']} was closed; a change needs its reason"))
    elif view["covered_by"]:
        rows.append(("covered by", view["covered_by"]))
    if view["named_by"]:
        rows.append(("named by", ", ".join(view["named_by"])))
    for answer in view["answers"]:
        rows.append((answer["check"], _answer_words(answer)))
    for note in view["notes"]:
        rows.append((note["when"][:10], f"{note['text']} ({note['by']})"))
    desk.table([[f"  {name}", words] for name, words in rows])
    return 0


def _answer_words(answer: dict[str, Any]) -> str:
    """How a check stands with the last answer, such as 'bad: measured 0.2 m by Ida on ...'."""
    state = {"stale": "out of date", "conflict": "in conflict"}.get(answer["state"])
    state = state or answer["state"]
    told = answer["was"] if answer["was"].startswith(state) else f"{state}: {answer['was']}"
    more = [
        f"second {answer['second']}" if answer["second"] else "",
        f"photo {answer['photo']}" if answer["photo"] else "",
        answer["note"] or "",
        (answer["because"] or "") if answer["state"] == "stale" else "",
    ]
    return "; ".join(text for text in (told, *more) if text)
