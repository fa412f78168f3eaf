"""Where things are kept outside the build: what the user's data folder remembers."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from tracker.build.names import clean
from tracker.journal.codec import checksum_of


def data_folder(environ: Mapping[str, str] = os.environ) -> Path:
    """The user's data folder for this program.

    ``CLOSEIN_DATA`` goes before ``XDG_DATA_HOME``, that before what the system says.
    """
    if environ.get("CLOSEIN_DATA"):
        return Path(environ["CLOSEIN_DATA"])
    if environ.get("XDG_DATA_HOME"):
        return Path(environ["XDG_DATA_HOME"]) / "closein"
    import platformdirs  # costs 30 ms, so only where no variable answers

    return Path(platformdirs.user_data_dir("closein", appauthor=False))


def own_phases(environ: Mapping[str, str] = os.environ) -> Path:
    """The folder of the user's own phase templates; it need not exist.

    ``CLOSEIN_CONFIG`` goes before ``XDG_CONFIG_HOME``, that before what the system says.
    """
    if environ.get("CLOSEIN_CONFIG"):
        return Path(environ["CLOSEIN_CONFIG"]) / "phases"
    if environ.get("XDG_CONFIG_HOME"):
        return Path(environ["XDG_CONFIG_HOME"]) / "closein" / "phases"
    import platformdirs  # costs 30 ms, so only where no variable answers

    return Path(platformdirs.user_config_dir("closein", appauthor=False)) / "phases"


def memory_file(data: Path, folder: Path) -> Path:
    """The file that remembers one build folder: the same folder, the same file."""
    place = str(folder.resolve()).encode("utf-8", "surrogateescape")
    return data / "builds" / f"{checksum_of(place)[:24]}.json"


def user_name(environ: Mapping[str, str] = os.environ) -> str:
    """The name acts are signed with unless another is given."""
    for variable in ("CLOSEIN_NAME", "USER", "LOGNAME"):
        name = clean(environ.get(variable, "")).strip()
        if name:
            return name
    return "somebody"


def remember_last(data: Path, folder: Path) -> None:
    """Remember the build opened last; a data folder that can't be written is no fault."""
    try:
        data.mkdir(parents=True, exist_ok=True)
        last = data / "last"
        text = str(folder.resolve())
        if not last.exists() or last.read_text("utf-8") != text:
            last.write_text(text, "utf-8")
    except (OSError, ValueError):
        return


def last_opened(data: Path) -> Path | None:
    """The build opened last, or None."""
    try:
        folder = Path((data / "last").read_text("utf-8"))
    except (OSError, ValueError):
        return None
    return folder if (folder / "build.toml").is_file() else None
