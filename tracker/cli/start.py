"""``closein start``: begin a build."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tracker.cli.desk import Desk
from tracker.cli.options import writing

if TYPE_CHECKING:
    from tracker.app.session import Session
    from tracker.build.kinds import Field

SUMMARY = "Begin a build in a folder of its own; only its name must be known."
EXAMPLES = """\
  closein start heron --body "box body" --length 7.6m
  closein start . --name "The print studio" --datum "front bulkhead, inside\""""
ASKED = (
    "body",
    "length_m",
    "width_m",
    "height_m",
    "datum",
    "datum_kept",
    "furring_m",
    "panel_m",
    "foam_m",
)
"""Fields of the vehicle that have an option here; all others: closein item change vehicle."""

NEXT = """\
next, with the build's folder as the one you are in:
  closein phases                        what there is to take up
  closein phases adopt rough-in-wiring insulation
  closein plan export plan.toml         then fill in zones, bays, runs, holes
  closein plan import plan.toml
  closein todo                          what is still to do"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word: one option for each thing known of the vehicle."""
    parser.add_argument("folder", nargs="?", default=".", metavar="FOLDER", help="new or empty")
    parser.add_argument("--name", metavar="TEXT", help="what the build is called")
    for field in vehicle_fields():
        parser.add_argument(
            option(field), dest=field.name, metavar=_metavar(field), help=_help(field)
        )
    writing(parser)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Make the folder, then the first act: the vehicle."""
    from tracker.app.session import Session
    from tracker.app.wants.values import take_values
    from tracker.build.fold import EMPTY
    from tracker.build.item import VEHICLE, add
    from tracker.build.kinds import kind_of
    from tracker.build.names import Names, clean
    from tracker.errors import BadInput

    if desk.build is not None:
        raise BadInput("start names its folder itself: closein start FOLDER, without --build")
    given = {field.name: getattr(args, field.name) for field in vehicle_fields()}
    told = {name: text for name, text in given.items() if text is not None}
    fields = take_values(kind_of(VEHICLE), told, Names(EMPTY))  # before anything is made
    folder = Path(args.folder)
    if not _half_begun(folder):
        _create(folder, args.name)
    session: Session = Session(folder.resolve())
    act = desk.do(session, lambda _: [add(VEHICLE, VEHICLE, fields, VEHICLE)], args)
    name = session.marked.name
    shown = clean(str(session.folder))
    desk.saved(act, f"the build '{name}' begins in {shown}", folder=str(session.folder))
    if not desk.as_json:
        desk.say(NEXT)
    return 0


def _create(folder: Path, name: str | None) -> None:
    import secrets

    from tracker.app.folder import Marked, create
    from tracker.app.session import now_here
    from tracker.build.names import clean
    from tracker.errors import BadInput

    called = clean(name if name is not None else folder.resolve().name).strip()
    if not called:
        raise BadInput("the build needs a name; give --name TEXT")
    create(folder, Marked(secrets.token_hex(8), called, f"{now_here():%:z}"))


def _half_begun(folder: Path) -> bool:
    """Is a build here whose first act the disk did not take?"""
    from tracker.app.folder import MARK
    from tracker.app.session import Session

    return (folder / MARK).is_file() and not Session(folder.resolve()).build.acts


def vehicle_fields() -> list[Field]:
    """The fields of the vehicle that can be given at once."""
    from tracker.build.kinds import kind_of

    return [kind_of("vehicle").fields[name] for name in ASKED]


def option(field: Any) -> str:
    """A field's option: its name without the unit, such as ``--length``."""
    name = str(field.name).rpartition("_")[0] if field.unit else str(field.name)
    return "--" + name.replace("_", "-")


def _help(field: Any) -> str:
    return f"{field.help}: {', '.join(field.of)}" if field.of else str(field.help)


def _metavar(field: Any) -> str:
    return "B" if field.of else "L" if field.unit else "TEXT"
