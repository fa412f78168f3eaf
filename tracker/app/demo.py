"""The invented demo build: a plan and a story that the program itself plays through.

``demo/items.toml`` and ``demo/parts.toml`` are the plan, in the format people write for import.
``demo/story.toml`` is what happened, step by step, each step dated by days before today. The steps
go through the same wants as everything people do, on a clock that stands at the step's moment; so
the demo has nothing that a person could not have entered. Steps marked ``copy`` are played on a
copy of the folder, taken before the first of them and brought back after the last.
"""

from __future__ import annotations

import re
import secrets
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

from tracker.act import Fact
from tracker.app import folder as folders
from tracker.app.demo_copy import brought_back, carried_home
from tracker.app.session import Intent, Session, now_here, random_writer
from tracker.build import item
from tracker.build.item import VEHICLE
from tracker.build.state import Build
from tracker.errors import BadFile, BadInput, Refused
from tracker.templates.shipped import PACKAGE, carried

ITEMS, PARTS, STORY = "items.toml", "parts.toml", "story.toml"

OWN_KEYS = ("day", "time", "by", "want", "each", "copy")
"""Keys of a step that are not arguments of its want."""

RELATIVE_DAY = re.compile(r"today([+-]\d{1,3})?")


def folder(package: Path = PACKAGE) -> Path:
    """The folder of the demo's data; ``package`` is another one only in tests."""
    return carried("demo", package)


def random_id() -> str:
    """A new build's id."""
    return secrets.token_hex(8)


def make(
    into: Path,
    now: datetime,
    data: Path | None = None,
    *,
    user: str | None = None,
    clock: Callable[[], datetime] = now_here,
    new_writer: Callable[[], str] = random_writer,
    source: Path | None = None,
) -> Session:
    """Make a fresh copy of the demo, with a build id of its own, and open it.

    Parameters
    ----------
    into: the new build's folder; it must be absent or empty.
    now: the moment that the story's days are counted from, with an offset.
    data: the user's data folder.
    user, clock: those of the session given back; the story has its own.
    new_writer: gives the writer's name; with the same name and ``now`` the same acts come out.
    source: the folder of the demo's data; another one only in tests.

    Raises
    ------
    BadInput: the folder holds something. NotSaved: the disk says no.
    """
    if into.exists() and not into.is_dir():
        raise BadInput(f"{into} is a file; name a folder that is new or empty")
    source = source or folder()
    story, steps = read_story(source, now)
    folders.create(into, folders.Marked(random_id(), story["name"], now.isoformat()[-6:]))
    playing = Session(
        into, clock=_stopped(steps[0][0]), user=story["owner"], new_writer=new_writer, data=data
    )
    playing.do(lambda _: [item.add(VEHICLE, VEHICLE, {}, VEHICLE)])
    with tempfile.TemporaryDirectory() as scratch:
        _play(playing, steps, source, now, Path(scratch))
    return Session(into, clock=clock, user=user, new_writer=new_writer, data=data)


def _play(
    first: Session,
    steps: Sequence[tuple[datetime, Mapping[str, Any]]],
    source: Path,
    now: datetime,
    scratch: Path,
) -> None:
    """Play the steps, those of the copy in a folder of its own inside ``scratch``."""
    in_copy = [number for number, (_, step) in enumerate(steps, 1) if step.get("copy")]
    copy: Session | None = None
    for number, (moment, step) in enumerate(steps, 1):
        if copy is None and number in in_copy:
            copy = carried_home(first, scratch)
        session = copy if copy is not None and number in in_copy else first
        session.clock = _stopped(moment)
        try:
            if step["want"] == "undo":
                session.undo()
            else:
                session.do(_intent(session, step, source, now), by=step.get("by"))
        except (BadInput, Refused, KeyError, TypeError) as error:
            raise BadFile(STORY, None, f"step {number} ({step['want']}): {error}") from error
        if copy is not None and number == in_copy[-1]:
            brought_back(copy, first.folder)


def _stopped(moment: datetime) -> Callable[[], datetime]:
    """A clock that stands still."""
    return lambda: moment


def read_story(source: Path, now: datetime) -> tuple[dict[str, str], list[tuple[datetime, Any]]]:
    """The story: name and owner of the build, and its steps with the moment of each.

    Raises
    ------
    BadFile: a step has no day, time or want, or lies before the one above it or not before now.
    """
    import tomllib

    table = tomllib.loads((source / STORY).read_text("utf-8"))
    steps = []
    last = datetime.min.replace(tzinfo=now.tzinfo)
    for number, step in enumerate(table["step"], 1):
        try:
            day = now.date() + timedelta(days=step["day"])
            moment = datetime.combine(day, time.fromisoformat(step["time"]), now.tzinfo)
            step["want"]
        except (KeyError, ValueError) as error:
            raise BadFile(STORY, None, f"step {number}: {error} is missing or wrong") from None
        if not last <= moment < now:
            raise BadFile(STORY, None, f"step {number} on day {step['day']} is out of order")
        steps.append((moment, step))
        last = moment
    return table["build"], steps


def _intent(session: Session, step: Mapping[str, Any], source: Path, now: datetime) -> Intent:
    """One step as one intent: all that it says, in one act."""
    by = step.get("by") or session.user
    rest = {name: _dated(value, now.date()) for name, value in step.items() if name not in OWN_KEYS}
    rows = [rest | _dated(row, now.date()) for row in step.get("each", [{}])]
    intents = [_want(session, step["want"], row, by, source) for row in rows]

    def intent(build: Build) -> Sequence[Fact]:
        return [fact for part in intents for fact in part(build)]

    return intent


def _dated(value: Any, today: date) -> Any:
    """``today+16`` as a date (ISO), wherever it stands alone as a value."""
    if isinstance(value, dict):
        return {name: _dated(inner, today) for name, inner in value.items()}
    found = RELATIVE_DAY.fullmatch(value) if isinstance(value, str) else None
    return (today + timedelta(days=int(found[1] or 0))).isoformat() if found else value


def _want(session: Session, want: str, row: dict[str, Any], by: str, source: Path) -> Intent:
    """The intent of one want, by the name that a step gives it."""
    from tracker.app.wants import blockers, diary, holds, items, parts, phases, tasks

    plain: dict[str, Callable[..., Intent]] = {
        "done": tasks.done,
        "add": items.add,
        "change": items.change,
        "remove": items.remove,
        "receive": parts.receive,
        "use": parts.use,
        "move": parts.move,
        "count": parts.count,
        "order": parts.order,
        "out": parts.out,
        "set-aside": parts.set_aside,
        "stuck": blockers.stuck,
        "unstuck": blockers.unstuck,
        "note": diary.note,
        "condition": diary.condition,
        "adopt": phases.adopt,
    }
    if want in plain:
        return plain[want](**row)
    if want == "items":
        return items.take_file((source / row["file"]).read_text("utf-8"), row["file"])
    if want == "book":
        return holds.book(row["hold"], row["on"], zone=row.get("zone"))
    if want == "check":
        return _each_alone(row, by)
    if want == "say":
        from tracker.app.wants import say

        return say.understand(session, row["line"], by)[0]
    if want == "fixture":
        from tracker.app.wants import drafting, fixtures

        return fixtures.add(drafting.Asked(**row))
    if want == "release":
        return holds.release(session, by=by, **row)
    if want == "close":
        return holds.close(session, **row)
    raise BadInput(f"no want is called '{want}'")


def _each_alone(row: dict[str, Any], by: str) -> Intent:
    """A check answered for its subjects: together, or ``alone`` one by one, or by ``values``."""
    from tracker.app.wants import checks

    rest = dict(row)
    alone: list[str] = rest.pop("alone", [])
    values: dict[str, str] = rest.pop("values", {})
    rows: Iterator[dict[str, Any]]
    if values:
        rows = ({"at": [name], "value": value} for name, value in values.items())
        rest["result"] = "measured"
    elif alone:
        rows = ({"at": [name]} for name in alone)
    else:
        rows = iter([{"at": rest.pop("at", [])}])
    intents = [checks.mark(**(rest | each), by=by) for each in rows]

    def intent(build: Build) -> list[Fact]:
        return [fact for part in intents for fact in part(build)]

    return intent
