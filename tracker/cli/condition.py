"""``closein condition``: temperatures, humidity, dew-point margin and rain, as read."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk
from tracker.cli.options import writing

SUMMARY = "Log conditions as read: surface, air, humidity, margin over the dew point, rain."
EXAMPLES = """\
  closein condition --surface 8C --air 62F --humidity 70%   the margin is worked out
  closein condition --rain --zone roof
  closein condition --air -2C --dry --when 06:30"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("--surface", metavar="T", help="temperature of the surface, such as 8C")
    parser.add_argument("--air", metavar="T", help="temperature of the air, such as 62F")
    parser.add_argument("--humidity", metavar="P", help="relative humidity, such as 70%%")
    parser.add_argument("--margin", metavar="K", help="surface over the dew point, such as 2.5K")
    sky = parser.add_mutually_exclusive_group()
    sky.add_argument("--rain", action="store_true", help="it rains")
    sky.add_argument("--dry", action="store_true", help="it does not")
    parser.add_argument("--zone", metavar="Z", help="read in this zone alone")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Record them; say which hold points they go against."""
    from tracker.app.views.log import act_words
    from tracker.app.wants.diary import condition
    from tracker.build.lapse import bad_weather

    session = desk.session()
    intent = condition(
        zone=args.zone,
        surface=args.surface,
        air=args.air,
        humidity=args.humidity,
        margin=args.margin,
        rain=True if args.rain else False if args.dry else None,
    )
    act = desk.do(session, intent, args)
    margin = act.facts[0].get("margin_k")
    desk.saved(act, act_words(session, act), margin_k=margin)
    if margin is not None and args.margin is None and not desk.as_json:
        desk.say("  the margin is worked out from the other three (Magnus formula)")
    for hold in session.cover.holds:
        worst = bad_weather(session.build, hold, str(act.facts[0].get("zone", "")))
        if worst is not None and worst[0].ref.rpartition("/")[0] == act.id:
            desk.warn(
                f"{worst[1]}; answers to {hold.slug} that weather voids are open again "
                "(the product's own sheet goes before these limits)"
            )
    return 0
