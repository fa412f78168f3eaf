"""The build folder: finding one, starting one, reading what marks it."""

from __future__ import annotations

from contextlib import suppress
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
            raise NoBuild(_no_build(explicit))
        return folder
    folder = find(here.resolve())
    if folder is None and _has_journal(here):
        raise NoBuild(_no_build(here))
    folder = folder or last
    if folder is None:
        raise NoBuild(
            "no build here or in a folder above; 'closein start FOLDER' begins one, "
            "'closein demo' shows an invented one, --build FOLDER names one"
        )
    return folder


def _has_journal(folder: Path) -> bool:
    return any((folder / "journal").glob("*.log"))


def _no_build(folder: Path) -> str:
    if _has_journal(folder):
        return (
            f"{folder} has a journal and no {MARK}; copy {MARK} from another copy of this build "
            "or from its history, for without it the record can't be told from another's"
        )
    if not folder.is_dir():
        return f"{folder} is a file and no build; --build names a folder"
    return f"{folder} is no build (it has no {MARK}); 'closein start {folder}' begins one there"


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

    made: list[Path] = []
    try:
        if folder.exists() and any(not each.name.startswith(".") for each in folder.iterdir()):
            raise BadInput(f"{folder} holds other things; name a new or an empty folder")
        for each in (folder, folder / "photos"):
            if not each.exists():
                made.append(each)
            each.mkdir(parents=True, exist_ok=True)
        text = tomli_w.dumps({"format": FORMAT, "id": marked.id, "name": name, "zone": zone})
        for file, words in ((folder / ".gitattributes", ATTRIBUTES), (folder / MARK, text)):
            if not file.exists():
                made.append(file)
                file.write_text(words, "utf-8")
    except OSError as error:
        _take_away(made)
        raise NotSaved(f"{folder} can't be written ({error.strerror}); nothing was begun") from None


def _take_away(made: list[Path]) -> None:
    """Remove what was made for a build that could not be begun, so that it can be tried again."""
    for each in reversed(made):
        with suppress(OSError):
            each.rmdir() if each.is_dir() else each.unlink()
