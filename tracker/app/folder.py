"""The build folder: finding one, starting one, reading what marks it."""

from __future__ import annotations

from dataclasses import dataclass
from os.path import isfile
from pathlib import Path

from tracker.build.names import clean
from tracker.errors import BadFile, BadInput, NoBuild, NotSaved

MARK = "build.toml"
FORMAT = 1
ATTRIBUTES = "journal/*.log -text\nphotos/* -text\n"


@dataclass(frozen=True, slots=True)
class Marked:
    """What ``build.toml`` says.

    Parameters
    ----------
    id: random, the same in every copy of the build.
    name: what its owner calls it.
    zone: the time zone of the yard, such as '+02:00'; for people, nothing is computed from it.
    """

    id: str
    name: str
    zone: str


def find(start: Path) -> Path | None:
    """The build folder that ``start`` is or lies in, or None."""
    for folder in (start, *start.parents):
        if isfile(folder / MARK):  # False, too, where nobody may look
            return folder
    return None


def need(explicit: Path | None, here: Path, last: Path | None = None) -> Path:
    """The build folder to work in.

    Parameters
    ----------
    explicit: what the person named, or None; it may lie inside a build.
    here: the folder they are in.
    last: the build opened last, where the command may fall back on it.

    Raises
    ------
    NoBuild: there is none; says how to start or name one.
    """
    if explicit is not None:
        if not explicit.exists():
            raise NoBuild(f"{explicit} does not exist; 'closein start {explicit}' begins a build")
        folder = find(explicit.resolve())
        if folder is None:
            raise NoBuild(
                f"{explicit} is no build (it has no {MARK}); "
                f"'closein start {explicit}' begins one there"
            )
        return folder
    folder = find(here.resolve()) or last
    if folder is None:
        raise NoBuild(
            "no build here or in a folder above; 'closein start FOLDER' begins one, "
            "'closein demo' shows an invented one, --build FOLDER names one"
        )
    return folder


def read_mark(folder: Path) -> Marked:
    """Read ``build.toml``; BadFile names what is wrong with it."""
    import tomllib

    path = folder / MARK
    try:
        table = tomllib.loads(path.read_text("utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        raise BadFile(str(path), None, f"can't be read: {error}") from None
    except tomllib.TOMLDecodeError as error:
        raise BadFile(str(path), None, f"is not TOML: {error}") from None
    if table.get("format") != FORMAT:
        raise BadFile(
            str(path), None, f"format is {table.get('format')!r}; this release reads {FORMAT}"
        )
    for key in ("id", "name"):
        if not isinstance(table.get(key), str) or not table[key]:
            raise BadFile(str(path), None, f"{key} is missing or no text")
    return Marked(table["id"], clean(table["name"]), str(table.get("zone", "")))


def create(folder: Path, marked: Marked) -> None:
    """Begin a build folder.

    Raises
    ------
    BadInput: there is one already, or the folder holds other things. NotSaved: the disk says no.
    """
    if find(folder.resolve()) is not None:
        raise BadInput(f"{folder} is or lies in a build already; choose another folder")
    name, zone = clean(marked.name).strip(), clean(marked.zone).strip()
    if not name:
        raise BadInput("a build needs a name that can be read; give --name TEXT")
    import tomli_w  # only the beginning of a build writes a mark

    try:
        if folder.exists() and any(not each.name.startswith(".") for each in folder.iterdir()):
            raise BadInput(f"{folder} holds other things; name a new or an empty folder")
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "photos").mkdir(exist_ok=True)
        attributes = folder / ".gitattributes"
        if not attributes.exists():
            attributes.write_text(ATTRIBUTES, "utf-8")
        text = tomli_w.dumps({"format": FORMAT, "id": marked.id, "name": name, "zone": zone})
        (folder / MARK).write_text(text, "utf-8")
    except OSError as error:
        raise NotSaved(f"{folder} can't be written ({error.strerror}); nothing was begun") from None
