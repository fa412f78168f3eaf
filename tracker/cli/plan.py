"""``closein plan``: the plan as a TOML file, out and in again."""

from __future__ import annotations

import argparse
import sys
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.cli.desk import Desk
from tracker.cli.options import reading, writing
from tracker.errors import BadInput, CloseinError, NotSaved

if TYPE_CHECKING:
    from tracker.app.planfile import Difference
    from tracker.app.session import Session
    from tracker.build.state import Build

SUMMARY = "The plan as TOML: write it out, take it in as one act, or edit it in your editor."
EXAMPLES = """\
  closein plan export plan.toml
  closein plan import plan.toml          adds and changes; what a file leaves out stays
  EDITOR=nano closein plan edit"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    words = parser.add_subparsers(dest="word", metavar="export|import|edit", required=True)
    out = words.add_parser("export", help="write it out", description="Write the plan as TOML.")
    out.add_argument("file", nargs="?", metavar="FILE", help="a new file; else standard output")
    out.add_argument("--all", action="store_true", help="with what came from the phases")
    out.add_argument("--force", action="store_true", help="write over a file that is there")
    reading(out)
    taken = words.add_parser("import", help="take it in", description="Take a plan from TOML.")
    taken.add_argument("file", metavar="FILE", help="a TOML file, or - for standard input")
    edit = words.add_parser("edit", help="in $EDITOR", description="Edit the plan in $EDITOR.")
    edit.add_argument("--all", action="store_true", help="with what came from the phases")
    edit.add_argument("--again", action="store_true", help="go on with the text kept last time")
    for one in (taken, edit):
        one.add_argument("--why", metavar="TEXT", help="the reason, for what is buried")
        writing(one)


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Do what the second word says."""
    if args.word == "export":
        return _export(args, desk)
    if args.word == "import":
        session = desk.session()
        return _take(args, desk, session, _read(args.file), args.file, None)
    return _edit(args, desk)


def _export(args: argparse.Namespace, desk: Desk) -> int:
    from tracker.app.plantext import export

    session = desk.session(fallback=True)
    text = export(session.build, session.marked.name, everything=args.all)
    if args.file in (None, "-"):
        if desk.as_json:
            desk.json({"plan": text})
        else:
            desk.write(text)
        return 0
    path = Path(args.file)
    if path.exists() and not args.force:
        raise BadInput(f"{path} is there already; --force writes over it")
    _write(path, text)
    if desk.as_json:
        desk.json({"file": str(path)})
    else:
        desk.say(f"the plan is in {path}")
    return 0


def _take(
    args: argparse.Namespace, desk: Desk, session: Session, text: str, file: str, base: str | None
) -> int:
    """Take a text as one act, or say that it says nothing new."""
    from tracker.app.planfile import compare

    difference = compare(session.build, text, file, why=args.why, base=base)
    if not difference.facts:
        if desk.as_json:
            desk.json({"id": None, "saved": "nothing differs", "changes": []})
        else:
            desk.say("nothing differs, so nothing was written")
        return 0

    def intent(build: Build) -> list:
        return compare(build, text, file, why=args.why, base=base).facts

    act = desk.do(session, intent, args)
    if not desk.as_json:
        for line in difference.lines:
            desk.wrapped(line, indent="    ", first="")
    desk.saved(act, _counts(difference), changes=difference.lines)
    return 0


def _counts(difference: Difference) -> str:
    signs = [line[:1] for line in difference.lines]
    told = [
        f"{signs.count(sign)} {word}"
        for sign, word in (("+", "added"), ("~", "changed"), ("-", "removed"))
        if sign in signs
    ]
    return f"the plan: {', '.join(told)}"


def _edit(args: argparse.Namespace, desk: Desk) -> int:
    """Open the editor on the plan; on an error nothing is written and the text is kept."""
    from tracker.app.plantext import export

    session = desk.session()
    path = session.data / "edits" / f"{session.marked.id[:40]}.toml"
    before = path.with_suffix(".before")
    if args.again:
        base = _read(str(before))
    else:
        if path.exists():
            raise BadInput(
                f"an edit that was not taken is kept in {path}; 'closein plan edit --again' goes "
                "on with it, or remove that file"
            )
        base = export(session.build, session.marked.name, everything=args.all)
        path.parent.mkdir(parents=True, exist_ok=True)
        _write(before, base)
        _write(path, base)
    while True:
        try:
            _open_editor(path)
            status = _take(args, desk, session, _read(str(path)), str(path), base)
        except CloseinError as error:
            if _untouched(path, base):
                _forget(path, before)
                raise
            if not (sys.stdin.isatty() and sys.stdout.isatty()):
                raise _kept(error, path) from None
            desk.warn(str(error))
            if input("edit again? [Y/n] ").strip().casefold() in ("n", "no"):
                raise _kept(error, path) from None
            continue
        _forget(path, before)
        return status


def _untouched(path: Path, base: str) -> bool:
    try:
        return _read(str(path)) == base
    except CloseinError:
        return False


def _forget(*paths: Path) -> None:
    for path in paths:
        path.unlink(missing_ok=True)


def _kept(error: CloseinError, path: Path) -> CloseinError:
    where = "" if str(path) in str(error) else f" in {path}"
    kind = NotSaved if isinstance(error, NotSaved) else BadInput
    return kind(
        f"{error}; nothing was written, the text is kept{where}: 'closein plan edit --again'"
    )


def _open_editor(path: Path) -> None:
    import os
    import shlex
    import subprocess

    chosen = os.environ.get("VISUAL") or os.environ.get("EDITOR") or "vi"
    try:
        done = subprocess.run([*shlex.split(chosen), str(path)], check=False)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise BadInput(f"the editor '{chosen}' can't be started ({why}); set EDITOR") from None
    if done.returncode:
        raise BadInput(f"the editor '{chosen}' ended with an error ({done.returncode})")


def _read(name: str) -> str:
    try:
        raw = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        raise BadInput(f"{name} is not UTF-8 text") from None
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise BadInput(f"{name} can't be read: {reason}") from None


def _write(path: Path, text: str) -> None:
    """Write a file whole or not at all: where the disk is full, what stood there stays."""
    target = path.resolve()
    beside = target
    if target.is_file() or not target.exists():  # not a device such as /dev/stdout
        beside = target.with_name(f".{target.name}.new")
    try:
        beside.write_text(text, "utf-8")
        if beside != target:
            beside.replace(target)
    except OSError as error:
        if beside != target:
            with suppress(OSError):
                beside.unlink()
        raise NotSaved(f"{path} can't be written ({error.strerror})") from None
