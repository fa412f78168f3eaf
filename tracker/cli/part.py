"""``closein part``: stock, by what happened to it."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from tracker.cli.desk import Desk
from tracker.cli.options import reading, writing
from tracker.errors import BadInput

if TYPE_CHECKING:
    from tracker.act import Act
    from tracker.app.session import Intent, Session
    from tracker.build.stock import Lot

SUMMARY = "Parts: what came, went, was counted; what to buy and cut; alone, the list."
EXAMPLES = """\
  closein part add glands unit=each needed=12 pack=10
  closein part receive glands 10 --at "shelf 2"
  closein part count wire-red 4.2m,3.1m --at reel  (or plenty, low, out)
  closein part order glands "1 pack" --due 2027-04-02"""

WORDS = {
    "list": "what is needed, here, on order; short ones first",
    "buy": "what to buy, from whom, by when; what must be ordered today first",
    "cuts": "which spool each piece of wire is cut from; nothing is joined",
    "add": "a new part",
    "receive": "a quantity came",
    "use": "a quantity was used",
    "move": "from one place to another",
    "count": "what is there: 12, 4.2m,3.1m, plenty, low, out, unknown",
    "order": "a quantity is on its way",
    "out": "there is none; raises a blocker",
    "set-aside": "keep a quantity for something",
}
QUANTITY = {
    "receive": "12, '31 m', '2 packs'",
    "order": "12, '31 m', '2 packs'",
    "move": "12, '31 m', all",
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    reading(parser)
    words = parser.add_subparsers(dest="word", metavar="WORD")
    for word, help_text in WORDS.items():
        one = words.add_parser(
            word, help=help_text, description=f"{help_text[:1].upper()}{help_text[1:]}."
        )
        if word in ("list", "buy", "cuts"):
            if word == "list":
                one.add_argument("--short", action="store_true", help="only what is short")
            if word == "cuts":
                one.add_argument("part", nargs="?", metavar="PART", help="only this part")
            reading(one)
            continue
        one.add_argument("part", metavar="PART", help="its short name")
        _more(word, one)
        writing(one)


def _more(word: str, one: argparse.ArgumentParser) -> None:
    if word == "add":
        one.add_argument("values", nargs="*", metavar="FIELD=VALUE", help="unit=m needed=31m ...")
    if word in ("receive", "use", "move", "order", "set-aside"):
        one.add_argument("quantity", metavar="QUANTITY", help=QUANTITY.get(word, "12, '31 m'"))
    if word == "count":
        one.add_argument("answer", metavar="COUNT", help="12; 4.2m,3.1m; plenty, low, out")
    if word == "move":
        one.add_argument("--to", required=True, metavar="PLACE", help="where it is now")
        one.add_argument("--from", dest="at", metavar="PLACE", help="where it was")
    elif word not in ("add", "order"):
        one.add_argument("--at", metavar="PLACE", help="shelf, bin, whose vehicle")
    if word in ("use", "set-aside"):
        needed = word == "set-aside"
        one.add_argument("--for", dest="what", required=needed, metavar="WHAT", help="what for")
    if word == "order":
        one.add_argument("--due", metavar="DATE", help="day it should come")
        one.add_argument("--from", dest="supplier", metavar="NAME", help="who sells it")
    if word == "out":
        one.add_argument("--no-blocker", action="store_true", help="only set it out")


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Record what happened to a part and print what is there now, or list them."""
    if args.word in (None, "list"):
        return _list(desk, short=getattr(args, "short", False))
    if args.word in ("buy", "cuts"):
        return _planned(desk, args)
    from tracker.app.views.log import act_words
    from tracker.app.views.parts import part_row
    from tracker.app.wants.parts import find
    from tracker.plan.shortage import shortage_of

    session = desk.session()
    before = _lots(session, args.part)
    act = desk.do(session, _intent(args), args)
    part = find(session.names, args.part)
    row = part_row(session, part, shortage_of(session.cover, part))
    desk.saved(act, act_words(session, act), part=row)
    if not desk.as_json:
        _print_now(desk, row)
    _doubt(desk, act, before, row)
    return 0


def _doubt(desk: Desk, act: Act, before: dict[str, Lot], row: dict[str, Any]) -> None:
    """Say where a count would put right what is known of a place."""
    right = f"'closein part count {row['part']} N' puts it right"
    for fact in act.facts:
        if fact["f"] != "stock.moved":
            continue
        lot, quantity = before.get(fact["place"]), float(fact["quantity"])
        there = lot.quantity if lot is not None else None
        if there is not None and there + quantity < 0:
            desk.warn(f"that is more than was known to be at {fact['place']}; {right}")
        elif lot is not None and there is None and fact["why"] == "received":
            desk.warn(f"{fact['place']} was never counted, only said to be {lot.level}; {right}")


def _intent(args: argparse.Namespace) -> Intent:
    from tracker.app.wants import items, parts

    match args.word:
        case "add":
            from tracker.cli.item import values_of

            return items.add("part", args.part, values_of(args.values))
        case "receive":
            return parts.receive(args.part, args.quantity, args.at)
        case "use":
            return parts.use(args.part, args.quantity, args.at, args.what)
        case "move":
            return parts.move(args.part, args.quantity, args.at, args.to)
        case "count":
            return parts.count(args.part, args.at, args.answer)
        case "order":
            return parts.order(args.part, args.quantity, args.due, args.supplier)
        case "out":
            return parts.out(args.part, args.at, raises_blocker=not args.no_blocker)
    return parts.set_aside(args.part, args.quantity, args.at, args.what)


def _lots(session: Session, name: str) -> dict[str, Lot]:
    """What is known of a part by place; nothing of a part that is not here."""
    from tracker.build.stock import lots_of

    try:
        part = session.names.find(name, ("part",))
    except BadInput:  # a new part, or an unknown one, which the intent will say
        return {}
    return lots_of(session.build, part)


def _print_now(desk: Desk, row: dict[str, Any]) -> None:
    from tracker.app.views.parts import amount_words, coming_words, where_words

    where = where_words(row)
    lines = [f"{row['part']}: {amount_words(row['on_hand'], row['unit'])} on hand"]
    lines[0] += f" ({where})" if where else ""
    if coming := coming_words(row):
        lines.append(f"on order: {coming}")
    if row["short"]:
        missing = amount_words(row["missing"], row["unit"]) if row["missing"] else None
        lines.append(f"short{f' by {missing}' if missing else ''}" + _stops(row))
    for line in lines:
        desk.wrapped(line, indent="    ", first="  ")


def _stops(row: dict[str, Any]) -> str:
    return f", which stops {', '.join(row['stops'])}" if row["stops"] else ""


def _planned(desk: Desk, args: argparse.Namespace) -> int:
    from tracker.cli.part_pages import print_buying, print_cuts

    session = desk.session(fallback=True)
    if args.word == "buy":
        from tracker.app.views.buying import buy_view

        bought = buy_view(session)
        desk.json(bought) if desk.as_json else print_buying(desk, bought)
        return 0
    from tracker.app.views.cuts import cuts_view

    plans = cuts_view(session, args.part)
    desk.json(plans) if desk.as_json else print_cuts(desk, plans)
    return 0


def _list(desk: Desk, *, short: bool) -> int:
    from tracker.app.views.parts import amount_words, coming_words, parts_view, where_words

    rows = parts_view(desk.session(fallback=True), short=short)
    if desk.as_json:
        desk.json(rows)
        return 0
    if not rows:
        desk.say("nothing is short" if short else "no parts yet; 'closein part add NAME' adds one")
        return 0
    desk.table(
        [
            [
                row["part"],
                "SHORT" if row["short"] else "",
                amount_words(row["on_hand"], row["unit"]),
                amount_words(row["needed"], row["unit"]) if row["needed"] is not None else "?",
                "; ".join(
                    text
                    for text in (
                        where_words(row),
                        f"on order {coming_words(row)}" if row["on_order"] else "",
                        f"stops {', '.join(row['stops'])}" if row["stops"] else "",
                    )
                    if text
                ),
            ]
            for row in rows
        ],
        ["part", "", "on hand", "needed", "where it lies, what comes, what it stops"],
    )
    return 0
