"""``closein done``: say how far a task is."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from tracker.cli.desk import Desk
from tracker.cli.options import writing

if TYPE_CHECKING:
    from tracker.app.session import Session

SUMMARY = "Say that a task is done, or half done, and the hours it took."
EXAMPLES = """\
  closein done label-runs --hours 3
  closein done pull-home-runs --half --hours 2h30 --next "the two to the rear"
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("task", metavar="TASK", help="the task's short name")
    parser.add_argument("--hours", metavar="H", help="crew-hours since it was last logged")
    parser.add_argument("--half", action="store_true", help="half of it is done")
    parser.add_argument("--next", metavar="TEXT", help="the next step on it")
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Record it; warn where it buries what nobody released."""
    from tracker.app.views.log import act_words
    from tracker.app.wants import tasks

    session = desk.session()
    fraction = 0.5 if args.half else 1.0
    act = desk.do(
        session,
        tasks.done(args.task, hours=args.hours, fraction=fraction, next_step=args.next),
        args,
    )
    desk.saved(act, act_words(session, act))
    for text in buried_unsigned(session, str(act.facts[0]["task"])):
        desk.warn(text)
    return 0


def buried_unsigned(session: Session, task: str) -> list[str]:
    """A warning for each hold point that a task buries and that is neither released nor closed.

    Parameters
    ----------
    task: its id.
    """
    from tracker.build.release import hold_standing

    cover, names = session.cover, session.names
    warnings = []
    for hold in cover.holds:
        if hold.get("closed_by") != task:
            continue
        states: dict[str, list[str]] = {}
        for zone in cover.zone_keys(hold):
            state = hold_standing(cover, hold, zone, session.now()).state
            if state not in ("released", "closed"):
                states.setdefault(state, []).extend([names.name(zone)] if zone else [])
        said = [
            f"{state}{' in ' + ', '.join(zones) if zones else ''}"
            for state, zones in states.items()
        ]
        if said:
            warnings.append(
                f"{names.name(task)} covers what {hold.slug} guards, and {hold.slug} is "
                f"{' and '.join(said)}; what is covered unchecked can't be reached again"
            )
    return warnings
